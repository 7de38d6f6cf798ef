package stats

import (
	"fmt"
	"math"
)

// A Line is y = Intercept + Slope·x.
type Line struct {
	Slope     float64 `json:"slope"`
	Intercept float64 `json:"intercept"`
}

// What TheilSen takes.
const (
	// longestTheilSen points, a daily measure for 270 years, keep an answer well
	// under a second.
	longestTheilSen = 100_000
	// fewForPairs points or less have all their slopes written out, 130,000 at most.
	fewForPairs = 512
	// largestCoordinate keeps differences and products far from overflow.
	largestCoordinate = 1e12
)

// TheilSen fits a line by the median of the slopes of all pairs of points whose
// x differ (Sen 1968, Journal of the American Statistical Association 63:1379).
// The intercept is median(y) − slope·median(x) (Conover 1980), the usual one of
// the two in use, the other being the median of y − slope·x. It takes O(n log n)
// time (slopeselection.go). It fails on fewer than two different x, on unequal
// lengths, on a value beyond ±10¹², on more than 100,000 points, and where the
// slope is too steep to be written.
func TheilSen(x, y []float64) (Line, error) {
	if err := checkPoints(x, y); err != nil {
		return Line{}, err
	}
	slope, found := medianSlope(x, y)
	if !found {
		return Line{}, fmt.Errorf("a slope needs at least two points with different x")
	}
	line := Line{Slope: slope, Intercept: Median(y) - slope*Median(x)}
	if notFinite(line.Slope) || notFinite(line.Intercept) {
		return Line{}, fmt.Errorf("the slope is too steep to be written: give x that differ by more")
	}
	return line, nil
}

func checkPoints(x, y []float64) error {
	if len(x) != len(y) {
		return fmt.Errorf("x has %d values and y has %d: give one y for each x", len(x), len(y))
	}
	if len(x) > longestTheilSen {
		return fmt.Errorf("x has %d values, more than the %d that a median of slopes is reckoned for: thin them out", len(x), longestTheilSen)
	}
	for i := range x {
		if !(math.Abs(x[i]) <= largestCoordinate) {
			return fmt.Errorf("x[%d] %v is outside %g to %g", i, x[i], -largestCoordinate, largestCoordinate)
		}
		if !(math.Abs(y[i]) <= largestCoordinate) {
			return fmt.Errorf("y[%d] %v is outside %g to %g", i, y[i], -largestCoordinate, largestCoordinate)
		}
	}
	return nil
}

// medianSlope is false where no two x differ.
func medianSlope(x, y []float64) (float64, bool) {
	if len(x) <= fewForPairs {
		slopes := pairSlopes(x, y)
		return Median(slopes), len(slopes) > 0
	}
	s := newSlopes(x, y)
	if s.pairs == 0 {
		return 0, false
	}
	return s.median(), true
}

func pairSlopes(x, y []float64) []float64 {
	slopes := make([]float64, 0, len(x)*(len(x)-1)/2)
	for i := range x {
		for j := i + 1; j < len(x); j++ {
			if x[i] != x[j] {
				slopes = append(slopes, (y[j]-y[i])/(x[j]-x[i]))
			}
		}
	}
	return slopes
}

func notFinite(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }
