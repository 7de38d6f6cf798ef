package simulate_test

import (
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"haulm/almanac/simulate"
)

// TestAnyGardenIsWhole: whatever is asked for within bounds, there is a truth for
// each planting and year, and every number is one that JSON can carry.
func TestAnyGardenIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := simulate.Input{
			Seed:      rapid.Uint64Range(0, 1<<53-1).Draw(t, "seed"),
			Plantings: rapid.IntRange(1, 12).Draw(t, "plantings"),
			Years:     rapid.IntRange(1, 5).Draw(t, "years"),
			Weather:   rapid.Bool().Draw(t, "weather"),
			Breaks:    rapid.SliceOfDistinct(rapid.SampledFrom(simulate.Breaks()), rapid.ID).Draw(t, "breaks"),
		}
		for _, share := range []struct {
			name  string
			value **float64
		}{{"late", &in.Late}, {"struggling", &in.Struggling}} {
			if rapid.Bool().Draw(t, "say "+share.name) {
				*share.value = pointer(rapid.Float64Range(0, 1).Draw(t, share.name))
			}
		}
		if rapid.Bool().Draw(t, "say visits") {
			in.VisitsPerWeek = pointer(rapid.Float64Range(0.1, 7).Draw(t, "visits"))
		}
		out, err := simulate.Garden(in)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := json.Marshal(out); err != nil {
			t.Fatal(err)
		}
		if len(out.Truth.Flushes) != in.Plantings*in.Years || len(out.Truth.Seasons) != in.Years {
			t.Fatalf("%d flushes of %d plantings in %d years", len(out.Truth.Flushes), in.Plantings, in.Years)
		}
	})
}
