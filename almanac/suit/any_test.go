package suit

import (
	"encoding/json"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

// anySpot draws a spot of which anything may be known, and wild values within bounds.
func anySpot(t *rapid.T) Spot {
	maybe := func(name string, lo, hi float64) *float64 {
		if !rapid.Bool().Draw(t, name+" known") {
			return nil
		}
		v := rapid.Float64Range(lo, hi).Draw(t, name)
		return &v
	}
	word := func(name string, words ...string) string { return rapid.SampledFrom(append(words, "")).Draw(t, name) }
	s := Spot{Lat: maybe("lat", -90, 90), LatenessDays: rapid.Float64Range(-longestLateness, longestLateness).Draw(t, "lateness"),
		SunHours: maybe("sun", 0, 24), PH: maybe("ph", 2, 11), MinWinterC: maybe("winter", coldestC, warmestC), RoomCm: maybe("room", 0, widestCm),
		Soil: word("soil", "sand", "loam", "clay"), Drainage: word("drainage", "quick", "good", "slow", "wet"), Moisture: word("moisture", "dry", "drained", "moist", "wet"),
		Irrigated: rapid.Bool().Draw(t, "irrigated"), Container: rapid.Bool().Draw(t, "container")}
	if s.SunHours != nil && rapid.Bool().Draw(t, "morning known") {
		morning := *s.SunHours * rapid.Float64Range(0, 1).Draw(t, "morning")
		s.SunMorning = &morning
	}
	if rapid.Bool().Draw(t, "height wanted") {
		lo := rapid.Float64Range(0, widestCm).Draw(t, "least height")
		s.HeightCm = &garden.Range{lo, rapid.Float64Range(lo, widestCm).Draw(t, "greatest height")}
	}
	if rapid.Bool().Draw(t, "support known") {
		support := rapid.Bool().Draw(t, "support")
		s.Support = &support
	}
	s.Colours = rapid.SliceOfN(rapid.StringMatching("#[0-9a-f]{6}"), 0, 3).Draw(t, "colours")
	return s
}

func TestAnySpotRanksEveryKindOrSaysWhyNot(t *testing.T) {
	all := len(catalogue(t))
	rapid.Check(t, func(t *rapid.T) {
		in := Input{Spot: anySpot(t)}
		if rapid.Bool().Draw(t, "have known") {
			in.Have = &Have{Kinds: []string{"iris-sibirica"}}
		}
		result, err := Suit(in)
		if err != nil {
			t.Fatal(err)
		}
		if len(result.Ranked)+len(result.Excluded) != all {
			t.Fatalf("%d ranked and %d ruled out of %d", len(result.Ranked), len(result.Excluded), all)
		}
		for i, one := range result.Ranked {
			if !(one.Score >= 0 && one.Score <= one.Fit && one.Fit <= 1) || i > 0 && one.Score > result.Ranked[i-1].Score {
				t.Fatalf("%s: score %v, fit %v", one.Kind, one.Score, one.Fit)
			}
		}
		for _, one := range result.Excluded {
			if len(one.Factors) == 0 {
				t.Fatalf("%s is ruled out without a reason", one.Kind)
			}
		}
		if set := result.Set; !(set.AtLeast > 0.63 && set.AtLeast <= 1) || len(set.After) > len(set.Before) {
			t.Fatalf("set %+v", set)
		}
		if _, err := json.Marshal(result); err != nil {
			t.Fatal(err)
		}
	})
}
