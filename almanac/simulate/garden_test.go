package simulate_test

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"haulm/almanac/assess"
	"haulm/almanac/simulate"
	"haulm/garden"
)

func mustGarden(t testing.TB, in simulate.Input) simulate.Output {
	t.Helper()
	out, err := simulate.Garden(in)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func base(seed uint64, breaks ...simulate.Break) simulate.Input {
	return simulate.Input{Seed: seed, Plantings: 60, Years: 4, Breaks: breaks}
}

func pointer(x float64) *float64 { return &x }

// TestASeedMeansOneGarden pins a garden with everything in it to the byte, on
// every machine. Whoever changes what a seed means changes the sum with it.
func TestASeedMeansOneGarden(t *testing.T) {
	in := simulate.Input{Seed: 7, Plantings: 25, Years: 2, Late: pointer(0.2), Struggling: pointer(0.2), Weather: true, Breaks: simulate.Breaks()}
	text, err := json.Marshal(mustGarden(t, in))
	if err != nil {
		t.Fatal(err)
	}
	const want = "a14c607dbd9fbfbf"
	if sum := sha256.Sum256(text); hex.EncodeToString(sum[:8]) != want {
		t.Errorf("the garden's sum is %x, was %s", sum[:8], want)
	}
}

// TestTheEngineReadsEveryRecord: what is written is what the reckoning takes.
func TestTheEngineReadsEveryRecord(t *testing.T) {
	engine, err := assess.New()
	if err != nil {
		t.Fatal(err)
	}
	in := base(1, simulate.Breaks()...)
	in.Weather = true
	out := mustGarden(t, in)
	engine.Upsert(out.Records)
	if skipped := engine.Skipped(); len(skipped) > 0 {
		t.Errorf("%d records are skipped, the first %+v", len(skipped), skipped[0])
	}
	if a := engine.Assess(out.On - 200); len(a.Findings) == 0 {
		t.Error("nothing is found in 60 plantings")
	}
}

// An observed is one look at one planting.
type observed struct {
	planting string
	day      garden.Day
	stage    *int
	garden.Observation
}

func observations(t testing.TB, out simulate.Output) []observed {
	t.Helper()
	var all []observed
	for _, r := range out.Records {
		if r.Ref.Kind != garden.ObservationRecord {
			continue
		}
		var o garden.Observation
		if err := garden.Decode(r, &o); err != nil {
			t.Fatal(err)
		}
		day, err := o.Day()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, observed{o.Planting, day, o.Stage, o})
	}
	return all
}

// open says whether the truth has a planting in flower on a day.
func open(out simulate.Output, planting string, day garden.Day) bool {
	return slices.ContainsFunc(out.Truth.Flushes, func(f simulate.Flush) bool {
		at := float64(day-garden.DayOf(f.Year, 1, 1)) + 1
		return f.Planting == planting && f.OpensDay != nil && at >= *f.OpensDay && at <= *f.EndsDay
	})
}

// TestLooksSayWhatIsTrue: flower is noted when there is flower and never
// otherwise, in the years whose truth is told.
func TestLooksSayWhatIsTrue(t *testing.T) {
	out := mustGarden(t, base(3, simulate.BlindPlants))
	flowers, wrong := 0, 0
	for _, o := range observations(t, out) {
		if o.day < garden.DayOf(2023, 1, 1) || o.day > garden.DayOf(2025, 10, 1) {
			continue // may be flower of a year that is not told
		}
		noted := o.stage != nil && *o.stage >= 60 && *o.stage < 69
		if noted {
			flowers++
		}
		if noted != open(out, o.planting, o.day) || o.NotInFlower == (o.stage != nil) {
			wrong++
		}
	}
	if wrong > 0 || flowers < 500 {
		t.Errorf("%d of the looks say what is not so; %d note flower", wrong, flowers)
	}
}

