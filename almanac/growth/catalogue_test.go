package growth

import (
	"testing"

	"haulm/garden"
)

// kindNamed gives a kind of the catalogue.
func kindNamed(t testing.TB, id string) garden.Kind {
	t.Helper()
	for _, kind := range catalogue(t) {
		if kind.ID == id {
			return kind
		}
	}
	t.Fatalf("the catalogue has no %s", id)
	return garden.Kind{}
}

func catalogue(t testing.TB) []garden.Kind {
	t.Helper()
	kinds, _, err := garden.Catalogue()
	if err != nil || len(kinds) == 0 {
		t.Fatalf("no catalogue (%v)", err)
	}
	return kinds
}

// shrub is a kind of plain numbers: 150 cm in six years.
func shrub() garden.Kind {
	return garden.Kind{Habit: "shrub", Foliage: "deciduous", LifeCycle: "long-lived", HeightCm: garden.Range{130, 170},
		SpreadCm: garden.Range{130, 170}, YearsToSize: 6, Pace: "ordinary", PruneGroup: "after-flower"}
}

// clump is one that dies down, full on 1 July, 100 cm in its second season.
func clump() garden.Kind {
	return garden.Kind{Habit: "perennial", Foliage: "dies-down", LifeCycle: "long-lived", HeightCm: garden.Range{90, 110},
		SpreadCm: garden.Range{50, 60}, YearsToSize: 2, Pace: "ordinary", PruneGroup: "cut-down",
		Emerges: &garden.Window{From: monthDay("03-25"), To: monthDay("04-25")},
		Bloom:   []garden.BloomWindow{{From: monthDay("07-01"), To: monthDay("08-10")}}}
}

func monthDay(text string) garden.MonthDay {
	date, err := garden.ParseMonthDay(text)
	if err != nil {
		panic(err)
	}
	return date
}

func date(text string) garden.Day {
	day, err := garden.ParseDay(text)
	if err != nil {
		panic(err)
	}
	return day
}

func planted(text string) *garden.PartialDate {
	day, err := garden.ParsePartialDate(text)
	if err != nil {
		panic(err)
	}
	return &day
}

func cm(x float64) *float64 { return &x }

func count(n int) *int { return &n }

func tall(day string, height float64) Measure { return Measure{Day: date(day), HeightCm: &height} }

// grow fails the test on an error.
func grow(t testing.TB, in Input) Result {
	t.Helper()
	result, err := Grow(in)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// finding gives one of a result by name.
func (r Result) finding(name string) (Finding, bool) {
	for _, f := range r.Findings {
		if f.Finding == name {
			return f, true
		}
	}
	return Finding{}, false
}

// on gives the band of a day.
func (r Result) on(t testing.TB, day string) BandDay {
	t.Helper()
	for _, b := range r.Band {
		if b.Day >= date(day) {
			return b
		}
	}
	t.Fatalf("no band on %s", day)
	return BandDay{}
}
