package bloom

import (
	"cmp"
	"math"
	"slices"

	"haulm/garden"
)

// A row is what all plantings of one kind share in one window and year: where
// the catalogue expects it and which stretch of season it feels.
type row struct {
	window   int // among its kind's windows
	year     int
	expected float64 // day of year
	mean     float64 // of the season, by its weather or where it was given
	knots    blend   // its knots by their number among the fit's
	heat     float64 // days that its heat came later than usual
	spring   float64 // how far it is in the time of year when seasons move flower most, 0 to 1
	terms    []term  // the globals that it touches and by how much
	opened   float64 // how many flushes inform it
}

// A kindBlock is one kind with its rows, plantings and sites, and the present
// values of what belongs to it alone.
type kindBlock struct {
	id       string
	windows  []int     // catalogue indices
	windowSD []float64 // how far each may be off
	rows     []row
	plants   []string
	sites    []site    // that inform, by planting
	start    []int     // where each planting's sites start, and their end
	at       int       // where its values start among the fit's
	shift    []float64 // of each window
	habits   []float64 // of each planting
	habitSD  float64
}

// A place says where a flush stands in the fit.
type place struct {
	kind, row, plant int
	later            float64
	first            bool // the first season after planting
}

// A SeasonMean is what is known of a season beforehand, from weather.
type SeasonMean struct {
	Year int
	Days float64
}

// A layout is a garden's flushes sorted into kinds, rows and plantings.
type layout struct {
	kinds   []*kindBlock
	places  []place   // of each flush
	knots   []int     // numbers on the line of time, ascending
	springs []float64 // how far each knot is in the time of year when seasons move flower most, 0 to 1
	heated  int       // 1 where any row's heat is known, else 0
}

// canonical is the order in which flushes are reckoned, whatever order they
// came in: sums then agree to the last bit.
func canonical(a, b Flush) int {
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Plant, b.Plant),
		cmp.Compare(a.Year, b.Year), cmp.Compare(a.Index, b.Index),
		cmp.Compare(bound(a.After, -1), bound(b.After, -1)), cmp.Compare(bound(a.By, 1), bound(b.By, 1)))
}

// bound is a bound as a number, infinite on the given side when not known.
func bound(b *float64, side int) float64 {
	if b == nil {
		return math.Inf(side)
	}
	return *b
}

// layOut sorts flushes, which are in canonical order, into a layout.
func layOut(flushes []Flush, seasons []SeasonMean) *layout {
	l := &layout{places: make([]place, len(flushes))}
	for i, f := range flushes {
		if len(l.kinds) == 0 || l.kinds[len(l.kinds)-1].id != f.Kind {
			l.kinds = append(l.kinds, &kindBlock{id: f.Kind, habitSD: sdHabit})
		}
		k := l.kinds[len(l.kinds)-1]
		p := place{kind: len(l.kinds) - 1, row: k.rowOf(f, seasons), plant: k.plantOf(f.Plant)}
		p.later, p.first = f.LaterDays, f.FirstSeason
		l.places[i] = p
		k.add(f, p)
	}
	l.numberKnots()
	for _, k := range l.kinds {
		k.countSites()
	}
	return l
}

// countSites notes where each planting's sites start, and how many each row has.
func (k *kindBlock) countSites() {
	k.start = make([]int, len(k.plants)+1)
	for i := range k.rows {
		k.rows[i].opened = 0
	}
	for _, s := range k.sites {
		k.start[s.plant+1]++
		k.rows[s.row].opened++
	}
	for i := range k.plants {
		k.start[i+1] += k.start[i]
	}
}

// rowOf finds or makes the row of a flush.
func (k *kindBlock) rowOf(f Flush, seasons []SeasonMean) int {
	window := slices.Index(k.windows, f.Index)
	if window < 0 {
		window = len(k.windows)
		k.windows, k.windowSD = append(k.windows, f.Index), append(k.windowSD, f.SD)
	}
	for i, r := range k.rows {
		if r.window == window && r.year == f.Year {
			return i
		}
	}
	newYear := float64(garden.DayOf(f.Year, 1, 1))
	r := row{window: window, year: f.Year, expected: f.Expected, knots: blendAt(newYear+f.Expected-1, f.SeasonSD),
		mean: heatResponse * f.HeatDays, heat: f.HeatDays, spring: (f.SeasonSD - seasonSDLeast) / (seasonSDLargest - seasonSDLeast)}
	for _, s := range seasons {
		if s.Year == f.Year {
			r.mean = s.Days
		}
	}
	k.rows = append(k.rows, r)
	return len(k.rows) - 1
}

// plantOf finds or makes a planting; flushes come sorted, so it is the last.
func (k *kindBlock) plantOf(plant string) int {
	if n := len(k.plants); n == 0 || k.plants[n-1] != plant {
		k.plants = append(k.plants, plant)
	}
	return len(k.plants) - 1
}

// add makes the site of a flush that may teach.
func (k *kindBlock) add(f Flush, p place) {
	if f.Standing.Kind != Open {
		return
	}
	r := &k.rows[p.row]
	s := site{row: p.row, plant: p.plant, year: f.Year, first: p.first, sd: chanceSD(sdChance, p.first)}
	s.lo = bound(f.After, -1) - r.expected - p.later
	s.hi = bound(f.By, 1) - r.expected - p.later
	if s.informs() {
		k.sites = append(k.sites, s)
	}
}

// chanceSD is the spread of chance, with the first season's where it is one: as
// that touches one season only, it is not told apart from chance.
func chanceSD(chance float64, first bool) float64 {
	if first {
		return math.Hypot(chance, sdFirstSeason)
	}
	return chance
}

// numberKnots collects the knots in use and has each row name what it touches.
func (l *layout) numberKnots() {
	for _, k := range l.kinds {
		for _, r := range k.rows {
			l.knots = append(l.knots, r.knots.left, r.knots.right)
		}
	}
	slices.Sort(l.knots)
	l.knots = slices.Compact(l.knots)
	l.springs = make([]float64, len(l.knots))
	for _, k := range l.kinds {
		for i := range k.rows {
			r := &k.rows[i]
			r.knots.left, _ = slices.BinarySearch(l.knots, r.knots.left)
			r.knots.right, _ = slices.BinarySearch(l.knots, r.knots.right)
			l.springs[r.knots.left], l.springs[r.knots.right] = r.spring, r.spring
			r.terms = []term{{theGarden, 1}, {firstKnot + r.knots.left, r.knots.leftWeight}, {firstKnot + r.knots.right, r.knots.rightWeight}}
			if r.heat != 0 {
				l.heated = 1
				r.terms = append(r.terms, term{firstKnot + len(l.knots), sdHeatResponse * r.heat})
			}
		}
	}
}

// A term is a global that a row touches, by its place, and by how much.
type term struct {
	at     int
	weight float64
}

// The places among the globals: the garden's difference, then the knots, then,
// where heat is known, how far the garden's response to it differs, in sds.
const theGarden, firstKnot = 0, 1

// globalsInAll is how many globals the layout has.
func (l *layout) globalsInAll() int { return firstKnot + len(l.knots) + l.heated }
