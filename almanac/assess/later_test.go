package assess_test

import (
	"encoding/json"
	"slices"
	"testing"

	"haulm/almanac/assess"
	"haulm/almanac/assess/assesstest"
	"haulm/garden"
)

// What is noted, measured or planted after a day is not in what is told of it.
func TestNothingOfLaterIsToldOfADay(t *testing.T) {
	for seed := range uint64(5) {
		shape := assesstest.Shape{Seed: seed, Plantings: 60, Years: 3, LastYear: 2015, LookEvery: 12}
		all, err := assesstest.Invent(shape)
		if err != nil {
			t.Fatal(err)
		}
		on := shape.Today() - garden.Day(60+54*seed)
		until := slices.DeleteFunc(slices.Clone(all), func(r garden.Record) bool {
			day, dated := dayOfRecord(r)
			return dated && day > on || plantedAfter(t, r, on)
		})
		if len(until) == len(all) {
			t.Fatal("nothing is later")
		}
		if got, want := told(t, all, on), told(t, until, on); got != want {
			t.Errorf("with what came after %s:\n%s\nwithout:\n%s", on, got, want)
		}
	}
}

func told(t *testing.T, records []garden.Record, on garden.Day) string {
	engine, err := assess.New()
	if err != nil {
		t.Fatal(err)
	}
	engine.Upsert(records)
	text, err := json.Marshal(engine.Assess(on))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func plantedAfter(t *testing.T, record garden.Record, on garden.Day) bool {
	if record.Ref.Kind != garden.PlantingRecord {
		return false
	}
	var p garden.Planting
	if err := json.Unmarshal(record.Fields["planted"], &p.Planted); err != nil && record.Fields["planted"] != nil {
		t.Fatal(err)
	}
	return p.Planted != nil && p.Planted.First > on
}