// TestOwnDayIsAllButLuck: expected is usual and season, and what opens is that,
// chance and lateness.
func TestOwnDayIsAllButLuck(t *testing.T) {
	var luck, late []float64
	for seed := range uint64(20) {
		for _, f := range mustGarden(t, base(seed)).Truth.Flushes {
			if math.Abs(f.UsualDay+f.SeasonDays-f.ExpectedDay) > 0.0011 {
				t.Fatalf("%+v", f)
			}
			luck = append(luck, *f.OpensDay-f.ExpectedDay-f.LateDays)
			if f.LateDays > 0 {
				late = append(late, f.LateDays)
			}
			if f.LateDays > 0 && f.Year != simulate.LastYear {
				t.Fatalf("late in %d", f.Year)
			}
		}
	}
	if mean, sd := moments(luck); math.Abs(mean) > 0.2 || math.Abs(sd-4.5) > 0.15 {
		t.Errorf("chance is %.2f ± %.2f", mean, sd)
	}
	if share := float64(len(late)) / (20 * 60); math.Abs(share-0.1) > 0.03 || slices.Min(late) < 25 || slices.Max(late) > 40 {
		t.Errorf("%.3f are late, by %.1f to %.1f days", share, slices.Min(late), slices.Max(late))
	}
}

// TestSpreadsAreThoseStated: season, habit and catalogue stray as they should,
// the season smoothly.
func TestSpreadsAreThoseStated(t *testing.T) {
	var season, step, kinds []float64
	for seed := range uint64(150) {
		out := mustGarden(t, simulate.Input{Seed: seed, Plantings: 60, Years: 1})
		days := out.Truth.Seasons[0].Days
		for i := 0; i+30 < len(days); i += 30 {
			season, step = append(season, days[i]), append(step, days[i+1]-days[i])
		}
		for _, f := range out.Truth.Flushes {
			kinds = append(kinds, f.UsualDay-f.StatedDay)
		}
	}
	if mean, sd := moments(season); math.Abs(mean) > 1 || math.Abs(sd-7) > 0.5 {
		t.Errorf("the season is %.2f ± %.2f", mean, sd)
	}
	if _, sd := moments(step); sd > 0.3 {
		t.Errorf("the season moves by %.2f a day", sd)
	}
	if mean, sd := moments(kinds); math.Abs(mean) > 0.6 || math.Abs(sd-math.Hypot(8, 4)) > 0.4 {
		t.Errorf("plants stray from the catalogue by %.2f ± %.2f", mean, sd)
	}
}

func moments(x []float64) (mean, sd float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		sd += (v - mean) * (v - mean) / float64(len(x)-1)
	}
	return mean, math.Sqrt(sd)
}

// TestVisitsKeepTheirPace counts days with looks.
func TestVisitsKeepTheirPace(t *testing.T) {
	for _, c := range []struct {
		name      string
		week      *float64
		breaks    []simulate.Break
		low, high garden.Day // between visits
		visits    int        // in a year, about
	}{
		{"every 3 to 12 days", nil, nil, 3, 12, 49},
		{"daily", pointer(7), nil, 1, 1, 365},
		{"fortnightly", pointer(0.5), nil, 14, 14, 26},
		{"weekends", nil, []simulate.Break{simulate.Weekends}, 1, 49, 63},
		{"eight weeks away", nil, []simulate.Break{simulate.LongGap}, 3, 80, 47},
	} {
		in := base(5, c.breaks...)
		in.VisitsPerWeek = c.week
		days := map[garden.Day]bool{}
		for _, o := range observations(t, mustGarden(t, in)) {
			days[o.day] = true
		}
		list := slices.Sorted(func(yield func(garden.Day) bool) {
			for day := range days {
				if !yield(day) {
					return
				}
			}
		})
		low, high := garden.Day(math.MaxInt32), garden.Day(0)
		for i := 1; i < len(list); i++ {
			low, high = min(low, list[i]-list[i-1]), max(high, list[i]-list[i-1])
		}
		if low < c.low || high > c.high || math.Abs(float64(len(list))/4.2-float64(c.visits)) > 6 {
			t.Errorf("%s: %d to %d days apart, %d visits", c.name, low, high, len(list))
		}
		if c.name == "eight weeks away" && high < 56 {
			t.Errorf("the longest gap is %d days", high)
		}
	}
}

