package bloom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestLikelihoodSlopes holds slope and weight to differences of the value.
func TestLikelihoodSlopes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-40, 40).Draw(t, "lo")
		s := site{lo: lo, hi: lo + rapid.Float64Range(0.5, 60).Draw(t, "width"), sd: rapid.Float64Range(3, 14).Draw(t, "sd")}
		switch rapid.IntRange(0, 2).Draw(t, "open") {
		case 1:
			s.lo = math.Inf(-1)
		case 2:
			s.hi = math.Inf(1)
		}
		eta := rapid.Float64Range(-40, 40).Draw(t, "eta")
		const h = 1e-4
		below, slopeBelow, _ := s.logLikelihood(eta - h)
		above, slopeAbove, _ := s.logLikelihood(eta + h)
		_, slope, weight := s.logLikelihood(eta)
		if math.Abs((above-below)/(2*h)-slope) > 1e-5 || math.Abs((slopeBelow-slopeAbove)/(2*h)-weight) > 1e-5 {
			t.Fatalf("%+v at %g: slope %g, weight %g; by differences %g, %g", s, eta, slope, weight, (above-below)/(2*h), (slopeBelow-slopeAbove)/(2*h))
		}
	})
}

// TestOddLooksPullNoMore: far from what fits it a look pulls no more than nearer
// by, and its weight goes.
func TestOddLooksPullNoMore(t *testing.T) {
	s := site{lo: 0, hi: 7, sd: 5}
	_, near, _ := s.logLikelihood(-15)
	_, far, weight := s.logLikelihood(-60)
	if bound := 1 / s.scale(); near < 0.9*bound || far > bound || weight > 1e-6 {
		t.Errorf("pulls %g near, %g far, at most %g; weight %g", near, far, bound, weight)
	}
}

// TestTheScaleIsFound: chance that is normal, seen by looks a week apart, has on
// average the share of its scale that leaves its standard deviation where it is.
func TestTheScaleIsFound(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, sd := range []float64{3, 5, 8} {
		sum, n := 0.0, 0.0
		for range 20_000 {
			s := site{sd: sd}
			s.lo = sd*rng.NormFloat64() - 7*rng.Float64()
			s.hi = s.lo + 7
			sum, n = sum+s.scaleShare(0), n+1
		}
		if mean := sum / n; math.Abs(mean-1) > 0.05 {
			t.Errorf("sd %g: mean share %g", sd, mean)
		}
	}
}

// TestTheScaleOfPoints: bounds that all but meet say what a point says.
func TestTheScaleOfPoints(t *testing.T) {
	for _, at := range []float64{-900, -12, -1, 0, 0.5, 7, 900} {
		near, point := site{sd: 5, lo: at, hi: at + 1e-3}, site{sd: 5, lo: at, hi: at}
		if a, b := near.scaleShare(0), point.scaleShare(0); math.IsNaN(a) || math.Abs(a-b) > 0.001 {
			t.Errorf("at %g: %g between, %g at the point", at, a, b)
		}
	}
}

// TestClosingAgainstDraws holds the end of a flush to 400,000 draws of F + D.
func TestClosingAgainstDraws(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	cast, length := forecast{mean: 160, sd: 8}, 30.0
	ends := make([]float64, 400_000)
	for i := range ends {
		ends[i] = cast.mean + cast.sd*rng.NormFloat64() + length*math.Exp(sdLogLength*rng.NormFloat64())
	}
	slices.Sort(ends)
	end := cast.closing(&Flush{LastsDays: length, LastsLogSD: sdLogLength})
	for _, p := range []float64{0.05, 0.1, 0.5, 0.9, 0.95, 0.99} {
		drawn := ends[int(p*float64(len(ends)))]
		if got := end.at(p); math.Abs(got-drawn) > 0.25 {
			t.Errorf("%g point %.2f, %.2f by draws", p, got, drawn)
		}
		if chance, _ := end.by(drawn); math.Abs(chance-p) > 0.005 {
			t.Errorf("over by %.2f with chance %g, %g by draws", drawn, chance, p)
		}
	}
	looks := []float64{170, 185}
	met := 0
	for range 100_000 {
		opens := cast.mean + cast.sd*rng.NormFloat64()
		ends := opens + length*math.Exp(sdLogLength*rng.NormFloat64())
		if slices.ContainsFunc(looks, func(d float64) bool { return opens <= d && d < ends }) {
			met++
		}
	}
	if got := 1 - end.unmet(math.Inf(-1), looks); math.Abs(got-float64(met)/100_000) > 0.006 {
		t.Errorf("met in flower with chance %g, %g by draws", got, float64(met)/100_000)
	}
	if shut := end.unmet(184, []float64{170, 184}); math.Abs(shut-end.beyond(184)) > 1e-12 {
		t.Errorf("in bud at the last look it opens later with chance %g, here %g", end.beyond(184), shut)
	}
}

// TestSquareSolves: a matrix times its inverse is the identity.
func TestSquareSolves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		s := newSquare(n)
		for i := range s.a {
			s.a[i] = rapid.Float64Range(-1, 1).Draw(t, "value")
		}
		for i := range n {
			s.a[i*n+i] += float64(n+1) * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sign")
		}
		if rapid.Bool().Draw(t, "swapped") && n > 1 {
			for j, v := range s.row(0) {
				s.row(0)[j], s.row(1)[j] = s.row(1)[j], v
			}
		}
		product := square{n, slices.Clone(s.a)}.times(square{n, slices.Clone(s.a)}.inverse())
		for i := range n {
			for j := range n {
				want := 0.0
				if i == j {
					want = 1
				}
				if math.Abs(product.at(i, j)-want) > 1e-9 {
					t.Fatalf("%v at %d, %d", product.a, i, j)
				}
			}
		}
	})
}
