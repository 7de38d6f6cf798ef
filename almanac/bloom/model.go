package bloom

import (
	"math"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A Model is a garden's flushes with the model fitted to them. It is made for
// one day: what happened later is not in it. It keeps what it has reckoned, so
// it must not be used by two goroutines at once.
type Model struct {
	*fit
	flushes   []Flush
	on        garden.Day
	movedDays float64   // later in spring than the reference site, by the garden's place
	first     bool      // every look that tells anything is of one year
	cavities  []*cavity // what the rest says of each kind's rows, once asked for
	fitted    []*cavity // the same with the kind's own looks
	outlooked map[plantSeason][]outlook
	byPlant   map[string][]int
	byBed     map[bedYear][]int
	corners   map[bedYear]*corner
	parts     map[yearPart]SeasonPart
}

type plantSeason struct {
	kind int
	plantYear
}

// modelOf fits flushes as they stand.
func modelOf(flushes []Flush, on garden.Day, seasons []SeasonMean) *Model {
	l := layOut(flushes, seasons)
	first := l.seasons() <= 1 // before anything is set aside
	m := &Model{fit: newFit(l), flushes: flushes, on: on, first: first,
		cavities: make([]*cavity, len(l.kinds)), fitted: make([]*cavity, len(l.kinds)), outlooked: map[plantSeason][]outlook{}, byPlant: map[string][]int{},
		byBed: map[bedYear][]int{}, corners: map[bedYear]*corner{}, parts: map[yearPart]SeasonPart{}}
	for i, f := range flushes {
		m.byPlant[f.Plant] = append(m.byPlant[f.Plant], i)
		if f.Bed != "" {
			m.byBed[bedYear{f.Bed, f.Year}] = append(m.byBed[bedYear{f.Bed, f.Year}], i)
		}
	}
	return m
}

// of lists a planting's flushes by year and window.
func (m *Model) of(plant string) []int { return m.byPlant[plant] }

// seasons counts the years that any site is of.
func (l *layout) seasons() int {
	years := []int{}
	for _, k := range l.kinds {
		for _, s := range k.sites {
			years = append(years, s.year)
		}
	}
	slices.Sort(years)
	return len(slices.Compact(years))
}

// A forecast is when a flush opens, reckoned without its planting's season: a
// normal in days of its year, and the shares in its mean of what the season and
// the garden account for.
type forecast struct {
	mean, sd float64
	sdUsual  float64 // of all but season and chance
	corner   float64 // days that its bed shares a delay this year
	season   float64 // the season; with the garden's difference in a garden's first
	alone    bool    // nothing but the catalogue speaks for this kind
}

// forecast reckons one flush, with the delay that the other plantings of its bed
// share this year.
func (m *Model) forecast(i int) forecast {
	cast, f := m.alone(i), &m.flushes[i]
	if f.Bed == "" {
		return cast
	}
	days, variance := m.cornerOf(bedYear{f.Bed, f.Year}).without(f.Plant, f.Expected)
	cast.mean += days
	cast.sd = math.Sqrt(cast.sd*cast.sd + variance)
	cast.corner = days
	return cast
}

// alone reckons one flush whatever the rest of its bed does.
func (m *Model) alone(i int) forecast {
	p := m.places[i]
	f := &m.flushes[i]
	out := plantYear{p.plant, f.Year}
	o := m.outlook(p.kind, out)[p.row]
	season := o.season
	if m.first {
		season = o.together
	}
	return forecast{mean: f.Expected + p.later + o.mean, sd: math.Hypot(math.Sqrt(o.variance), chanceSD(m.spreads.chance, p.first)), sdUsual: math.Sqrt(o.usual),
		season: season, alone: m.kinds[p.kind].silentWithout(out)}
}

// outlook gives the rows of a kind as one planting's left-out year sees them.
func (m *Model) outlook(kind int, out plantYear) []outlook {
	key := plantSeason{kind, out}
	if found, ok := m.outlooked[key]; ok {
		return found
	}
	looks := m.reckonOutlook(kind, out)
	m.outlooked[key] = looks
	return looks
}

func (m *Model) reckonOutlook(kind int, out plantYear) []outlook {
	if sites, held := m.kinds[kind].leavesOut(out); held {
		if m.fitted[kind] == nil {
			m.fitted[kind] = m.fittedRows(kind)
		}
		return m.heldOut(kind, out.plant, sites, m.fitted[kind])
	}
	if m.cavities[kind] == nil {
		m.cavities[kind] = m.cavityOf(kind)
	}
	return m.refit(kind, out, m.cavities[kind]).outlooks()
}

// silentWithout says whether nothing informs the kind but what is left out.
func (k *kindBlock) silentWithout(out plantYear) bool {
	return !slices.ContainsFunc(k.sites, func(s site) bool { return !out.holds(s) })
}

// beyond is the chance of opening after a day.
func (f forecast) beyond(day float64) float64 { return stats.NormalCDF((f.mean - day) / f.sd) }

// opening is the band of days on which it opens, not rounded.
func (f forecast) opening() Band {
	at := func(p float64) float64 { return f.mean + f.sd*stats.NormalQuantile(p) }
	return Band{at(0.05), at(0.10), at(0.50), at(0.90), at(0.95)}
}

func (b Band) rounded() Band {
	return Band{stats.RoundDays(b.P05), stats.RoundDays(b.P10), stats.RoundDays(b.P50), stats.RoundDays(b.P90), stats.RoundDays(b.P95)}
}