// TestABreakBreaksOneThing holds each break against the same garden without it.
func TestABreakBreaksOneThing(t *testing.T) {
	plain := mustGarden(t, base(11))
	for _, c := range []struct {
		what    simulate.Break
		changed func(with, without simulate.Flush) bool
		low     int // flushes of 240 that change
		high    int
	}{
		{simulate.HeavyTails, opensElsewhere, 230, 240},
		{simulate.WetCorner, func(a, b simulate.Flush) bool { return a.SeasonDays == b.SeasonDays+10 && a.UsualDay == b.UsualDay }, 10, 10},
		{simulate.ColdCorner, func(a, b simulate.Flush) bool { return math.Abs(a.UsualDay-b.UsualDay-10) < 1e-6 }, 40, 40},
		{simulate.WrongCatalogue, func(a, b simulate.Flush) bool { return math.Abs(math.Abs(a.UsualDay-b.UsualDay)-21) < 1e-6 }, 24, 24},
		{simulate.LateSpring, opensElsewhere, 55, 60},
		{simulate.FadingSeason, opensElsewhere, 230, 240},
		{simulate.EvenSeason, opensElsewhere, 230, 240},
		{simulate.BlindPlants, func(a, b simulate.Flush) bool { return a.OpensDay == nil && b.OpensDay != nil }, 14, 34},
		{simulate.Misread, opensElsewhere, 0, 0},
		{simulate.FlowerFollowed, opensElsewhere, 0, 0},
		{simulate.Weekends, opensElsewhere, 0, 0},
		{simulate.LongGap, opensElsewhere, 0, 0},
	} {
		n := 0
		for i, f := range mustGarden(t, base(11, c.what)).Truth.Flushes {
			if c.changed(f, plain.Truth.Flushes[i]) {
				n++
			}
		}
		if n < c.low || n > c.high {
			t.Errorf("%s changes %d flushes of 240, not %d to %d", c.what, n, c.low, c.high)
		}
	}
}

func opensElsewhere(a, b simulate.Flush) bool {
	return a.OpensDay == nil || b.OpensDay == nil || *a.OpensDay != *b.OpensDay
}

// TestWhatIsInFlowerDrawsLooks and one stage in thirty is misread.
func TestWhatIsInFlowerDrawsLooks(t *testing.T) {
	count := func(b ...simulate.Break) (flower, rest, wrong int) {
		out := mustGarden(t, base(2, b...))
		for _, o := range observations(t, out) {
			truly := open(out, o.planting, o.day)
			if truly {
				flower++
			} else {
				rest++
			}
			if o.day.Year() > 2022 && o.day.Year() < 2026 && truly != (o.stage != nil && *o.stage >= 60 && *o.stage < 69) {
				wrong++
			}
		}
		return flower, rest, wrong
	}
	flower, rest, wrong := count()
	drawn, left, _ := count(simulate.FlowerFollowed)
	if drawn <= flower || left >= rest || wrong != 0 {
		t.Errorf("of %d looks at flower and %d at the rest, %d and %d where flower draws; %d wrong", flower, rest, drawn, left, wrong)
	}
	if _, _, misread := count(simulate.Misread); misread < 30 || misread > 120 {
		t.Errorf("%d misread looks", misread)
	}
}

// TestStrugglersStaySmall: a third of the pace shows in heights and vigour.
func TestStrugglersStaySmall(t *testing.T) {
	in := base(4)
	in.Struggling = pointer(0.3)
	out := mustGarden(t, in)
	struggling := map[string]bool{}
	for _, f := range out.Truth.Flushes {
		struggling[f.Planting] = f.Struggling
	}
	heights, grades := map[bool][]float64{}, map[bool][]float64{}
	for _, o := range observations(t, out) {
		if o.HeightCm != nil && o.day.Year() == simulate.LastYear {
			heights[struggling[o.planting]] = append(heights[struggling[o.planting]], *o.HeightCm)
		}
		if o.Vigour != nil && o.day > garden.DayOf(simulate.LastYear, time.August, 1) {
			grades[struggling[o.planting]] = append(grades[struggling[o.planting]], float64(*o.Vigour))
		}
	}
	small, _ := moments(heights[true])
	tall, _ := moments(heights[false])
	poor, _ := moments(grades[true])
	good, _ := moments(grades[false])
	if n := len(heights[false]) + len(heights[true]); small > 0.75*tall || poor > good-1.5 || n < 100 || n > 180 {
		t.Errorf("%.0f and %.0f cm, vigour %.1f and %.1f, of %d measures", small, tall, poor, good, n)
	}
}

