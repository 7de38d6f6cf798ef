package bloom

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// anyInput draws what the verb may be asked, sound or absurd within its ranges.
func anyInput(t *rapid.T) Input {
	in := Input{Kinds: map[string]KindInput{}, Seasons: map[string]SeasonInput{}}
	kinds := rapid.IntRange(1, 4).Draw(t, "kinds")
	for k := range kinds {
		kind := KindInput{ExpectedDay: rapid.Float64Range(-366, 732).Draw(t, "expected")}
		if rapid.Bool().Draw(t, "own sd") {
			sd := rapid.Float64Range(leastSD, greatestSD).Draw(t, "sd")
			kind.SDDays = &sd
		}
		in.Kinds[fmt.Sprint("k", k)] = kind
	}
	if rapid.Bool().Draw(t, "season known") {
		in.Seasons["2021"] = SeasonInput{rapid.Float64Range(-greatestMean, greatestMean).Draw(t, "mean")}
	}
	for p := range rapid.IntRange(0, 6).Draw(t, "plants") {
		kind := fmt.Sprint("k", rapid.IntRange(0, kinds-1).Draw(t, "kind"))
		for y := range rapid.IntRange(0, 4).Draw(t, "years") {
			in.Flushes = append(in.Flushes, anyFlush(t, fmt.Sprint("p", p), kind, 2019+y))
		}
	}
	return in
}

func anyFlush(t *rapid.T, plant, kind string, year int) FlushInput {
	f := FlushInput{Planting: plant, Kind: kind, Year: year, Form: rapid.SampledFrom([]string{"", "bare-root"}).Draw(t, "form")}
	maybe := func(name string, low, high float64) *float64 {
		if !rapid.Bool().Draw(t, name+" known") {
			return nil
		}
		v := rapid.Float64Range(low, high).Draw(t, name)
		return &v
	}
	f.After = maybe("after", leastDay, greatestDay)
	least := leastDay
	if f.After != nil {
		least = *f.After
	}
	f.By = maybe("by", least, greatestDay)
	f.YearsSincePlanting = maybe("age", 0, 20)
	return f
}

// TestAnswersAreSoundNumbers: whatever is asked, no NaN or infinity comes out,
// and the points of a band stand in order.
func TestAnswersAreSoundNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		out, err := FirstFlower(anyInput(t))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range out.Flushes {
			points := []float64{f.P05, f.P10, f.P50, f.P90, f.P95}
			if !slices.IsSorted(points) || f.PLate < 0 || f.PLate > 1 {
				t.Fatalf("%+v", f)
			}
			for _, p := range append(points, f.PLate) {
				if math.IsNaN(p) || math.IsInf(p, 0) {
					t.Fatalf("%+v", f)
				}
			}
		}
		for year, s := range out.Seasons {
			if math.IsNaN(s.Days) || math.IsInf(s.Days, 0) || !(s.SD > 0) {
				t.Fatalf("%s: %+v", year, s)
			}
		}
	})
}

// TestAFlushWithoutALookChangesNothing: no look is no information, not even that
// there was a plant.
func TestAFlushWithoutALookChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		before, err := FirstFlower(in)
		if err != nil {
			t.Fatal(err)
		}
		at := rapid.IntRange(0, len(in.Flushes)).Draw(t, "at")
		in.Flushes = slices.Insert(in.Flushes, at, FlushInput{Planting: "unseen", Kind: "k0", Year: 2019 + rapid.IntRange(0, 4).Draw(t, "year")})
		after, err := FirstFlower(in)
		if err != nil {
			t.Fatal(err)
		}
		after.Flushes = slices.Delete(after.Flushes, at, at+1)
		if !reflect.DeepEqual(before.Flushes, after.Flushes) {
			t.Fatalf("%+v became %+v", before.Flushes, after.Flushes)
		}
	})
}

// TestLaterNotYetNeverLowersLateness: a plant seen not in flower on a later day
// is never less late, since its own bound has no part in its expectation.
func TestLaterNotYetNeverLowersLateness(t *testing.T) {
	in := simulate(3, 8, 24, 4).input
	at := slices.IndexFunc(in.Flushes, func(f FlushInput) bool { return f.Year == 2023 })
	in.Flushes[at].By = nil
	expected, last := in.Kinds[in.Flushes[at].Kind].ExpectedDay, 1.0
	var medians []float64
	for day := expected - 40; day < expected+80; day += 3 {
		in.Flushes[at].After = &day
		out, err := FirstFlower(in)
		if err != nil {
			t.Fatal(err)
		}
		f := out.Flushes[at]
		if f.PLate > last {
			t.Errorf("not yet on %g: %g, after %g three days before", day, f.PLate, last)
		}
		last = f.PLate
		medians = append(medians, f.P50)
	}
	if last > lateByLuck {
		t.Errorf("eighty days late by luck with probability %g", last)
	}
	if spread := slices.Max(medians) - slices.Min(medians); spread > 1 {
		t.Errorf("its own bound moved its expectation by %.1f days", spread)
	}
}

