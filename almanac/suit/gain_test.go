package suit

import (
	"encoding/json"
	"math"
	"math/bits"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

// anyCandidate draws a kind of up to two flushes that suits the spot more or less.
func anyCandidate(t *rapid.T) candidate {
	c := candidate{fit: rapid.Float64Range(0, 1).Draw(t, "fit")}
	for range rapid.IntRange(0, 2).Draw(t, "flushes") {
		colours := rapid.SliceOfN(rapid.SampledFrom([]string{"#fdfdfb", "#f2cf2e", "#c9362f", "#d36aa5", "#6a4fa3", "#3f57b5"}), 0, 3).Draw(t, "colours")
		c.flower.add(rapid.Float64Range(0, 364).Draw(t, "from"), rapid.Float64Range(1, 200).Draw(t, "length"), rapid.Float64Range(0, 1).Draw(t, "worth"), colours)
	}
	return c
}

func anyFlowering(t *rapid.T, name string) flowering {
	var f flowering
	for range rapid.IntRange(0, 6).Draw(t, name) {
		c := anyCandidate(t)
		f = f.plus(&c.flower, c.fit)
	}
	return f
}

func TestMoreFlowerIsNeverWorthLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, c := anyFlowering(t, "have"), anyCandidate(t)
		if gain := f.gain(c); gain < 0 {
			t.Fatalf("a kind more gains %v", gain)
		}
	})
}

// Submodular: what a kind adds to some flower it adds at most to less flower.
func TestTheMoreThereIsTheLessAKindAdds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		few, more, c := anyFlowering(t, "have"), anyFlowering(t, "more"), anyCandidate(t)
		many := few
		for week := range weeksOfYear {
			many.all[week] += more.all[week]
			for shade := range more.byShade[week] {
				many.byShade[week][shade] += more.byShade[week][shade]
			}
		}
		if toFew, toMany := few.gain(c), many.gain(c); toMany > toFew+1e-6*math.Max(1, toFew) {
			t.Fatalf("it adds %v to the more and %v to the fewer", toMany, toFew)
		}
	})
}

// The greedy set against every other set of its size: at least 1 − 1/e of the best
// (Nemhauser, Wolsey & Fisher 1978), and at least the share that it says itself.
func TestTheSetHasTheShareOfTheBestThatItClaims(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		have := anyFlowering(t, "have")
		in := Input{Choose: whole(rapid.IntRange(1, 4).Draw(t, "choose"))}
		kinds := make([]candidate, rapid.IntRange(1, 8).Draw(t, "kinds"))
		for i := range kinds {
			kinds[i] = anyCandidate(t)
			kinds[i].fit = rapid.Float64Range(leastFit, 1).Draw(t, "fit of it")
		}
		set := in.set(have, kinds)
		best := bestGain(have, kinds, in.choose())
		share := 1.0
		if best > 0 {
			share = set.Gain / best
		}
		if slack := 1e-5; share < 1-1/math.E-slack || share < set.AtLeast-5e-4-slack {
			t.Fatalf("the set gains %v, %v of the best, %v; it claims %v", set.Gain, share, best, set.AtLeast)
		}
	})
}

// Of two long flowerings side by side and a longer one that takes half of each,
// the longest is chosen first and the best pair missed.
func TestAGreedySetMayMissTheBestAndClaimsNoMore(t *testing.T) {
	kinds := make([]candidate, 3)
	for i, window := range [][2]float64{{42, 112}, {0, 98}, {98, 98}} {
		kinds[i].fit = 1
		kinds[i].flower.add(window[0], window[1], 1, nil)
	}
	set := Input{Choose: whole(2)}.set(flowering{}, kinds)
	share := set.Gain / bestGain(flowering{}, kinds, 2)
	if !(share < 0.98 && share >= set.AtLeast && set.AtLeast >= 0.632) {
		t.Errorf("the set has %v of the best and claims %v", share, set.AtLeast)
	}
}

// bestGain is that of the best set by trying all.
func bestGain(have flowering, kinds []candidate, choose int) float64 {
	best := 0.0
	for chosen := range uint(1) << len(kinds) {
		if bits.OnesCount(chosen) > choose {
			continue
		}
		with := have
		for i := range kinds {
			if chosen>>i&1 == 1 {
				with = with.plus(&kinds[i].flower, kinds[i].fit)
			}
		}
		best = math.Max(best, with.worth()-have.worth())
	}
	return best
}

func TestTheSetFillsTheEmptyWeeksAndNotTheFullOnes(t *testing.T) {
	in := Input{Spot: Spot{SunHours: number(7)}, Choose: whole(1), Have: &Have{Weeks: make([]float64, weeksOfYear)}}
	for week := 13; week < weeksOfYear; week++ {
		in.Have.Weeks[week] = 5 // from April on there is plenty
	}
	set := suited(t, in).Set
	if len(set.Before) != 13 || len(set.After) >= len(set.Before) {
		t.Errorf("%d weeks without flower before and %d after", len(set.Before), len(set.After))
	}
	if len(set.Chosen) != 1 || set.Chosen[0].Weeks[0] > 8 {
		t.Errorf("chosen %+v, want one that flowers in winter", set.Chosen)
	}
}

func TestASetWithoutAnythingToGainIsEmpty(t *testing.T) {
	in := Input{Kinds: []json.RawMessage{[]byte(`"dryopteris-filix-mas"`)}, Have: &Have{}}
	set := suited(t, in).Set
	if len(set.Chosen) != 0 || set.Gain != 0 || set.AtLeast != 1 || len(set.After) != weeksOfYear {
		t.Errorf("a fern makes the set %+v", set)
	}
}

func TestEachKindOfASetGetsItsShareOfTheGround(t *testing.T) {
	clump := candidate{kind: garden.Kind{SpreadCm: garden.Range{40, 60}}}
	for _, c := range []struct {
		area   *float64
		choose int
		want   int
	}{{nil, 3, 1}, {number(3), 3, 4}, {number(1), 1, 4}, {number(0.5), 3, 0}, {number(1), 0, 1}} {
		in := Input{AreaM2: c.area, Choose: whole(c.choose)}
		if got := in.plants(clump); got != c.want {
			t.Errorf("%d plants half a metre across on a share of %v m², want %d", got, in.AreaM2, c.want)
		}
	}
}
