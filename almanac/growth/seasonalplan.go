package growth

import "math"

// seasonalPlan lays out the rises from the year before planting (or, where that
// is not known, before the first band day) to the year after the last.
func (p *planner) seasonalPlan() *seasonal {
	course := &seasonal{}
	first, last := yearOf(p.since)-1, yearOf(p.until)+1
	now := timesIn(p.kind, p.way, first)
	age, divided := 0, false
	before := now.start
	for year := first; year <= last; year++ {
		next := timesIn(p.kind, p.way, year+1)
		r := rise{season: yearOf(now.full), start: now.start, full: now.full, end: math.Min(now.end, next.start-1),
			dies: p.diesDown(), plain: true, keeps: p.keeps()}
		split := p.dividedBetween(before, now.start)
		before, now = now.start, next
		if !p.grows(&r, age) {
			continue
		}
		if split {
			age, divided = 0, true // the pieces start their years again
		}
		if p.dated || divided {
			age++
		}
		if p.over(age) {
			break
		}
		r.age, r.share, r.from = age, p.seasonShare(age), r.start
		r.dies = r.dies || p.over(age+1) // its last
		p.leaveAfterWinter(&r)
		course.rises = append(course.rises, r)
		p.cutInGrowth(course)
	}
	return course
}

// grows fits the first rise to the planting date; false while the planting was
// not there yet, or came too late in the season to grow.
func (p *planner) grows(r *rise, age int) bool {
	if !p.dated || age > 0 || r.start >= p.planted {
		return true
	}
	annual := p.kind.LifeCycle == "annual"
	if r.end <= p.planted || !annual && r.full-p.planted < leastFirstRise {
		return false
	}
	if annual {
		r.full = math.Max(r.full, p.planted+math.Min(r.full-r.start, usualRise))
		r.end = math.Max(r.end, r.full+standsAfterFlower)
	}
	r.start = p.planted
	if !p.startFree {
		r.base = p.startCm
	}
	return true
}

// over says whether a plant of this kind has lived out its years by a season.
func (p *planner) over(age int) bool {
	switch p.kind.LifeCycle {
	case "annual":
		return age > 1
	case "biennial":
		return age > 2
	}
	return false
}

func (p *planner) diesDown() bool {
	return p.way != cutYearly && (p.kind.Foliage == "dies-down" || p.kind.Foliage == "winter-green" || p.kind.LifeCycle == "annual")
}

func (p *planner) keeps() float64 {
	if p.way == cutYearly || p.diesDown() {
		return 0
	}
	return evergreenBase
}
