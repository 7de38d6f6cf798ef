package growth

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"haulm/garden"
)

// A way is one of the ways in which kinds grow.
type way int

const (
	woodyGrowth way = iota
	cutYearly       // woody, cut hard each winter
	herbaceous
	bulb
)

// wayOf sorts a kind by habit, foliage and pruning group. Repeating roses are cut
// hard as bushes, not as climbers.
func wayOf(kind *garden.Kind) way {
	switch {
	case kind.Habit == "bulb":
		return bulb
	case kind.LifeCycle == "annual" || kind.Foliage == "dies-down" || kind.Foliage == "winter-green":
		return herbaceous
	case kind.Habit == "shrub" || kind.Habit == "climber" || kind.Habit == "tree":
		switch group := kind.PruneGroup; {
		case group == "late-winter-hard" || group == "clematis-3" || group == "rose-repeating" && kind.Habit == "shrub":
			return cutYearly
		}
		return woodyGrowth
	default:
		return herbaceous
	}
}

// A prior is what is thought of the logarithm of a spread before measuring.
type prior struct{ mean, sd float64 }

// priorOf reads a kind's range as holding all but one plant in twenty.
func priorOf(cm garden.Range) prior {
	lo, hi := math.Max(cm[0], 1), math.Max(cm[1], 1)
	return prior{(math.Log(lo) + math.Log(hi)) / 2, math.Max(leastSpreadSD, math.Log(hi/lo)/(2*fortieth))}
}

// A cut is work that took height away, or divided the planting.
type cut struct {
	day     float64
	left    float64 // cm; 0 not recorded
	divides bool
}

// A height is a measured one.
type height struct {
	day  float64
	date garden.Day
	cm   float64
}

// A planner gathers what is known of a planting before its course is laid out.
type planner struct {
	kind      *garden.Kind
	way       way
	calendar  calendar
	size      sizeRange
	dated     bool
	planted   float64
	moved     bool      // it had grown elsewhere: not sown in its place
	startCm   float64   // height when planted, recorded or usual
	startFree bool      // it was not recorded
	moves     []float64 // days on which it was planted again, in order
	cuts      []cut
	heights   []height // up to today
	today     float64
	since     float64 // the first day of the course
	until     float64
}

func newPlanner(in *Input, until garden.Day) *planner {
	p := &planner{kind: &in.Kind, way: wayOf(&in.Kind), calendar: calendarOf(in), size: sizeRangeOf(in.Kind.HeightCm)}
	p.today, p.until = p.calendar.in(in.On), p.calendar.in(max(until, in.On))
	p.readHeights(in)
	p.readPlanting(in)
	p.readWork(in)
	for _, day := range in.Moves {
		if day <= in.On {
			p.moves = append(p.moves, p.calendar.in(day))
		}
	}
	slices.Sort(p.moves)
	return p
}

// settledSince is when it was last planted; false where that is not known.
func (p *planner) settledSince() (float64, bool) {
	if len(p.moves) > 0 {
		return p.moves[len(p.moves)-1], true
	}
	return p.planted, p.dated
}

// readPlanting takes a date of which only month or year is known at its end, so
// that a planting is never taken for older than it may be; but it was there when
// first measured.
func (p *planner) readPlanting(in *Input) {
	p.startCm, p.startFree = usualStart(in, p.size.cm()), in.HeightCm == nil
	if in.HeightCm != nil {
		p.startCm = math.Max(*in.HeightCm, leastCm)
	}
	p.since = p.today - bandBack
	if len(p.heights) > 0 {
		p.since = math.Min(p.since, p.heights[0].day)
	}
	if in.Planted == nil {
		return
	}
	p.dated, p.planted, p.moved = true, p.calendar.in(in.Planted.Last), in.Form != "seed"
	earliest := p.calendar.in(in.Planted.First)
	p.heights = slices.DeleteFunc(p.heights, func(h height) bool { return h.day < earliest })
	if len(p.heights) > 0 {
		p.planted = math.Min(p.planted, p.heights[0].day)
	}
	p.since = p.planted
}

func (p *planner) readHeights(in *Input) {
	for _, m := range in.Measures {
		if m.HeightCm != nil && *m.HeightCm > 0 && m.Day <= in.On {
			p.heights = append(p.heights, height{p.calendar.in(m.Day), m.Day, math.Max(*m.HeightCm, leastCm)})
		}
	}
	slices.SortStableFunc(p.heights, func(a, b height) int { return int(a.date) - int(b.date) })
}

func (p *planner) readWork(in *Input) {
	for _, w := range in.Work {
		cuts, divides := cutting(w)
		day := p.calendar.in(w.Day)
		if !cuts || w.Day > in.On || p.dated && day <= p.planted {
			continue
		}
		c := cut{day: day, divides: divides}
		if w.HeightLeftCm != nil {
			c.left = math.Max(*w.HeightLeftCm, leastCm)
		}
		p.cuts = append(p.cuts, c)
	}
	slices.SortStableFunc(p.cuts, func(a, b cut) int { return cmp.Compare(a.day, b.day) })
}

// cutting says whether work takes height away, by its first word in any form
// ("prune", "pruned", "cut-back", "cut back"), or because a height was left.
func cutting(w Work) (cuts, divides bool) {
	what := strings.ToLower(w.What)
	divides = strings.HasPrefix(what, "divi")
	cuts = divides || w.HeightLeftCm != nil || strings.HasPrefix(what, "prun") || strings.HasPrefix(what, "cut") || strings.HasPrefix(what, "shear")
	return cuts, divides
}

// usualStart is the usual height of a new plant of a form.
func usualStart(in *Input, eventual float64) float64 {
	cm := float64(otherCm)
	switch in.Form {
	case "seed":
		cm = seedCm
	case "plug":
		cm = plugCm
	case "cutting":
		cm = cuttingCm
	case "division":
		cm = divisionCm
	case "bulb":
		cm = bulbCm
	case "bare-root":
		cm = bareRootCm
	case "pot":
		if in.PotL != nil {
			cm = potCmPerRootLitre * math.Sqrt(*in.PotL)
		}
	}
	return math.Min(cm, nurseryShare*eventual)
}

// course lays out how the planting runs; false where nothing says when it began.
func (p *planner) course() (course, bool) {
	if p.way == woodyGrowth {
		return p.woodyPlan()
	}
	return p.seasonalPlan(), true
}
