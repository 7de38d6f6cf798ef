package skill

import (
	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/almanac/stats"
)

// A Low is a chance lower than on any day before.
type Low struct {
	Day    float64 // of the flush's year
	Chance float64 // that a healthy plant would have been in flower at none of the looks so far
}

// low asks of Haulm's own stated band what the oracle asks of the truth, so that it
// can be seen what another point of speaking would have made of the same
// expectations. What was seen in flower is asked about no more.
func (c *Case) low(band *bloom.Band, looks []bloom.Look, day float64) {
	if _, flowered := noted(&c.Flush, looks); flowered || band == nil {
		return
	}
	stated := c.Flush
	stated.ExpectedDay, stated.LastsDays = band.P50, c.StatedEnd-c.StatedDay
	sd := (band.P90 - band.P10) / (2 * stats.NormalQuantile(0.9))
	chance := stats.RoundProbability(Oracle{simulate.Luck{SD: sd}}.unmet(&stated, looks))
	if n := len(c.Lows); n == 0 || chance < c.Lows[n-1].Chance {
		c.Lows = append(c.Lows, Low{day, chance})
	}
}

// At is what a judge would be scored who speaks at one chance, by Haulm's stated
// bands, over many cases.
func At(chance float64, cases []Case) (r Record) {
	for i := range cases {
		r.count(&cases[i], cases[i].namedAt(chance))
	}
	return r
}

func (c *Case) namedAt(chance float64) *Naming {
	for _, l := range c.Lows {
		if l.Chance <= chance {
			return &Naming{l.Day, "beyond the stated band"}
		}
	}
	return nil
}
