package assess_test

import (
	"testing"

	"haulm/almanac/assess"
	"haulm/almanac/assess/assesstest"
)

// A large private garden after five years: some 20,000 looks.
var large = assesstest.Shape{Seed: 1, Plantings: 500, Years: 5, LastYear: 2015, LookEvery: 24}

// BenchmarkAssess measures one assessment of 500 plantings over 5 years when
// one record has changed since the last, which is what a phone pays after each
// entry. No plant is missing in it; one that is costs the second model as well.
func BenchmarkAssess(b *testing.B) {
	records, err := assesstest.Invent(large)
	if err != nil {
		b.Fatal(err)
	}
	engine, err := assess.New()
	if err != nil {
		b.Fatal(err)
	}
	engine.Upsert(records)
	for b.Loop() {
		engine.Upsert(records[len(records)-1:])
		engine.Assess(large.Today())
	}
	b.ReportMetric(float64(len(records)), "records")
}

// BenchmarkUpsert measures loading all of that garden's records.
func BenchmarkUpsert(b *testing.B) {
	records, err := assesstest.Invent(large)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		engine, err := assess.New()
		if err != nil {
			b.Fatal(err)
		}
		engine.Upsert(records)
	}
}
