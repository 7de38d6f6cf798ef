package stats

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// LogSqrt2Pi is log √(2π), what a standard normal density is divided by.
const LogSqrt2Pi = 0.91893853320467274178

// millsByFraction is the z from which the continued fraction for Mills' ratio
// is used. Below it erfc is exact enough and its fraction would need many terms.
const millsByFraction = 10

// millsTerms terms of the continued fraction are exact to a double's last bits
// from millsByFraction on: the error falls as exp(−2z√(2n)).
const millsTerms = 24

// LogNormalPDF is the log of the standard normal density at z.
func LogNormalPDF(z float64) float64 { return -z*z/2 - LogSqrt2Pi }

// NormalCDF is Φ(z), the chance that a standard normal falls below z, with full
// relative precision in the lower tail (use NormalCDF(−z) for the upper).
func NormalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// LogNormalCDF is log Φ(z), finite for every finite z: at z = −40, where Φ is
// 10⁻³⁵⁰ and no longer a double, it is −804.6.
func LogNormalCDF(z float64) float64 {
	if math.IsInf(z, -1) {
		return math.Inf(-1)
	}
	if z >= 0 {
		return math.Log1p(-NormalCDF(-z))
	}
	return LogNormalPDF(z) + math.Log(millsRatio(-z))
}

// NormalQuantile is the z with Φ(z) = p, for p from 0 (−∞) to 1 (+∞); outside
// that it is NaN. It is Wichura's AS 241 (1988), from gonum.
func NormalQuantile(p float64) float64 {
	if !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	return mathext.NormalQuantile(p)
}

// InverseMills is φ(z)/Φ(z), the slope of log Φ at z: near −z far in the lower
// tail, near 0 in the upper.
func InverseMills(z float64) float64 {
	if z <= 0 {
		return 1 / millsRatio(-z)
	}
	return math.Exp(LogNormalPDF(z)) / NormalCDF(z)
}

// millsRatio is (1 − Φ(z))/φ(z) for z ≥ 0: Mills' ratio, by erfc near 0 and by
// Laplace's continued fraction 1/(z+1/(z+2/(z+…))) beyond (Abramowitz & Stegun
// 1964, 26.2.14).
func millsRatio(z float64) float64 {
	if z < millsByFraction {
		return math.Erfc(z/math.Sqrt2) / 2 * math.Exp(z*z/2+LogSqrt2Pi)
	}
	if math.IsInf(z, 1) {
		return 0
	}
	fraction := z
	for n := millsTerms; n >= 1; n-- {
		fraction = z + float64(n)/fraction
	}
	return 1 / fraction
}