// TestAFewMisreadLooksMoveLittle: one look in thirty misread by a month moves
// the other plants' expectations by less than a day and a half in the mean.
func TestAFewMisreadLooksMoveLittle(t *testing.T) {
	clean := simulate(9, 10, 30, 4).input
	dirty := simulate(9, 10, 30, 4).input
	for i := 0; i < len(dirty.Flushes); i += 30 {
		if f := &dirty.Flushes[i]; f.By != nil {
			*f.After, *f.By = *f.After-30, *f.By-30
		}
	}
	a, err := FirstFlower(clean)
	if err != nil {
		t.Fatal(err)
	}
	b, err := FirstFlower(dirty)
	if err != nil {
		t.Fatal(err)
	}
	sum, n := 0.0, 0.0
	for i := range a.Flushes {
		if i%30 != 0 {
			sum, n = sum+math.Abs(a.Flushes[i].P50-b.Flushes[i].P50), n+1
		}
	}
	if sum/n > 1.5 {
		t.Errorf("expectations moved by %.2f days", sum/n)
	}
}

func TestFirstFlowerShapes(t *testing.T) {
	const asked = `{"kinds":{"k":{"expectedDay":150,"sdDays":10}},"seasons":{"2026":{"meanDays":0}},
		"flushes":[{"planting":"a","kind":"k","year":2026,"after":150,"by":157,"yearsSincePlanting":3}]}`
	var in Input
	if err := json.Unmarshal([]byte(asked), &in); err != nil {
		t.Fatal(err)
	}
	out, err := FirstFlower(in)
	if err != nil {
		t.Fatal(err)
	}
	// Alone, judged without itself, a plant is expected on the book's day with
	// all spreads together: 10, 8, that of the season in late May, 4 and 5 days.
	f := out.Flushes[0]
	sd := math.Sqrt(100 + 64 + math.Pow(SeasonSD(150, false), 2) + 16 + 25)
	if f.P50 != 150 || math.Abs(f.P90-150-1.2816*sd) > 0.06 || f.PLate != 0.5 {
		t.Errorf("%+v with sd %g", f, sd)
	}
	if s := out.Seasons["2026"]; !s.WithGarden || s.Days <= 0 || s.Days > 4 {
		t.Errorf("%+v", s)
	}
}

func TestFirstFlowerSaysWhatIsWrong(t *testing.T) {
	at := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		name, want string
		change     func(*Input)
	}{
		{"unknown kind", `flushes[0]: kind "x" is not among kinds`, func(in *Input) { in.Flushes[0].Kind = "x" }},
		{"no name", "flushes[0]: planting is missing", func(in *Input) { in.Flushes[0].Planting = "" }},
		{"year", "flushes[0]: year 0 is outside", func(in *Input) { in.Flushes[0].Year = 0 }},
		{"crossed", "flushes[0]: after 160 is later than by 157", func(in *Input) { in.Flushes[0].After = at(160) }},
		{"beyond", "flushes[0]: by 9000 is outside", func(in *Input) { in.Flushes[0].By = at(9000) }},
		{"age", "flushes[0]: yearsSincePlanting -1 is outside", func(in *Input) { in.Flushes[0].YearsSincePlanting = at(-1) }},
		{"expected", `kinds["k"]: expectedDay NaN`, func(in *Input) { in.Kinds["k"] = KindInput{ExpectedDay: math.NaN()} }},
		{"sd", `kinds["k"]: sdDays 0 is outside`, func(in *Input) { in.Kinds["k"] = KindInput{SDDays: at(0)} }},
		{"season", `seasons: "next" is not a year`, func(in *Input) { in.Seasons["next"] = SeasonInput{} }},
		{"season mean", `seasons["2026"]: meanDays 500`, func(in *Input) { in.Seasons["2026"] = SeasonInput{500} }},
		{"twice", `flushes[1]: planting "a" has a second flush in 2026`, func(in *Input) { in.Flushes = append(in.Flushes, in.Flushes[0]) }},
		{"two kinds", `flushes[1]: planting "a" is of kind "l"`, func(in *Input) {
			in.Kinds["l"] = KindInput{}
			in.Flushes = append(in.Flushes, FlushInput{Planting: "a", Kind: "l", Year: 2027})
		}},
		{"too many seasons", "too many seasons", func(in *Input) {
			for year := 1; year < 400; year++ {
				in.Flushes = append(in.Flushes, FlushInput{Planting: "b", Kind: "k", Year: year})
			}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := Input{Kinds: map[string]KindInput{"k": {ExpectedDay: 150}}, Seasons: map[string]SeasonInput{},
				Flushes: []FlushInput{{Planting: "a", Kind: "k", Year: 2026, After: at(150), By: at(157)}}}
			c.change(&in)
			if _, err := FirstFlower(in); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, expected %q", err, c.want)
			}
		})
	}
}
