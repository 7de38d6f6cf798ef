package bloom

import (
	"math"
	"slices"
)

// setAside takes out of the fit what chance does not explain: the flushes whose
// looks lie more than asideSDs of chance from where the rest of the garden puts
// them. A plant that is truly late, or a stage that was misread, then teaches no
// other plant anything; it is still judged. It tells whether there were any.
func (f *fit) setAside() (any bool) {
	for i, k := range f.kinds {
		kept := slices.DeleteFunc(slices.Clone(k.sites), func(s site) bool {
			return s.away(f.deltas[i][s.row]+k.habits[s.plant]) > asideSDs*s.sd
		})
		if len(kept) == len(k.sites) {
			continue
		}
		k.sites, any = kept, true
		k.countSites()
		f.curves[i] = newKindCurve(k)
	}
	return any
}

// away is how far the bounds lie from the predictor, 0 where they hold it.
func (s site) away(eta float64) float64 { return math.Max(0, math.Max(s.lo-eta, eta-s.hi)) }
