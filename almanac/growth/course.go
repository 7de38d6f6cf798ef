package growth

import (
	"math"
	"sort"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A course is the way in which a planting's height runs, before its own rate and
// size are known: woody or seasonal.
type course interface {
	// spot finds a day's place on the course; it does not depend on the planting.
	spot(day float64) spot
	// at gives the height there for one planting.
	at(s spot, o own) point
}

// A spot is a day's place on a course.
type spot struct {
	part    int     // segment or rise
	season  int     // year of the growing season
	effort  float64 // woody: effective age since the segment began; seasonal: time from shoots, 0, to full, 1
	perDay  float64 // of effort; 0 where the timing of the season does not matter
	seasons float64 // growing seasons that the part has run, at least one
	known   bool    // there is a course on that day
	judged  bool    // a height measured then tells of the rate
}

// lastBegun is the last of the parts of a course, which come in order of their first
// days, that does not begin later; −1 where all do.
func lastBegun(parts int, beginsLater func(i int) bool) int {
	return sort.Search(parts, beginsLater) - 1
}

// positivePart is x where it is positive and 0 where it is not, rounded over a width
// about the corner, and its slope: the integral of a logistic. A fit that came to
// rest on a corner would have one covariance to its left and another to its right,
// and the last bit of an exponential would choose between them.
func positivePart(x, width float64) (part, slope float64) {
	u := x / width
	switch {
	case u > farFromCorner:
		return x, 1
	case u < -farFromCorner:
		return 0, 0
	}
	past := math.Exp(-math.Abs(u))
	slope = 1 / (1 + past)
	if u < 0 {
		slope = past / (1 + past)
	}
	return math.Max(0, x) + width*math.Log1p(past), slope
}

// What is a planting's own, before and after measuring: a theta is the logarithm
// of its rate against the usual, its place in the kind's sizeRange, the logarithm of
// the height it began with against the one assumed, and the days that its season is
// late. Before measuring, each is normal about 0.
const (
	ofRate = iota
	ofSize
	ofStart
	ofLate
	ownCount
)

type theta [ownCount]float64

// own is a theta as a course needs it.
type own struct {
	rate, size         float64
	logSize, sizeSlope float64 // and its derivative by the place in the range
	logStart           float64
	late               float64
}

// A sizeRange is what a kind may grow to, by logarithms. Every height in it is as
// likely as another, and none outside it: many equal measures of a plant that
// stands still must not make it one of a smaller kind.
type sizeRange struct{ low, width float64 }

// sizeRangeOf is a kind's range of heights, widened where its ends are too close.
func sizeRangeOf(cm garden.Range) sizeRange {
	low, high := math.Log(math.Max(cm[0], leastCm)), math.Log(math.Max(cm[1], leastCm))
	more := math.Max(0, leastRange-(high-low))
	return sizeRange{low - more/2, high - low + more}
}

// at gives the logarithm of the height at a place, and its derivative; the middle
// is 0, and a normal place makes a uniform logarithm.
func (r sizeRange) at(place float64) (log, slope float64) {
	return r.low + r.width*stats.NormalCDF(place), r.width * math.Exp(stats.LogNormalPDF(place))
}

// middle is the logarithm of the height in the middle, and cm the height.
func (r sizeRange) middle() float64 { return r.low + r.width/2 }
func (r sizeRange) cm() float64     { return math.Exp(r.middle()) }

// own is what a theta means for a plant of this range.
func (r sizeRange) own(t theta) own {
	log, slope := r.at(t[ofSize])
	return own{rate: math.Exp(t[ofRate]), size: math.Exp(log), logSize: log, sizeSlope: slope, logStart: t[ofStart], late: t[ofLate]}
}

// usual is a plant of the middle of the range with usual rate, beginning and timing.
func (r sizeRange) usual() own { return r.own(theta{}) }

// spread gives the percentiles, in cm, of a normal place.
func (r sizeRange) spread(mean, variance float64) Spread {
	at := func(z float64) float64 {
		log, _ := r.at(mean + z*math.Sqrt(variance))
		return math.Exp(log)
	}
	return Spread{at(-tenth), at(0), at(tenth)}
}

// A point is a height in cm with its derivatives by theta, and the error, in cm, of
// what its part began with.
type point struct {
	cm       float64
	by       theta
	startErr float64
}
