package bloom

import (
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// missedBy says of a look that saw no flower whether the flush may have come and
// gone before it. Such a look does not say that the flush is still to open: what
// nobody came to see is not late. A bud, or flower seen later, leaves no doubt.
func (t *turn) missedBy() func(garden.Day) bool {
	if t.last(flower) >= 0 {
		return func(garden.Day) bool { return false }
	}
	var end *closing
	shortest := t.briefest()
	return func(on garden.Day) bool {
		day, last := t.ofYear(on), bound(t.After, -1)
		if day-last <= shortest || day <= t.Expected-surelyBeforeDays || day <= t.Expected+t.atLeastDays {
			return false
		}
		if end == nil {
			end = t.beforehand().closing(&t.Flush)
		}
		return stats.Round7(end.between(last, day)) > stats.Round7(mayBeOver*math.Max(ailing, end.beyond(day)))
	}
}

// between is the chance that a flush opens after a day and is over by another.
func (c *closing) between(after, over float64) (chance float64) {
	shut := 1 - c.beyond(after)
	for i, lasts := range c.lasts {
		chance += c.weight[i] * math.Max(0, stats.NormalCDF((over-lasts-c.mean)/c.sd)-shut)
	}
	return chance
}

// unmet is the chance that a flush opens after a day, such as one on which it was
// in bud, and is met in flower by none of some later looks, days in order.
func (c *closing) unmet(after float64, looks []float64) (chance float64) {
	chance = c.beyond(after)
	for i, lasts := range c.lasts {
		last := after
		for _, look := range looks {
			if from := math.Max(last, look-lasts); from < look {
				chance -= c.weight[i] * (c.beyond(from) - c.beyond(look))
				last = look
			}
		}
	}
	return math.Max(0, chance)
}

// unmet is the chance that a flush which flowers as others do is met by none of
// the looks at it: that it came and went between them, or opens after the last.
func (f *Flush) unmet(cast forecast) float64 {
	after := math.Inf(-1)
	if f.Seen.LastBud != nil {
		after = f.ofYear(*f.Seen.LastBud)
	}
	return cast.closing(f).unmet(after, f.lookDays())
}

// lookDays are the days of the looks that bound the flush, of its year.
func (f *Flush) lookDays() []float64 {
	looks := make([]float64, len(f.Seen.Days))
	for i, day := range f.Seen.Days {
		looks[i] = f.ofYear(day)
	}
	return looks
}
