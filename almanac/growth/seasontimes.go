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
