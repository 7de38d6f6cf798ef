package skill

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"testing"

	"haulm/almanac/simulate"
	"haulm/garden"
	"haulm/internal/reference"
)

// kyotoYears make one garden: three that it learns from and the one that is walked.
const kyotoYears = 4

// Kyoto's cherry in full flower (testdata/reference, after Aono) opens on day 105 in
// the mean: the book says 10 April, day 100, as books are some days off. Its
// flower is noted for about a fortnight.
const kyotoStated, kyotoLasts = 100, 14

// kyoto walks the series as gardens of one plant, four recorded years at a time
// (each stretch, or one of so many), the last with its flower late by some days. Luck and season cannot be told
// apart in it, so its own expected day is taken to be the day on record.
func kyoto(t testing.TB, late float64, oneOf int) Score {
	var score Score
	days := kyotoDays(t)
	for from := 0; from+kyotoYears <= len(days); from += oneOf * kyotoYears {
		w, err := Through(kyotoGarden(days[from:from+kyotoYears], late, uint64(from)))
		if err != nil {
			t.Fatal(err)
		}
		score.Count(w)
	}
	return score
}

func kyotoDays(t testing.TB) (days []float64) {
	t.Helper()
	for _, row := range reference.Table(t, "phenology_kyoto_full_flowering.csv") {
		days = append(days, row.Float("full_flowering_day_of_year"))
	}
	return days
}

// kyotoGarden is one plant looked at every 3 to 12 days.
func kyotoGarden(days []float64, late float64, seed uint64) simulate.Output {
	out := simulate.Output{On: garden.DayOf(simulate.LastYear, 8, 1)}
	put(&out, "kind/cherry", map[string]any{"bloom": []garden.BloomWindow{{From: garden.MonthDay{Month: 4, Day: 10}, To: garden.MonthDay{Month: 4, Day: 24}}}, "cue": "heat"})
	put(&out, "planting/cherry", map[string]any{"kind": "cherry"})
	for i, opens := range days {
		year := simulate.LastYear - len(days) + 1 + i
		f := simulate.Flush{Planting: "cherry", Year: year, StatedDay: kyotoStated, StatedEnd: kyotoStated + kyotoLasts,
			UsualDay: opens, ExpectedDay: opens, LastsDays: kyotoLasts}
		if year == simulate.LastYear {
			f.LateDays = late
		}
		opens += f.LateDays
		ends := opens + kyotoLasts
		f.OpensDay, f.EndsDay = &opens, &ends
		out.Truth.Flushes = append(out.Truth.Flushes, f)
		kyotoLooks(&out, f, seed)
	}
	out.Truth.Luck = simulate.Luck{SD: 4.5}
	return out
}

// kyotoLooks are from February to July, four in five made.
func kyotoLooks(out *simulate.Output, f simulate.Flush, seed uint64) {
	chance := rand.New(rand.NewPCG(seed, uint64(f.Year)))
	for day := 32 + chance.IntN(10); day < 213; day += 3 + chance.IntN(10) {
		if chance.IntN(5) == 0 {
			continue
		}
		on := garden.DayOf(f.Year, 1, day)
		fields := map[string]any{"planting": "cherry", "seen": on.String() + "T10:00:00Z"}
		if at := float64(day); at >= *f.OpensDay && at <= *f.EndsDay {
			fields["stage"] = 65
		} else {
			fields["notInFlower"] = true
		}
		put(out, fmt.Sprintf("observation/%s", on), fields)
	}
}

func put(out *simulate.Output, ref string, fields map[string]any) {
	parsed, err := garden.ParseRef(ref)
	if err != nil {
		panic(err) // written here
	}
	raw := garden.Fields{}
	for name, value := range fields {
		if raw[name], err = json.Marshal(value); err != nil {
			panic(err) // so are the values
		}
	}
	out.Records = append(out.Records, garden.Record{Ref: parsed, Fields: raw})
}

// kyotoLate is how late the tree is where it is late, in days.
const kyotoLate = 30

// TestKyotoWithOnePlant: one tree in 200 springs, its season and its luck one to the
// model: a month late is named in two of five at least,
// and few are named that were as on record.
func TestKyotoWithOnePlant(t *testing.T) {
	well, late := kyoto(t, 0, 4), kyoto(t, kyotoLate, 4)
	if well.Gardens < 50 {
		t.Fatalf("%d stretches", well.Gardens)
	}
	if well.Haulm.False.Percent() > 5 || well.After.Percent() < 70 {
		t.Errorf("named for nothing %+v, bands %+v", well.Haulm.False, well.After)
	}
	if late.Haulm.Named.Percent() < 40 {
		t.Errorf("a month late: named %+v", late.Haulm.Named)
	}
}
