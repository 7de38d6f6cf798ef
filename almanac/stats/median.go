package stats

import (
	"math"
	"slices"
)

// ConsistentMAD makes the median absolute deviation of a normal sample estimate
// its standard deviation: 1/Φ⁻¹(3/4), the 1.4826 that R's mad multiplies by.
const ConsistentMAD = 1.4826022185056018

// Median is the middle value, or the mean of the two middle ones; NaN of nothing.
func Median(values []float64) float64 { return Quantile(values, 0.5, Averaged) }

// MAD is the median absolute deviation from the median, not multiplied by
// anything; times ConsistentMAD it estimates a normal standard deviation.
func MAD(values []float64) float64 {
	middle := Median(values)
	off := make([]float64, len(values))
	for i, v := range values {
		off[i] = math.Abs(v - middle)
	}
	return Median(off)
}

func sorted(values []float64) []float64 {
	copied := slices.Clone(values)
	slices.Sort(copied)
	return copied
}
