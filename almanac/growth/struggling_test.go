package growth_test

import (
	"testing"
	"time"

	"haulm/almanac/growth"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// Simulated gardens in which a fifth of the shrubs grow at a third of their kind's
// pace: how many of these are named within the last season by their heights alone,
// and how many of the others. The seeds are among those that constants may be chosen
// by, and lie apart from those that they were chosen by.
func TestStrugglingShrubsAreNamedByTheirHeights(t *testing.T) {
	const firstSeed, gardens = 2001, 20
	share := 0.2
	for years, least := range map[int]float64{1: 0.7, 2: 0.75, 4: 0.8} {
		var named, struggling, alarms, healthy int
		for seed := uint64(firstSeed); seed < firstSeed+gardens; seed++ {
			out, err := simulate.Garden(simulate.Input{Seed: seed, Plantings: 60, Years: years, Struggling: &share})
			if err != nil {
				t.Fatal(err)
			}
			small := namedInSeason(t, out.Records)
			for _, f := range out.Truth.Flushes {
				switch {
				case f.Year != simulate.LastYear:
				case f.Struggling:
					struggling++
					named += small[f.Planting]
				default:
					healthy++
					alarms += small[f.Planting]
				}
			}
		}
		t.Logf("%d years: %d of %d struggling named, %d alarms for %d healthy", years, named, struggling, alarms, healthy)
		if float64(named) < least*float64(struggling) {
			t.Errorf("%d years: %d of %d struggling plants are named, want %v of them", years, named, struggling, least)
		}
		if float64(alarms) > 0.01*float64(healthy) {
			t.Errorf("%d years: %d of %d healthy plants are named", years, alarms, healthy)
		}
	}
}

// namedInSeason is 1 for each planting that is found small or stalled at the
// beginning of a month of the last season.
func namedInSeason(t *testing.T, records []garden.Record) map[string]int {
	named := map[string]int{}
	for planting, in := range inputs(t, records) {
		for month := time.May; month <= time.November; month++ {
			in.On = garden.DayOf(simulate.LastYear, month, 1)
			result, err := growth.Judge(in)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range result.Findings {
				if f.Finding == growth.SmallForAge || f.Finding == growth.Stalled {
					named[planting] = 1
				}
			}
		}
	}
	return named
}

// inputs are what records tell of each planting's growth.
func inputs(t *testing.T, records []garden.Record) map[string]growth.Input {
	t.Helper()
	kinds, plantings, measures := map[string]garden.Kind{}, map[string]garden.Planting{}, map[string][]growth.Measure{}
	for _, record := range records {
		var err error
		switch record.Ref.Kind {
		case garden.KindRecord:
			var kind garden.Kind
			err = garden.Decode(record, &kind)
			kinds[kind.ID] = kind
		case garden.PlantingRecord:
			var planting garden.Planting
			err = garden.Decode(record, &planting)
			plantings[planting.ID] = planting
		case garden.ObservationRecord:
			var seen garden.Observation
			err = garden.Decode(record, &seen)
			if day, dated := garden.DayOfInstant(seen.Seen); dated == nil && seen.HeightCm != nil {
				measures[seen.Planting] = append(measures[seen.Planting], growth.Measure{Day: day, HeightCm: seen.HeightCm})
			}
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	all := map[string]growth.Input{}
	for id, p := range plantings {
		all[id] = growth.Input{Kind: kinds[p.Kind], Planted: p.Planted, Form: p.Form, PotL: p.PotL, HeightCm: p.HeightCm, Measures: measures[id]}
	}
	return all
}
