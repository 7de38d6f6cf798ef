package bloom

import (
	"fmt"
	"math"

	"haulm/almanac/stats"
)

// A MeanInput is what the verb interval-mean is asked: intervals in which each
// of some values lies, null for open; equal ends are a value known exactly.
type MeanInput struct {
	Intervals [][2]*float64 `json:"intervals"`
}

// A MeanOutput is the normal fitted to the intervals by maximum likelihood, with
// the standard error of its mean from the observed information. All are rounded
// to 7 significant figures.
type MeanOutput struct {
	Mean          float64 `json:"mean"`
	StandardError float64 `json:"standardError"`
	SD            float64 `json:"sd"`
}

// IntervalMean fits a normal to intervals by maximum likelihood: an interval
// counts with its probability, an exact value with its density, as survival
// analysis does (checked against survreg of R's survival package). The error
// says what is wrong with which interval, or that they do not settle a spread.
func IntervalMean(in MeanInput) (MeanOutput, error) {
	if err := in.check(); err != nil {
		return MeanOutput{}, err
	}
	at := in.start()
	for range mostSteps {
		c := in.curve(at)
		next, moved := in.climb(at, c)
		if at = next; moved < meanStop {
			return in.answer(at)
		}
	}
	return MeanOutput{}, errUnsettled
}

var errUnsettled = fmt.Errorf("intervals do not settle a mean and a spread: give more that are bounded on both sides and do not all share one value")

// meanStop is how far, in standard deviations, the last step may move.
const meanStop = 1e-10

func (in MeanInput) check() error {
	bounded := 0
	for i, span := range in.Intervals {
		lo, hi := bound(span[0], -1), bound(span[1], 1)
		switch {
		case math.IsNaN(lo) || math.IsNaN(hi) || span[0] != nil && math.IsInf(lo, 0) || span[1] != nil && math.IsInf(hi, 0):
			return fmt.Errorf("intervals[%d]: [%g, %g] has an end that is not a number: use null for open", i, lo, hi)
		case beyond(span[0]) || beyond(span[1]):
			return fmt.Errorf("intervals[%d]: [%g, %g] is outside %g to %g", i, lo, hi, -greatestValue, greatestValue)
		case lo > hi:
			return fmt.Errorf("intervals[%d]: %g is after %g: the lower end comes first", i, lo, hi)
		}
		if span[0] != nil && span[1] != nil {
			bounded++
		}
	}
	if bounded < 2 {
		return fmt.Errorf("intervals: %d have both ends, at least 2 are needed for a mean and a spread", bounded)
	}
	return nil
}

// greatestValue keeps squares of ends and their differences far from overflow.
const greatestValue = 1e12

func beyond(end *float64) bool { return end != nil && math.Abs(*end) > greatestValue }

// A normal is a mean with the log of its standard deviation.
type normal struct{ mean, logSD float64 }

// start is the mean and spread of what is known of each interval.
func (in MeanInput) start() normal {
	sum, squares, n := 0.0, 0.0, 0.0
	for _, span := range in.Intervals {
		if span[0] != nil && span[1] != nil {
			middle := *span[0]/2 + *span[1]/2
			n++
			d := middle - sum
			sum += d / n
			squares += d*(middle-sum) + math.Pow((*span[1]-*span[0])/2, 2)/3
		}
	}
	return normal{sum, math.Log(math.Max(math.Sqrt(squares/n), math.SmallestNonzeroFloat64))}
}

// A normalCurve is a log-likelihood with its slopes and curvatures in the mean,
// counted in standard deviations, and in the log of the standard deviation.
type normalCurve struct{ logL, m, s, mm, ms, ss float64 }

func (in MeanInput) curve(at normal) normalCurve {
	var c normalCurve
	sd := math.Exp(at.logSD)
	for _, span := range in.Intervals {
		first, last := bound(span[0], -1), bound(span[1], 1)
		lo, hi := (first-at.mean)/sd, (last-at.mean)/sd
		switch width := last - first; {
		case width == 0:
			c.addExact(lo, at.logSD)
		case width < narrowSDs*sd:
			c.addExact((lo+hi)/2, at.logSD-math.Log(width))
		default:
			c.addInterval(lo, hi)
		}
	}
	return c
}

