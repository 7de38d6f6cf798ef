package growth

import "math"

// leaveAfterWinter sets what a kind that is cut every year starts from, recorded
// or usual; the cut of the planting's first winter is not expected.
func (p *planner) leaveAfterWinter(r *rise) {
	if p.way != cutYearly {
		return
	}
	if r.base == 0 {
		r.base = hardCutCm
		if p.kind.PruneGroup == "rose-repeating" {
			r.base = roseCutShare * p.size.cm() * r.share
		}
	}
	cut := math.Min(on(winterCut(), yearOf(r.start)), r.start)
	if cut > p.planted || !p.dated {
		r.from = cut
	}
	for _, w := range p.cuts {
		if w.day > r.start-halfYear && w.day <= r.start {
			r.from = w.day
			if w.left > 0 {
				r.base = w.left
			}
		}
	}
	r.base = math.Min(r.base, 0.9*p.size.cm()*r.share)
}

// cutInGrowth splits the last rise at each cut or division in it.
func (p *planner) cutInGrowth(course *seasonal) {
	for _, c := range p.cuts {
		r := &course.rises[len(course.rises)-1]
		if c.day <= r.start || c.day > r.end {
			continue
		}
		next := p.stump(*r, c)
		if c.day < r.full && !c.divides {
			next = p.regrowth(*r, c)
		}
		r.end = c.day
		course.rises = append(course.rises, next)
	}
}

// stump is what stands for the rest of a season after a cut in or past flower, or
// a division: nothing more is judged.
func (p *planner) stump(r rise, c cut) rise {
	r.from, r.start, r.full, r.plain, r.lost = c.day, c.day, c.day+usualRise, false, 1
	r.base, r.keeps = c.left, 0
	if c.left == 0 && !p.diesDown() {
		r.keeps = evergreenBase
	}
	return r
}

// regrowth is the rise after a cut in growth: somewhat shorter, and later. It is
// judged only where it is known what was left.
func (p *planner) regrowth(r rise, c cut) rise {
	left := c.left
	if left == 0 {
		course := &seasonal{[]rise{r}}
		left = cutLeft * course.at(course.spot(c.day), p.size.usual()).cm
	}
	next := r
	next.from, next.start, next.plain = c.day, c.day, r.plain && c.left > 0
	next.full = c.day + math.Max(leastRegrowth, (r.full-r.start)/2)
	next.end = math.Max(r.end, next.full)
	next.base, next.keeps, next.lost = left, 0, 1-regrowthShare
	return next
}

// dividedBetween says whether the planting was divided after one day and up to
// another.
func (p *planner) dividedBetween(from, to float64) bool {
	for _, c := range p.cuts {
		if c.divides && c.day > from && c.day <= to {
			return true
		}
	}
	return false
}
