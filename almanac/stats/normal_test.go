package stats

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Expected values were reckoned to 80 digits from the power series and the
// continued fraction of Abramowitz & Stegun (1964), 26.2.11 and 26.2.14.

func TestUpperTailOfTheNormalTo80Digits(t *testing.T) {
	for _, c := range []struct{ z, logUpper, mills float64 }{
		{0, -0.693147180559945309417, 0.797884560802865356},
		{0.5, -1.17591176159361860888, 1.14107777036806448},
		{1, -1.84102164500926350577, 1.52513527616098121},
		{2.5, -5.08164827727869049838, 2.82274479766390725},
		{5, -15.0649983939887257361, 5.18650396712584212},
		{9.99, -53.1303537456060131866, 10.0881877771438396},
		{10.01, -53.3323156108807305261, 10.1079988694213750},
		{20, -203.917155371097263937, 20.0497530685278505},
		{40, -804.608442013753788167, 40.0249688472072637},
		{200, -20006.2172808981904021, 200.004999750031244},
	} {
		near(t, "log Φ(−z)", LogNormalCDF(-c.z), c.logUpper, 1e-13)
		near(t, "φ/Φ at −z", InverseMills(-c.z), c.mills, 1e-13)
	}
}

func TestIntervalsOfTheNormalTo80Digits(t *testing.T) {
	for _, c := range []struct{ a, b, logP, slope, curvature float64 }{
		{-1, 2, -2.00166294324462580e-1, 2.29637179091328969e-1, -4.80237460788466064e-1},
		{0.5, 0.6, -3.37306422694279569, 5.49541842510231769e-1, -9.99167070317936423e-1},
		{8, 8.5, -35.0287925085797478, 8.11373598949652323, -9.89474259641635145e-1},
		{-30, -29, -424.787419909730312, -29.0344012377361766, -9.98819339511381315e-1},
		{40, 41, -804.608442013753788, 40.0249688472072637, -9.99377331621408614e-1},
		{3, 3.0001, -14.6294289030973971, 3.00004999749995834, -9.99999999166666671e-1},
		{-0.001, 0.002, -6.72808202351855010, 4.99999625000112500e-4, -9.99999250000225000e-1},
		{-5, 7, -2.86652892776674340e-7, 1.48671080618378158e-6, -7.43366585790425142e-6},
		{5.2, 5.3, -16.9917359145172219, 5.24564640589004781, -9.99178293629492918e-1},
		{-0.3, 0.2, -1.62368323886832000, -4.89669985418798039e-2, -9.79340394615532305e-1},
		{100, 100.001, -5007.87627734275142, 100.000491668013857, -9.99999916708319995e-1},
	} {
		logP, slope, curvature := NormalInterval(c.a, c.b)
		near(t, "log P relatively", logP/c.logP, 1, 1e-12)
		near(t, "slope", slope, c.slope, 1e-9)
		near(t, "curvature", curvature, c.curvature, 1e-8)
	}
}

func TestOpenIntervalsAreTails(t *testing.T) {
	for _, z := range []float64{-300, -38, -3, -0.2, 0, 0.7, 4, 37} {
		above, slope, curvature := NormalInterval(z, math.Inf(1))
		near(t, "log P above", above, LogNormalCDF(-z), 1e-12)
		near(t, "slope above", slope, InverseMills(-z), 1e-12)
		if curvature > 0 || curvature < -1 {
			t.Errorf("curvature above %v is %v, outside −1 to 0", z, curvature)
		}
		near(t, "log P below", LogNormalInterval(math.Inf(-1), z), LogNormalCDF(z), 1e-12)
	}
	if all, slope, curvature := NormalInterval(math.Inf(-1), math.Inf(1)); all != 0 || slope != 0 || curvature != 0 {
		t.Errorf("the whole line: log P %v, slope %v, curvature %v, all should be 0", all, slope, curvature)
	}
	if got := LogNormalInterval(2, 2); !math.IsInf(got, -1) {
		t.Errorf("an empty interval has log P %v, want −∞", got)
	}
}

func TestNormalIntervalIsSmoothAndBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-60, 60).Draw(t, "a")
		b := a + math.Exp(rapid.Float64Range(-9, 4).Draw(t, "log width"))
		logP, slope, curvature := NormalInterval(a, b)
		if math.IsNaN(logP) || math.IsInf(logP, 0) || logP > 1e-12 {
			t.Fatalf("log P of [%v, %v] is %v", a, b, logP)
		}
		if slope < a-1e-9 || slope > b+1e-9 {
			t.Fatalf("the mean of the normal cut to [%v, %v] is %v, outside", a, b, slope)
		}
		if curvature < -1-1e-7 || curvature > 1e-7 {
			t.Fatalf("curvature of [%v, %v] is %v, outside −1 to 0", a, b, curvature)
		}
		if mirrored := LogNormalInterval(-b, -a); math.Abs(mirrored-logP) > 1e-9*(1+math.Abs(logP)) {
			t.Fatalf("log P of [%v, %v] is %v and of its mirror %v", a, b, logP, mirrored)
		}
	})
}

func TestQuantileUndoesCDF(t *testing.T) {
	for _, p := range []float64{1e-300, 1e-12, 0.02, 0.1, 0.5, 0.9, 0.999} {
		near(t, "log Φ(Φ⁻¹(p))", LogNormalCDF(NormalQuantile(p)), math.Log(p), 1e-12)
	}
	if got := NormalQuantile(1.1); !math.IsNaN(got) {
		t.Errorf("the quantile of 1.1 is %v, want NaN", got)
	}
}

// near compares relatively, and absolutely below 1.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(1, math.Abs(want))) {
		t.Errorf("%s is %.12g, want %.12g within %g", what, got, want, tolerance)
	}
}
