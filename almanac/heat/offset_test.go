package heat

import (
	"math"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

var sineOver5 = Scale{Method: SingleSine, BaseC: 5}

func TestAColdSeasonIsLaterByTheRatioOfTheRates(t *testing.T) {
	normals := flat(12, 28) // 15 degree-days a day above 5, never near it
	cold := steady("2026-01-01", 300, 10, 24)
	season := NewSeason(sineOver5, normals, cold, on("2026-01-01"))
	// By the 100th day a usual year has 1500; at 12 a day that takes 125 days.
	got := season.At(on("2026-01-01") + 99)
	if math.Abs(got.Days-25) > 1e-9 || got.SD != 0 {
		t.Errorf("offset %+v, want 25 days, certain", got)
	}
}

func TestDaysToComeAreUsualAndUncertain(t *testing.T) {
	normals := flat(12, 28)
	season := NewSeason(sineOver5, normals, steady("2026-01-01", 50, 10, 24), on("2026-01-01"))
	// 50 days at 12 leave the season 150 short, ten usual days.
	near, far := season.At(on("2026-01-01")+59), season.At(on("2026-01-01")+119)
	if math.Abs(near.Days-10) > 1e-9 || math.Abs(far.Days-10) > 1e-9 {
		t.Errorf("offsets %v and %v, want 10 days", near.Days, far.Days)
	}
	if !(near.SD > 0.5 && far.SD > near.SD && far.SD < 30) {
		t.Errorf("uncertainty %v in 20 days and %v in 80: it must grow with the days to come", near.SD, far.SD)
	}
}

// Against the normals of the same four years the seasons must balance: the
// straying of days about the normals is what keeps the sum near the base fair.
func TestSeattleSeasonsBalanceAboutTheirOwnNormals(t *testing.T) {
	normals := seattleNormals(t)
	for _, monthDay := range []string{"03-15", "04-15", "05-15", "07-15"} {
		sum := 0.0
		for year := 2012; year <= 2015; year++ {
			series, err := NewSeries(seattle(t, year, year))
			if err != nil {
				t.Fatal(err)
			}
			start := garden.DayOf(year, 1, 1)
			day := on(start.String()[:5] + monthDay)
			sum += NewSeason(sineOver5, normals, series, start).At(day).Days
		}
		if mean := sum / 4; math.Abs(mean) > 3 {
			t.Errorf("on %s the four seasons are %.1f days off their own normals on average", monthDay, mean)
		}
	}
}

// 2012 had a cold spring in Seattle and 2015 the warmest: the difference that a
// gardener saw.
func TestSeattleSpring2012WasLateAnd2015Early(t *testing.T) {
	normals := seattleNormals(t)
	at := func(year int) float64 {
		series, err := NewSeries(seattle(t, year, year))
		if err != nil {
			t.Fatal(err)
		}
		return NewSeason(sineOver5, normals, series, garden.DayOf(year, 1, 1)).At(garden.DayOf(year, 4, 15)).Days
	}
	if late, early := at(2012), at(2015); !(late > 8 && early < -12) {
		t.Errorf("spring 2012 is %+.1f days and 2015 %+.1f days from usual", late, early)
	}
}

func TestOffsetsAreFiniteWhateverTheWeather(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cold := rapid.Float64Range(-40, 30).Draw(t, "usual minimum")
		normals := flat(cold, cold+rapid.Float64Range(0, 20).Draw(t, "usual range"))
		minC := rapid.Float64Range(-40, 30).Draw(t, "minimum")
		series := steady("2026-01-01", rapid.IntRange(1, 200).Draw(t, "days"), minC, minC+rapid.Float64Range(0, 20).Draw(t, "range"))
		season := NewSeason(sineOver5, normals, series, on("2026-01-01"))
		got := season.At(on("2026-01-01") + garden.Day(rapid.IntRange(-50, 500).Draw(t, "date")))
		if math.IsNaN(got.Days) || math.Abs(got.Days) > seasonDays || !(got.SD >= 0) || math.IsInf(got.SD, 0) {
			t.Fatalf("offset %+v", got)
		}
	})
}

func flat(minC, maxC float64) Normals {
	var normals Normals
	for i := range normals {
		normals[i].MinC, normals[i].MaxC = minC, maxC
	}
	return normals
}

func steady(first string, days int, minC, maxC float64) Series {
	list := make([]Day, days)
	for i := range list {
		list[i] = Day{on(first) + garden.Day(i), &minC, &maxC}
	}
	series, err := NewSeries(list)
	if err != nil {
		panic(err)
	}
	return series
}

func seattleNormals(t *testing.T) Normals {
	var sums [12][3]float64
	for _, d := range seattle(t, 2012, 2015) {
		_, month, _ := d.Day.Date()
		sums[month-1][0] += *d.MinC
		sums[month-1][1] += *d.MaxC
		sums[month-1][2]++
	}
	months := make([]garden.Normal, 12)
	for i, s := range sums {
		months[i] = garden.Normal{MinC: s[0] / s[2], MaxC: s[1] / s[2]}
	}
	normals, err := NewNormals(months)
	if err != nil {
		t.Fatal(err)
	}
	return normals
}
