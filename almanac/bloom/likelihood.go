package bloom

import (
	"math"

	"haulm/almanac/stats"
)

// A site is what one flush's looks say about its linear predictor η, the sum of
// everything but chance: F = η + e lies between lo and hi unless a look was
// misread. Values are days from the row's expectation.
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

// blindOdds are the odds that one bound was misread: looks that contradict F at
// one bound are that much less likely than looks that fit it.
const blindOdds = misread / (1 - misread)

// logLikelihood gives the log of r + (1−r)·P(lo < η+e ≤ hi) and its slope and
// weight (minus its curvature) in η. With r = 0 it is log-concave; with r = the
// odds of a misread bound it levels off, so that a look that fits nothing loses
// its pull: there its weight is below 0.
func (s site) logLikelihood(eta, r float64) (logL, slope, weight float64) {
	logP, slopeZ, curvatureZ := stats.NormalInterval((s.lo-eta)/s.sd, (s.hi-eta)/s.sd)
	slope, curvature := slopeZ/s.sd, curvatureZ/(s.sd*s.sd)
	if r == 0 {
		return logP, slope, -curvature
	}
	p := (1 - r) * math.Exp(logP)
	share := p / (r + p) // of the likelihood that is not a misreading
	curvature = share*(curvature+slope*slope) - share*share*slope*slope
	return math.Log(r + p), share * slope, -curvature
}
