package assess

import (
	"cmp"
	"slices"

	"haulm/almanac/bloom"
	"haulm/almanac/stats"
	"haulm/garden"
)

// What cold a planting stands, and how long it is asked about.
const (
	// potMarginC: roots in a container freeze through where those in the ground do
	// not, and want a kind that stands 5 °C more, about one zone of hardiness
	// (common practice says one to two).
	potMarginC = 5
	// fleeceC is what a layer of fleece keeps off, or straw, or another wrap put on
	// as protection (common practice: two to four degrees).
	fleeceC = 3
	// frostAskedDays is how long a frost is asked about when nobody has seen the
	// plant live since: from the first of winter into summer, by when everything
	// that lives has leaf.
	frostAskedDays = 240
	// protectedDays before a frost a wrap may have been put on: in autumn.
	protectedDays = 150
)

// frostFindings tells of frost below what the kind stands, as long as nobody has
// seen the planting alive after it. Where no weather is known nothing is told.
func (e *Engine) frostFindings(r *reckoned, planting garden.Planting, kind garden.Kind) []Finding {
	if sheltered(planting.Cover) || isColony(kind) || e.anyCold[planting.Kind] {
		return nil // a colony is back from its seed
	}
	limit := kind.MinWinterC + e.marginC(planting)
	nights := e.nightsBelow(r, planting, kind, limit)
	if len(nights) == 0 {
		return nil
	}
	coldest := slices.MinFunc(nights, func(a, b daysWeather) int { return compareCold(a, b) })
	last := nights[len(nights)-1].day
	if e.livedAfter(planting.ID, last, r.on) {
		return nil
	}
	count, min, stands := len(nights), stats.Round7(*coldest.minC), stats.Round7(limit)
	evidence := []Evidence{{Say: "frost-below", Day: &coldest.day, C: &min, LimitC: &stands}}
	if count > 1 {
		evidence = append(evidence, Evidence{Say: "nights-below", Count: &count, Day: &last})
	}
	if limit != kind.MinWinterC {
		evidence = append(evidence, Evidence{Say: e.marginCode(planting), C: &kind.MinWinterC})
	}
	return []Finding{{Planting: planting.ID, Year: coldest.day.Year(), Verdict: "frost-below-minimum",
		WorthALook: e.tellsByNow(r, kind, last), Evidence: evidence, Check: frostChecks(kind)}}
}

// sheltered tells whether a planting stands under a roof, where the garden's
// weather is not its own.
func sheltered(cover string) bool {
	return cover != "" && cover != "none" && cover != "fleece"
}

// compareCold orders nights by their minimum, then by day.
func compareCold(a, b daysWeather) int {
	return cmp.Or(cmp.Compare(*a.minC, *b.minC), cmp.Compare(a.day, b.day))
}

// marginC is by how much more, in °C, a planting suffers where it stands than its
// kind does in open ground; negative where it is wrapped.
func (e *Engine) marginC(planting garden.Planting) float64 {
	margin := 0.0
	if e.beds[planting.Bed].Container {
		margin += potMarginC
	}
	if planting.Cover == "fleece" {
		margin -= fleeceC
	}
	return margin
}

func (e *Engine) marginCode(planting garden.Planting) string {
	if e.beds[planting.Bed].Container {
		return "pot-margin"
	}
	return "fleece-margin"
}

// nightsBelow lists the nights, oldest first, in which it froze below what a
// planting stands while it stood outside.
// An annual is asked about until it flowers: after that a frost is its end.
func (e *Engine) nightsBelow(r *reckoned, planting garden.Planting, kind garden.Kind, limitC float64) []daysWeather {
	from, to := r.on-frostAskedDays, r.on
	if planting.Planted != nil {
		from = max(from, planting.Planted.Last)
	}
	if kind.LifeCycle == "annual" && len(kind.Bloom) > 0 {
		to = min(to, e.flowersFrom(r, planting, kind))
	}
	var nights []daysWeather
	care := tending{works: r.works[planting.ID]}
	for _, night := range e.sky.between(from, to) {
		if night.minC == nil || *night.minC >= limitC {
			continue
		}
		care.upTo(night.day)
		if !care.lifted && (!care.wrapped(night.day) || *night.minC < limitC-fleeceC) {
			nights = append(nights, night)
		}
	}
	return nights
}

