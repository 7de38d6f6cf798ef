package stats

import "math"

// narrowInterval is the half width, times the larger of 1 and the distance of
// its middle from the mean, below which an interval is reckoned by a series
// about its middle: the next term is then under 10⁻¹⁰ and nothing cancels.
const narrowInterval = 0.01

// LogNormalInterval is log(Φ(b) − Φ(a)), the log of the chance that a standard
// normal falls into [a, b]; a may be −∞ and b +∞. It keeps its precision when
// both ends are far out on one side and when they are close together. It is
// −∞ when b ≤ a.
func LogNormalInterval(a, b float64) float64 {
	logP, _, _ := NormalInterval(a, b)
	return logP
}

// NormalInterval gives log(Φ(b) − Φ(a)) and its first and second derivative
// with respect to a shift t of the distribution, that is of log(Φ(b−t) − Φ(a−t))
// at t = 0. The slope is the mean of the normal cut to [a, b] and the curvature
// is its variance less one, so −1 ≤ curvature ≤ 0. For a mean in days with
// standard deviation s, divide the slope by s and the curvature by s².
// When b ≤ a the log is −∞ and the derivatives are 0.
func NormalInterval(a, b float64) (logP, slope, curvature float64) {
	switch {
	case !(b > a):
		return math.Inf(-1), 0, 0
	case a+b < 0:
		logP, slope, curvature = NormalInterval(-b, -a)
		return logP, -slope, curvature
	case (b-a)/2*math.Max(1, (a+b)/2) < narrowInterval:
		return narrowNormalInterval((a+b)/2, (b-a)/2)
	case a < 0:
		return centralNormalInterval(a, b)
	default:
		return upperNormalInterval(a, b)
	}
}

// narrowNormalInterval expands about the middle c in the half width h:
// log P = log φ(c) + log 2h + (c²−1)h²/6 + O(h⁴).
func narrowNormalInterval(c, h float64) (logP, slope, curvature float64) {
	return LogNormalPDF(c) + math.Log(2*h) + (c*c-1)*h*h/6, c - c*h*h/3, h*h/3 - 1
}

// centralNormalInterval serves intervals that hold the mean.
func centralNormalInterval(a, b float64) (logP, slope, curvature float64) {
	outside := NormalCDF(a) + NormalCDF(-b)
	p := 1 - outside
	logP = math.Log1p(-outside)
	if outside > 0.5 {
		p = (math.Erf(b/math.Sqrt2) - math.Erf(a/math.Sqrt2)) / 2
		logP = math.Log(p)
	}
	atA, atB := math.Exp(LogNormalPDF(a)), math.Exp(LogNormalPDF(b))
	slope = (atA - atB) / p
	return logP, slope, (times(a, atA)-times(b, atB))/p - slope*slope
}

// upperNormalInterval serves intervals wholly above the mean, in units of φ(a).
func upperNormalInterval(a, b float64) (logP, slope, curvature float64) {
	decay := math.Exp(-(b - a) * (b + a) / 2) // φ(b)/φ(a)
	if math.IsInf(b, 1) {
		decay = 0
	}
	p := millsRatio(a) - times(millsRatio(b), decay)
	slope = (1 - decay) / p
	return LogNormalPDF(a) + math.Log(p), slope, (a-times(b, decay))/p - slope*slope
}

// times is x·y where y, a density, is 0 wherever x is infinite.
func times(x, y float64) float64 {
	if y == 0 {
		return 0
	}
	return x * y
}
