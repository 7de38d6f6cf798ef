package stats

import "math"

// A QuantileType is a definition of a sample quantile, after Hyndman & Fan
// (1996), Sample quantiles in statistical packages, American Statistician 50:361.
type QuantileType int

// The definitions that the reckoning uses, by their number in Hyndman & Fan.
const (
	Averaged       QuantileType = 2 // the inverse of the distribution, averaged where it jumps
	Interpolated   QuantileType = 7 // linear from the least to the greatest value, the usual one
	MedianUnbiased QuantileType = 8 // about unbiased for the median whatever the distribution
)

// Quantile is the p-quantile of the values, 0 ≤ p ≤ 1, by the definition asked
// for. It is NaN of no values or of p outside that range.
func Quantile(values []float64, p float64, by QuantileType) float64 {
	if len(values) == 0 || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	x, n := sorted(values), float64(len(values))
	switch by {
	case Averaged:
		below := math.Floor(n*p + plotSlack)
		if n*p-below > plotSlack {
			return at(x, below+1)
		}
		return (at(x, below) + at(x, below+1)) / 2
	case MedianUnbiased:
		return between(x, (n+1.0/3)*p+1.0/3)
	default:
		return between(x, 1+(n-1)*p)
	}
}

// plotSlack keeps n·p, a whole number but for rounding, whole.
const plotSlack = 4e-14

// at is the k-th smallest value, counted from 1, held to the ends.
func at(x []float64, k float64) float64 {
	return x[int(math.Max(1, math.Min(k, float64(len(x)))))-1]
}

// between interpolates linearly at a position counted from 1.
func between(x []float64, position float64) float64 {
	below := math.Floor(position + plotSlack)
	part := math.Max(0, position-below)
	return at(x, below) + part*(at(x, below+1)-at(x, below))
}
