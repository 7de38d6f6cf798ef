package suit

import (
	"math"
	"slices"

	"haulm/almanac/stats"
)

// set chooses kinds one by one, each the one that adds most flower to what there
// is and has been chosen, the first by id of equals. For a monotone submodular
// gain that is at least 1 − 1/e of the best possible (Nemhauser, Wolsey & Fisher
// 1978, Mathematical Programming 14:265).
func (in Input) set(have flowering, kinds []candidate) Set {
	kinds = slices.DeleteFunc(slices.Clone(kinds), func(c candidate) bool {
		return c.fit < leastFit || in.plants(c) == 0
	})
	set := Set{Chosen: []Chosen{}, Before: have.empty()}
	now := have
	for range in.choose() {
		best, gain := mostGain(&now, kinds)
		if best < 0 {
			break
		}
		c := kinds[best]
		now = now.plus(&c.flower, c.fit)
		set.Chosen = append(set.Chosen, Chosen{c.kind.ID, c.kind.Name, in.plants(c), gain, c.flower.weeks()})
		kinds = slices.Delete(kinds, best, best+1)
	}
	set.After = now.empty()
	set.Gain = stats.Round7(now.worth() - have.worth())
	set.AtLeast = stats.RoundProbability(in.atLeast(set.Gain, &now, kinds))
	return set
}

// mostGain is the first of the kinds with the greatest gain; −1 where none gains.
func mostGain(now *flowering, kinds []candidate) (best int, gain float64) {
	best = -1
	for i, c := range kinds {
		if g := now.gain(c); g > gain {
			best, gain = i, g
		}
	}
	return best, gain
}

// atLeast bounds how good a set is: no set of that size gains more than this one
// and, beside it, the kinds that still gain most, as many as the set may have.
func (in Input) atLeast(gained float64, now *flowering, rest []candidate) float64 {
	gains := make([]float64, len(rest))
	for i, c := range rest {
		gains[i] = now.gain(c)
	}
	slices.Sort(gains)
	more := 0.0
	for _, gain := range gains[max(0, len(gains)-in.choose()):] {
		more += gain
	}
	if gained+more <= 0 {
		return 1
	}
	return math.Max(1-1/math.E, gained/(gained+more))
}

func (in Input) choose() int {
	if in.Choose == nil {
		return setSize
	}
	return *in.Choose
}

// plants is how many of a kind fill its share of the ground at its eventual
// spread; 0 where one is too wide for it, and 1 where no ground is said.
func (in Input) plants(c candidate) int {
	spread := (c.kind.SpreadCm[0] + c.kind.SpreadCm[1]) / 2
	if in.AreaM2 == nil || spread <= 0 || in.choose() == 0 {
		return 1
	}
	share := *in.AreaM2 / float64(in.choose()) * cm2PerM2
	return int(math.Floor(stats.Round7(share / (spread * spread))))
}

// cm2PerM2 is how many square centimetres a square metre has.
const cm2PerM2 = 100 * 100