// addExact adds a log density, or the log probability of a width so narrow that
// the density is level in it: then logScale is less by the log of the width.
func (c *normalCurve) addExact(z, logScale float64) {
	c.logL += stats.LogNormalPDF(z) - logScale
	c.m += z
	c.s += z*z - 1
	c.mm--
	c.ms -= 2 * z
	c.ss -= 2 * z * z
}

// addInterval adds a log probability. With ratios f = φ/P at the ends, its
// slope in the mean is f(lo) − f(hi) and in log sd lo·f(lo) − hi·f(hi).
func (c *normalCurve) addInterval(lo, hi float64) {
	logP := stats.LogNormalInterval(lo, hi)
	atLo, atHi := math.Exp(stats.LogNormalPDF(lo)-logP), math.Exp(stats.LogNormalPDF(hi)-logP)
	var moment [4]float64 // of z by the ends: Σ ± zⁿ·f(z)
	for n := range moment {
		moment[n] = power(lo, n)*atLo - power(hi, n)*atHi
	}
	c.logL += logP
	c.m += moment[0]
	c.s += moment[1]
	c.mm += moment[1] - moment[0]*moment[0]
	c.ms += moment[2] - moment[0]*moment[1] - moment[0]
	c.ss += moment[3] - moment[1]*moment[1] - moment[1]
}

// climb takes one Newton step, bent towards the slope where the curve does not
// bend down and halved until it climbs, and gives its length in sds.
func (in MeanInput) climb(at normal, c normalCurve) (next normal, moved float64) {
	lift := 0.0
	for c.mm-lift >= 0 || (c.mm-lift)*(c.ss-lift)-c.ms*c.ms <= 0 {
		lift = 2*lift + 1
	}
	mm, ss := c.mm-lift, c.ss-lift
	det := mm*ss - c.ms*c.ms
	dm, ds := (c.ms*c.s-ss*c.m)/det, (c.ms*c.m-mm*c.s)/det
	sd := math.Exp(at.logSD)
	for scale, try := math.Min(1, 2/(math.Abs(dm)+math.Abs(ds))), 0; try < halvings; scale, try = scale/2, try+1 {
		next = normal{at.mean + scale*dm*sd, at.logSD + scale*ds}
		if in.curve(next).logL >= c.logL-flat(c.logL) {
			return next, scale * math.Max(math.Abs(dm), math.Abs(ds))
		}
	}
	return at, 0
}

// answer reads the summit; where the spread shrinks to nothing beside the ends,
// or the summit is flat, there is none.
func (in MeanInput) answer(at normal) (MeanOutput, error) {
	c, sd := in.curve(at), math.Exp(at.logSD)
	det := c.mm*c.ss - c.ms*c.ms
	if !(c.mm < 0 && det > 0) || sd < vanishing*in.extent() {
		return MeanOutput{}, errUnsettled
	}
	return MeanOutput{Mean: stats.Round7(at.mean), StandardError: stats.Round7(sd * math.Sqrt(-c.ss/det)), SD: stats.Round7(sd)}, nil
}

// vanishing is the share of the ends' extent below which a spread has shrunk to
// nothing; narrowSDs is the width below which an interval is as good as exact.
const vanishing, narrowSDs = 1e-4, 1e-5

// extent is how far apart the ends lie.
func (in MeanInput) extent() float64 {
	least, greatest := math.Inf(1), math.Inf(-1)
	for _, span := range in.Intervals {
		for _, end := range span {
			if end != nil {
				least, greatest = math.Min(least, *end), math.Max(greatest, *end)
			}
		}
	}
	return greatest - least
}

// power is zⁿ, 0 for an open end, where the density is 0.
func power(z float64, n int) float64 {
	if math.IsInf(z, 0) {
		return 0
	}
	return math.Pow(z, float64(n))
}
