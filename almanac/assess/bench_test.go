package assess_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"haulm/almanac/assess"
	"haulm/almanac/assess/assesstest"
	"haulm/garden"
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

// BenchmarkOddGardens measures one assessment of gardens of some 1 MB in which one
// thing is far more than any garden has.
func BenchmarkOddGardens(b *testing.B) {
	var nights strings.Builder
	for day := range 200 {
		on := garden.DayOf(2014, 12, 20) + garden.Day(day)
		fmt.Fprintf(&nights, `{"record":"weather/%s.a","fields":{"day":%q,"minC":-40,"maxC":20,"rainMm":0}},`, on, on)
	}
	const planting = `{"record":"planting/p%d","fields":{"kind":"rosa-glauca","bed":"b","planted":"2014-02","at":[%d,1]}},`
	for name, each := range map[string]string{
		"gardens": planting + `{"record":"garden/g%d","fields":{"name":"another"}}`,
		"walls":   planting + `{"record":"structure/%d","fields":{"form":"wall","outline":[[0,0],[90,0],[90,9],[45,0.1]]}}`,
		"works":   planting + `{"record":"work/%d","fields":{"bed":"b","day":"2014-09-01","what":"feed"}}`,
		"slivers": planting + `{"record":"planting/sliver%d","fields":{"kind":"cornus-kousa","bed":"b","area":[[0,0],[90,2],[90,2.1]]}}`,
	} {
		b.Run(name, func(b *testing.B) {
			var text strings.Builder
			text.WriteString("[" + nights.String() + `{"record":"garden/a","fields":{"lat":51.5,"lon":-2}}`)
			for n := 0; text.Len() < 1_000_000; n++ {
				fmt.Fprintf(&text, ","+each, n, n%90, n)
			}
			records, _, err := assess.ParseRecords([]byte(text.String() + "]"))
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				loaded(b, records).Assess(large.Today())
			}
		})
	}
}

// BenchmarkUpsert measures loading all of that garden's records.
func BenchmarkUpsert(b *testing.B) {
	records, err := assesstest.Invent(large)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		loaded(b, records)
	}
}

func loaded(b testing.TB, records []garden.Record) *assess.Engine {
	engine, err := assess.New()
	if err != nil {
		b.Fatal(err)
	}
	engine.Upsert(records)
	return engine
}

// BenchmarkWorth measures what the worth of looks takes on top of an assessment, as
// the phone asks for it after each: of the same garden, when one record has changed, in July and
// in spring, when much should be up that was not seen.
func BenchmarkWorth(b *testing.B) {
	records, err := assesstest.Invent(large)
	if err != nil {
		b.Fatal(err)
	}
	for _, month := range []time.Month{time.April, time.July} {
		on := garden.DayOf(large.LastYear, month, 10)
		b.Run(month.String(), func(b *testing.B) {
			engine := loaded(b, records)
			for b.Loop() {
				b.StopTimer()
				engine.Upsert(records[len(records)-1:])
				engine.Assess(on)
				b.StartTimer()
				engine.Worth(on)
			}
		})
	}
}