// flowersFrom is when a planting of a kind usually flowers first: of what was there
// before, in the year of the day.
func (e *Engine) flowersFrom(r *reckoned, planting garden.Planting, kind garden.Kind) garden.Day {
	if planting.Planted == nil {
		return e.usually(r, kind.Bloom[0].From, r.on.Year())
	}
	planted := planting.Planted.Middle()
	first := e.usually(r, kind.Bloom[0].From, planted.Year())
	if first < planted {
		return e.usually(r, kind.Bloom[0].From, planted.Year()+1)
	}
	return first
}

// A tending goes along with the nights through the work on a planting, which is
// sorted by day.
type tending struct {
	works    []garden.Work // still to come
	wrapping *garden.Day   // the last; nil while there was none
	lifted   bool          // and not yet planted again
}

func (t *tending) upTo(night garden.Day) {
	for ; len(t.works) > 0 && *t.works[0].Day <= night; t.works = t.works[1:] {
		switch t.works[0].What {
		case "protect":
			t.wrapping = t.works[0].Day
		case "lift":
			t.lifted = true
		case "plant":
			t.lifted = false
		}
	}
}

// wrapped tells whether a planting was protected for the winter of a night.
func (t *tending) wrapped(night garden.Day) bool {
	return t.wrapping != nil && *t.wrapping > night-protectedDays
}

// frostShowsDays is how long after a frost it shows what it killed (common
// practice: wait and see, for leaves blacken in days but wood only dries up in
// weeks).
const frostShowsDays = 21

// livedAfter tells whether anybody has seen a planting live since a frost had time
// to show.
func (e *Engine) livedAfter(planting string, frost, on garden.Day) bool {
	return slices.ContainsFunc(e.looks.until(planting, on), func(s *seen) bool {
		growing := s.Stage != nil && *s.Stage >= firstUpStage && *s.Stage <= lastUpStage
		well := s.Vigour != nil && *s.Vigour >= fairVigour || s.CountAlive != nil && *s.CountAlive > 0
		return s.day >= frost+frostShowsDays && (s.Up == "up" || s.Up == "in-leaf" || growing || well)
	})
}

// fairVigour and better is a plant that lives.
const fairVigour = 3

// tellsByNow tells whether a look can show yet what a frost did: once it had time
// to show, and what comes up or leafs out should have.
func (e *Engine) tellsByNow(r *reckoned, kind garden.Kind, frost garden.Day) bool {
	ready := frost + frostShowsDays
	if kind.Emerges != nil {
		up := e.usually(r, kind.Emerges.To, frost.Year())
		if up < frost {
			up = e.usually(r, kind.Emerges.To, frost.Year()+1)
		}
		ready = max(ready, up)
	}
	return r.on >= ready
}

// What frost does to buds and young shoots.
const (
	// budFrostC kills open buds and soft shoots of what is itself hardy (common
	// practice: two degrees of frost), and budDays before a flush should open its
	// buds are out of their winter coats.
	budFrostC, budDays = -2, 45
)

// budFrost is the coldest night on the buds of a flush for whose lateness or absence
// frost is to be checked; nothing where none was cold enough or none is known.
func (e *Engine) budFrost(judged bloom.Judgement, check []string) []Evidence {
	if !slices.Contains(check, "late-frost") {
		return nil
	}
	opens := dayOf(judged.Year, judged.Expect.Open.P50)
	var coldest *daysWeather
	for _, night := range e.sky.between(opens-budDays, opens) {
		if night.minC != nil && *night.minC <= budFrostC && (coldest == nil || *night.minC < *coldest.minC) {
			coldest = &night
		}
	}
	if coldest == nil {
		return nil
	}
	return []Evidence{{Say: "frost-on-buds", Day: &coldest.day, C: coldest.minC}}
}

// frostChecks orders what to look at (common practice): life before the spade or
// the secateurs, and both of them late rather than early.
func frostChecks(kind garden.Kind) []string {
	if isWood(kind) {
		return []string{"alive", "frost-wait"}
	}
	return []string{"dig-care", "frost-wait"}
}
