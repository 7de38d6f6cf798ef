package bloom

import "math"

// A site is what one flush's looks say about its linear predictor η, the sum of
// everything but chance: F = η + e lies between lo and hi. Values are days from the row's expectation.
type site struct {
	row    int // among its kind's rows
	plant  int // among its kind's plants
	year   int
	first  bool    // the first season after planting
	lo, hi float64 // −∞ and +∞ where open
	sd     float64 // of chance
}

// informs says whether the site bounds anything.
func (s site) informs() bool { return !math.IsInf(s.lo, -1) || !math.IsInf(s.hi, 1) }

// scale is the logistic's: √3/π of its standard deviation.
func (s site) scale() float64 { return s.sd * math.Sqrt(3) / math.Pi }

// logLikelihood gives the log of P(lo < η+e ≤ hi), less what does not depend on
// η, with its slope and weight (minus its curvature) in η. Chance e is logistic:
// near a normal in its middle, with the exponential tails of plants that have an
// odd year and of looks that were misread. So the log is concave, and the pull
// of a look that fits nothing is bounded by 1/scale: it levels off, one summit is
// left, and a plant seen later never makes another be expected earlier. The
// probability is Λ(b)·Λ(−a)·(1 − e^(a−b)) with Λ the logistic function.
func (s site) logLikelihood(eta float64) (logL, slope, weight float64) {
	scale := s.scale()
	below, logBelow := logistic((s.lo - eta) / scale)
	above, logAbove := logistic((eta - s.hi) / scale)
	return logBelow + logAbove, (below - above) / scale, (below*(1-below) + above*(1-above)) / (scale * scale)
}

// logistic is Λ(x), with the log of Λ(−x).
func logistic(x float64) (value, logRest float64) {
	if x > 0 {
		e := math.Exp(-x)
		return 1 / (1 + e), -x - math.Log1p(e)
	}
	e := math.Exp(x)
	return e / (1 + e), -math.Log1p(e)
}

// scaleShare is what a site bounded on both sides says of the scale of chance:
// the mean of x·tanh(x/2) between the bounds, in scales about the predictor. It
// is 1 on average when the scale is right, which makes the scale's likelihood
// greatest there; it grows as the distance, not its square, and no further than
// oddShare.
func (s site) scaleShare(eta float64) float64 {
	a, b := (s.lo-eta)/s.scale(), (s.hi-eta)/s.scale()
	if b-a < oneDayScales {
		middle := (a + b) / 2
		return math.Min(oddShare, middle*math.Tanh(middle/2))
	}
	_, beyondA := logistic(a)
	_, untilB := logistic(-b)
	_, untilA := logistic(-a)
	_, beyondB := logistic(b)
	lower, upper := math.Exp(untilA-untilB), math.Exp(beyondB-beyondA)
	return math.Min(oddShare, 1-(b*upper-a*lower)/-math.Expm1(a-b))
}
