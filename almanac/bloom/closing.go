package bloom

import (
	"math"

	"haulm/almanac/stats"
)

// A closing is when a flush ends, F + D: F normal and D log-normal about the
// length that the flush should have (lengths.go). The sum is reckoned by meeting log D at steps of half a
// standard deviation, which for a normal is exact to a millionth.
type closing struct {
	forecast
	lasts, weight [closingSteps]float64
}

func (cast forecast) closing(f *Flush) *closing {
	c := &closing{forecast: cast}
	for i := range c.lasts {
		z := closingStep * float64(i-closingSteps/2)
		c.lasts[i] = f.LastsDays * math.Exp(f.LastsLogSD*z)
		c.weight[i] = closingStep * math.Exp(stats.LogNormalPDF(z))
	}
	return c
}

// by gives the chance of being over by a day, and its density there.
func (c *closing) by(day float64) (chance, density float64) {
	for i, lasts := range c.lasts {
		z := (day - lasts - c.mean) / c.sd
		chance += c.weight[i] * stats.NormalCDF(z)
		density += c.weight[i] * math.Exp(stats.LogNormalPDF(z)) / c.sd
	}
	return chance, density
}

// at is the day by which it is over with chance p, by Newton's method kept
// between days that hold it, from the normal with the same two moments.
func (c *closing) at(p float64) float64 {
	low, high := c.mean-9*c.sd, c.mean+9*c.sd+c.lasts[closingSteps-1]
	day := c.normalAt(p)
	for high-low > closingDays {
		chance, density := c.by(day)
		if chance < p {
			low = day
		} else {
			high = day
		}
		next := day + (p-chance)/density
		if math.Abs(next-day) < closingDays {
			return next
		}
		if day = next; !(day > low && day < high) {
			day = (low + high) / 2
		}
	}
	return day
}

func (c *closing) normalAt(p float64) float64 {
	mean, square := 0.0, 0.0
	for i, lasts := range c.lasts {
		mean += c.weight[i] * lasts
		square += c.weight[i] * lasts * lasts
	}
	return c.mean + mean + math.Sqrt(c.sd*c.sd+square-mean*mean)*stats.NormalQuantile(p)
}

// band is the band of days on which it ends, not rounded.
func (c *closing) band() Band {
	return Band{c.at(0.05), c.at(0.10), c.at(0.50), c.at(0.90), c.at(0.95)}
}

// briefest is how long all but the briefest flushes last at least.
func (f *Flush) briefest() float64 {
	return stats.Round7(f.LastsDays * math.Exp(f.LastsLogSD*stats.NormalQuantile(briefly)))
}

// closesBy is the chance of being over by a day, rounded to be compared.
func (cast forecast) closesBy(day float64, f *Flush) float64 {
	chance, _ := cast.closing(f).by(day)
	return stats.RoundProbability(chance)
}