// TestHeatMovesSeasons: where there is weather, warm springs are early ones, and what
// waits for short days does not care.
func TestHeatMovesSeasons(t *testing.T) {
	var spring, autumn, warmth []float64
	for seed := range uint64(40) {
		in := simulate.Input{Seed: seed, Plantings: 60, Years: 1, Weather: true}
		out := mustGarden(t, in)
		sum, n := 0.0, 0.0
		for _, r := range out.Records {
			if r.Ref.Kind != garden.WeatherRecord {
				continue
			}
			var w garden.Weather
			if err := garden.Decode(r, &w); err != nil {
				t.Fatal(err)
			}
			if w.Day.Year() == simulate.LastYear && w.Day.OfYear() > 30 && w.Day.OfYear() <= 100 {
				sum, n = sum+*w.MinC/70, n+1
			}
		}
		if n != 70 {
			t.Fatalf("%g days of weather in 70", n)
		}
		warmth, spring, autumn = append(warmth, sum), append(spring, seasonAround(out, 75, 105)), append(autumn, seasonAround(out, 220, 300))
	}
	if r := correlation(warmth, spring); r > -0.5 {
		t.Errorf("warmth from February and how late spring is correlate by %.2f", r)
	}
	if r := correlation(warmth, autumn); math.Abs(r) > 0.4 {
		t.Errorf("warmth from February and how late autumn is correlate by %.2f", r)
	}
}

// seasonAround is the mean season of the plants stated to open in a stretch.
func seasonAround(out simulate.Output, from, to float64) float64 {
	sum, n := 0.0, 0.0
	for _, f := range out.Truth.Flushes {
		if f.StatedDay >= from && f.StatedDay <= to {
			sum, n = sum+f.SeasonDays, n+1
		}
	}
	return sum / n
}

func correlation(x, y []float64) float64 {
	mx, sx := moments(x)
	my, sy := moments(y)
	sum := 0.0
	for i := range x {
		sum += (x[i] - mx) * (y[i] - my) / float64(len(x)-1)
	}
	return sum / (sx * sy)
}

// TestErrorsNameFieldValueAndBound.
func TestErrorsNameFieldValueAndBound(t *testing.T) {
	for _, c := range []struct {
		spoil func(*simulate.Input)
		want  string
	}{
		{func(in *simulate.Input) { in.Seed = 1 << 53 }, "seed 9007199254740992 is outside 0 to 9007199254740991"},
		{func(in *simulate.Input) { in.Plantings = 0 }, "plantings 0 is outside 1 to 1000"},
		{func(in *simulate.Input) { in.Years = 21 }, "years 21 is outside 1 to 20"},
		{func(in *simulate.Input) { in.VisitsPerWeek = pointer(math.NaN()) }, "visitsPerWeek NaN is outside 0.1 to 7"},
		{func(in *simulate.Input) { in.Late = pointer(1.1) }, "late 1.1 is outside 0 to 1"},
		{func(in *simulate.Input) { in.Struggling = pointer(-1) }, "struggling -1 is outside 0 to 1"},
		{func(in *simulate.Input) { in.Breaks = []simulate.Break{"dragons"} }, `breaks[0] "dragons" is not known: give heavy-tails, wet-corner,`},
		{func(in *simulate.Input) { in.Plantings, in.Years = 1000, 20 }, "plantings 1000 over years 20 make about"},
	} {
		in := base(1)
		c.spoil(&in)
		if _, err := simulate.Garden(in); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%v; want %s", err, c.want)
		}
	}
}
