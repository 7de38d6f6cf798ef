package growth

import (
	"math"
	"slices"
)

// Every model is linear in its final size once its pace and shape are set, so a
// start is a grid over those with the size that fits best. The grids, in units
// of the span of x, reach from curves that have barely bent to curves that are
// done at once: wide enough that the fit only has to polish.

func logisticStarts(x, y []float64) [][]float64 {
	least, span := extent(x)
	var starts [][]float64
	for _, middle := range steps(-0.5, 1.5, 13) {
		for _, width := range []float64{0.02, 0.05, 0.1, 0.2, 0.4, 0.8, -0.05, -0.1, -0.2, -0.4} {
			starts = append(starts, sized(logistic, []float64{1, least + middle*span, width * span}, x, y))
		}
	}
	return starts
}

func gompertzStarts(x, y []float64) [][]float64 {
	least, span := extent(x)
	var starts [][]float64
	for _, bend := range steps(-0.5, 1.5, 13) {
		for _, pace := range []float64{0.3, 0.7, 1.5, 3, 6, 12, 25, 50, -1.5, -3, -6} {
			k := pace / span
			starts = append(starts, sized(gompertz, []float64{1, math.Exp(k * (least + bend*span)), math.Exp(-k)}, x, y))
		}
	}
	return starts
}

func asymptoticStarts(x, y []float64) [][]float64 {
	_, span := extent(x)
	var starts [][]float64
	for _, pace := range []float64{0.05, 0.1, 0.2, 0.5, 1, 2, 4, 8, 16, 32, 64} {
		rate := pace / span
		asym, slope := straightLine(x, y, func(x float64) float64 { return math.Exp(-rate * x) })
		starts = append(starts, []float64{asym, asym + slope, math.Log(rate)})
	}
	return starts
}

func chapmanRichardsStarts(x, y []float64) [][]float64 {
	longest := slices.Max(x)
	var starts [][]float64
	for _, pace := range []float64{0.1, 0.3, 0.6, 1.2, 2.5, 5, 10, 20} {
		for _, m := range []float64{0.5, 0.8, 1.2, 1.8, 2.7, 4, 7} {
			starts = append(starts, sized(chapmanRichards, []float64{1, pace / longest, m}, x, y))
		}
	}
	return starts
}

// sized sets the first coefficient, which multiplies the whole curve, to its
// least-squares value.
func sized(at func(c []float64, x float64, gradient []float64) float64, c, x, y []float64) []float64 {
	gradient := make([]float64, len(c))
	product, square := 0.0, 0.0
	for i := range x {
		share := at(c, x[i], gradient)
		product += share * y[i]
		square += share * share
	}
	c[0] = product / square
	return c
}

// straightLine fits y = intercept + slope·f(x) by least squares.
func straightLine(x, y []float64, f func(float64) float64) (intercept, slope float64) {
	meanF, meanY := 0.0, 0.0
	for i := range x {
		meanF += f(x[i]) / float64(len(x))
		meanY += y[i] / float64(len(x))
	}
	product, square := 0.0, 0.0
	for i := range x {
		product += (f(x[i]) - meanF) * (y[i] - meanY)
		square += (f(x[i]) - meanF) * (f(x[i]) - meanF)
	}
	slope = product / square
	return meanY - slope*meanF, slope
}

func extent(x []float64) (least, span float64) {
	least = slices.Min(x)
	return least, slices.Max(x) - least
}

// steps gives n values evenly from lo to hi.
func steps(lo, hi float64, n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = lo + (hi-lo)*float64(i)/float64(n-1)
	}
	return values
}
