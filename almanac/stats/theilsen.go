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

// longestTheilSen points make two million slopes, about 16 MB.
const longestTheilSen = 2000

// TheilSen fits a line by the median of the slopes of all pairs of points whose
// x differ (Sen 1968, Journal of the American Statistical Association 63:1379).
// The intercept is median(y) − slope·median(x) (Conover 1980), the usual one of
// the two in use, the other being the median of y − slope·x. It fails on fewer
// than two different x, on unequal lengths, on a value that is not finite, and
// on more than 2000 points.
func TheilSen(x, y []float64) (Line, error) {
	if len(x) != len(y) {
		return Line{}, fmt.Errorf("x has %d values and y has %d: give one y for each x", len(x), len(y))
	}
	if len(x) > longestTheilSen {
		return Line{}, fmt.Errorf("%d points are more than the %d that a median of slopes is reckoned for: thin them out", len(x), longestTheilSen)
	}
	for i := range x {
		if notFinite(x[i]) || notFinite(y[i]) {
			return Line{}, fmt.Errorf("point %d (%v, %v) is not a pair of numbers", i+1, x[i], y[i])
		}
	}
	slopes := pairSlopes(x, y)
	if len(slopes) == 0 {
		return Line{}, fmt.Errorf("a slope needs at least two points with different x")
	}
	slope := Median(slopes)
	return Line{Slope: slope, Intercept: Median(y) - slope*Median(x)}, nil
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
