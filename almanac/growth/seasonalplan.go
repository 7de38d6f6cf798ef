package growth

import (
	"math"

	"haulm/garden"
)

// times are when a kind rises in one year, at the reference site.
type times struct{ start, full, end float64 }

// timesIn reads a kind's windows for the rise that starts in a year: shoots by the
// middle of emerges, full by the start of flower (woody kinds cut in winter by
// cutsStand at the earliest), standing until the tops die.
func timesIn(kind *garden.Kind, way way, year int) times {
	start := shoots(kind, way, year)
	full := start + usualRise
	if len(kind.Bloom) > 0 {
		flower := after(start, kind.Bloom[0].From)
		if rise := flower - start; rise >= shortestRise && rise <= longestRise {
			full = flower
		}
	}
	if way == cutYearly {
		full = math.Max(full, on(cutsStand(), yearOf(start)))
	}
	return times{start, full, standsUntil(kind, way, start, full)}
}

// standsUntil is when the stems of a rise come down, or the leaves of bulbs wither.
func standsUntil(kind *garden.Kind, way way, start, full float64) float64 {
	last := full
	for _, flush := range kind.Bloom {
		if flower := after(start, flush.From); flower-start <= longestRise {
			last = math.Max(last, after(flower, flush.To))
		}
	}
	if way == bulb {
		return last + leavesAfterFlower
	}
	return math.Max(last+standsAfterFlower, after(start, topsDie()))
}

func shoots(kind *garden.Kind, way way, year int) float64 {
	switch {
	case kind.Emerges != nil:
		from := on(kind.Emerges.From, year)
		return from + (after(from, kind.Emerges.To)-from)/2
	case way == cutYearly:
		return on(growthStarts(), year)
	default:
		return on(shootsStart(), year)
	}
}

// after is the first time from a day on that a date comes round.
func after(from float64, date garden.MonthDay) float64 {
	year := yearOf(from)
	if day := on(date, year); day >= from {
		return day
	}
	return on(date, year+1)
}

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

// seasonShare is the share of eventual height in a season since planting; 0 is
// a planting of unknown age, taken for grown.
func (p *planner) seasonShare(age int) float64 {
	switch {
	case age == 0 || p.way == bulb || p.kind.LifeCycle == "annual":
		return 1
	case p.way == cutYearly:
		return p.frameShare(age)
	case p.kind.LifeCycle == "biennial" && age == 1 && p.kind.YearsToSize > 1:
		return biennialFirst
	}
	first, seasons := p.pace()
	if age >= seasons {
		return 1
	}
	return first + (1-first)*float64(age-1)/float64(seasons-1)
}

// frameShare is the share that a woody kind would have by the end of a season if
// nobody cut it: it too makes roots first, and its yearly shoots go with its frame.
func (p *planner) frameShare(age int) float64 {
	m, k := woodyShape(p.kind.Habit, p.kind.YearsToSize)
	frame := &woody{m: m, k: k, planted: 0}
	frame.segments = []segment{{cm: p.startCm, log: math.Log(p.startCm)}}
	grown := frame.at(spot{effort: established(float64(age))}, usual(p.size.mean))
	return math.Min(1, grown.cm/math.Exp(p.size.mean)/sizeAtYears)
}

// pace is the first season's share of the size and the seasons until the whole.
func (p *planner) pace() (first float64, seasons int) {
	switch p.kind.Pace {
	case "quick":
		return 1, 1
	case "slow":
		return firstSlow, max(fewestSlow, min(mostSlow, int(math.Round(p.kind.YearsToSize))))
	default:
		return firstOrdinary, ordinarySeasons
	}
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

// leaveAfterWinter sets what a kind that is cut every year starts from, recorded
// or usual; the cut of the planting's first winter is not expected.
func (p *planner) leaveAfterWinter(r *rise) {
	if p.way != cutYearly {
		return
	}
	if r.base == 0 {
		r.base = hardCutCm
		if p.kind.PruneGroup == "rose-repeating" {
			r.base = roseCutShare * math.Exp(p.size.mean) * r.share
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
	r.base = math.Min(r.base, 0.9*math.Exp(p.size.mean)*r.share)
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
		left = cutLeft * course.at(course.spot(c.day), usual(p.size.mean)).cm
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
