package bloom

import (
	"math"

	"haulm/almanac/stats"
)

// A corner is what the flushes of one bed in one year say of a delay that they
// share: wet ground that stays cold, a wall that was painted white. Most beds have
// none, so it is believed in so far as several plantings agree on it, and a
// planting is never told by itself.
type corner struct{ signs []cornerSign }

// A cornerSign is how many days later than reckoned by the rest of the garden one
// flush opened, held to what a shared delay can be, and the variance of that.
type cornerSign struct {
	plant          string
	expected       float64 // day of the year
	days, variance float64
}

type bedYear struct {
	bed  string
	year int
}

// cornerOf lists the signs of a bed's year, in the order of flushes.
func (m *Model) cornerOf(at bedYear) *corner {
	if known, ok := m.corners[at]; ok {
		return known
	}
	c := &corner{}
	for _, i := range m.byBed[at] {
		f := &m.flushes[i]
		if f.Standing.Kind == Open && f.After != nil && f.By != nil {
			c.signs = append(c.signs, f.cornerSign(m.alone(i)))
		}
	}
	m.corners[at] = c
	return c
}

func (f *Flush) cornerSign(cast forecast) cornerSign {
	width := *f.By - *f.After
	variance := cast.sd*cast.sd + width*width/12
	reach := oddSignSDs * math.Sqrt(variance)
	days := (*f.After+*f.By)/2 - cast.mean
	return cornerSign{f.Plant, f.Expected, math.Max(-reach, math.Min(reach, days)), variance}
}

// without is the delay that the other plantings of the bed share about a day of
// the year, and its variance. What flowers at another time counts for less, as it
// felt other weather: cold ground holds back spring, not autumn. It is the mean
// over no delay at all and a delay drawn from a normal, each weighed by how well
// it explains what they say (George & McCulloch 1993, Journal of the American
// Statistical Association 88:881).
func (c *corner) without(plant string, expected float64) (days, variance float64) {
	sum, weight, plants := 0.0, 0.0, map[string]bool{}
	for _, s := range c.signs {
		near := matern((s.expected - expected) / seasonCorrelationDays)
		if s.plant == plant || near < nearEnough {
			continue
		}
		sum += s.days * near / s.variance
		weight += near / s.variance
		plants[s.plant] = true
	}
	if len(plants) < fewestInCorner {
		return 0, 0
	}
	mean, error := sum/weight, 1/weight
	const delay = sdCorner * sdCorner
	shared := cornerShare * normalDensity(mean, delay+error)
	chance := shared / (shared + (1-cornerShare)*normalDensity(mean, error))
	held := mean * delay / (delay + error)
	return chance * held, chance*delay*error/(delay+error) + chance*(1-chance)*held*held
}

// normalDensity is that of a normal about 0.
func normalDensity(x, variance float64) float64 {
	return math.Exp(stats.LogNormalPDF(x/math.Sqrt(variance))) / math.Sqrt(variance)
}
