package bloom

import (
	"math"
	"slices"

	"haulm/almanac/stats"
)

// lateBy is the chance of being this late by luck up to which a flush is called
// late. Once it has been seen open that is lateByLuck. Before, the word is spoken
// at the first look past a day, and whoever looks often speaks it sooner past
// that day than whoever looks seldom, when luck may not yet have run out: so the
// chance allowed depends on the pace of looking, such that of a hundred healthy
// flushes falseAlarms are called late at any pace. With the day z spreads past
// the expected one, and looks gap spreads apart, a share of
// (L(z) − L(z+gap))/gap of the healthy is, with L the integral of a normal's tail.
func (c forecast) lateBy(f *Flush) float64 {
	if f.By != nil {
		return lateByLuck
	}
	gap := f.lookGap(c.mean) / c.sd
	low, high := 0.0, surelyLate
	for high-low > lateStep {
		z := (low + high) / 2
		if (tailBeyond(z)-tailBeyond(z+gap))/gap > falseAlarms {
			low = z
		} else {
			high = z
		}
	}
	return stats.RoundProbability(math.Min(mostByLuck, stats.NormalCDF(-high)))
}

// tailBeyond is the integral of a standard normal's upper tail from z on.
func tailBeyond(z float64) float64 {
	return math.Exp(stats.LogNormalPDF(z)) - z*stats.NormalCDF(-z)
}

// lookGap is how many days apart the looks at a flush were, in paceDays up to the
// first that found it not open when it was due: later ones may come because it is
// late, and the word once spoken is not taken back for them. Of a single look
// nothing is known but the usual.
func (f *Flush) lookGap(due float64) float64 {
	last := bound(f.After, -1)
	for _, day := range slices.Backward(f.Seen.Days) {
		if day := f.ofYear(day); day >= due && day <= last {
			last = day
		}
	}
	first, gaps := last, 0.0
	for _, day := range slices.Backward(f.Seen.Days) {
		if day := f.ofYear(day); day < first && day > last-paceDays {
			first = day
			gaps++
		}
	}
	if gaps == 0 {
		return usualGapDays
	}
	return (last - first) / gaps
}
