package suit

import (
	"math"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// cold compares the winter with what a kind stands, less in a pot. Annuals are
// gone before it; what is lifted each autumn lives through it elsewhere.
func (s Spot) cold(c candidate) (Factor, bool) {
	switch {
	case s.MinWinterC == nil:
		return unknownHere(Cold), false
	case c.kind.LifeCycle == "annual":
		return plain(Cold, Fits, 1), false
	case c.lacks("minWinterC"):
		return unknownOf(Cold), false
	}
	stands := c.kind.MinWinterC
	if s.Container {
		stands += potMarginC
	}
	say, score, out := hardiness(stats.Round7(*s.MinWinterC-stands), c.kind)
	return scored(Cold, say, score, *s.MinWinterC, &garden.Range{stands, stands}), out
}

// hardiness judges by how many degrees the winter stays above what a kind stands.
func hardiness(above float64, kind garden.Kind) (say string, score float64, out bool) {
	switch {
	case above < 0 && isLifted(kind):
		return LiftForWinter, lifted, false
	case above < 0:
		return TooCold, 0, true
	case above < coldMarginC:
		return NearlyTooCold, atMinimum + (1-atMinimum)*math.Min(1, above/coldMarginC), false
	default:
		return Fits, 1, false
	}
}

func isLifted(kind garden.Kind) bool {
	return slices.ContainsFunc(kind.Care, func(care garden.CareRule) bool { return care.What == "lift" })
}
