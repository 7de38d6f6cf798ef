package bloom

import (
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"haulm/garden"
)

// anyOddPlant draws a plant that is valid and makes no sense: looks before it was
// planted and after it ended, twenty looks on one day, stages that jump back and
// forth, any work, sign and descent.
func anyOddPlant(t *rapid.T, id string, kinds []garden.Kind) Plant {
	anyDay := func(name string) garden.Day {
		return day(2021, 1, 1) + garden.Day(rapid.IntRange(0, 1800).Draw(t, name))
	}
	maybe := func(name string) bool { return rapid.Bool().Draw(t, name) }
	p := Plant{Looks: rapid.SliceOfN(rapid.Custom(anyLook), 0, 25).Draw(t, "looks")}
	p.ID, p.Kind = id, rapid.SampledFrom(kinds).Draw(t, "kind").ID
	p.Form, p.Cover = rapid.SampledFrom([]string{"", "bare-root", "pot"}).Draw(t, "form"), rapid.SampledFrom([]string{"", "none", "none", "greenhouse"}).Draw(t, "cover")
	if maybe("planted") {
		first := anyDay("planted on")
		p.Planted = &garden.PartialDate{First: first, Last: first + garden.Day(rapid.SampledFrom([]int{0, 30, 364}).Draw(t, "known to"))}
	}
	if maybe("ended") {
		ended := anyDay("ended on")
		p.Ended = &ended
	}
	if maybe("descended") {
		p.From = &garden.Descent{Planting: "other", How: rapid.SampledFrom([]string{"moved", "divided", "seed", "lifted"}).Draw(t, "how")}
	}
	if maybe("life") {
		p.AtLeastDays = 75
	}
	for range rapid.IntRange(0, 5).Draw(t, "works") {
		w := garden.Work{What: rapid.SampledFrom([]string{"", "cut-back", "prune", "deadhead", "divide", "move", "weed"}).Draw(t, "work")}
		if maybe("dated") {
			done := anyDay("done")
			w.Day = &done
		}
		p.Work = append(p.Work, w)
	}
	crowd := anyDay("crowded day")
	for range rapid.SampledFrom([]int{0, 0, 20}).Draw(t, "crowd") {
		stage := rapid.IntRange(0, 99).Draw(t, "stage")
		p.Looks = append(p.Looks, Look{Day: crowd, Stage: &stage, Signs: []string{rapid.SampledFrom([]string{"frost", "deer", "slug"}).Draw(t, "sign")}})
	}
	return p
}

// TestOddPlantsAreReckonedSoundly: whatever valid plants there are, wherever the
// garden lies, nothing panics and no NaN or infinity comes out of any answer.
func TestOddPlantsAreReckonedSoundly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kinds := []garden.Kind{kindOf("once", window("06-10", "07-10", "")), kindOf("leap", window("02-29", "02-29", "")), kindOf("winter", window("12-20", "02-10", "")),
			kindOf("thrice", window("04-20", "05-20", ""), window("07-01", "08-10", "cut-back"), window("09-01", "10-10", "deadhead")), kindOf("never")}
		for i := range kinds {
			kinds[i].LifeCycle = rapid.SampledFrom([]string{"", "annual", "biennial", "monocarpic", "short-lived", "long-lived"}).Draw(t, "life cycle")
			kinds[i].YearsToFlower = rapid.SampledFrom([]float64{0, 1, 2.5, 8}).Draw(t, "years to flower")
		}
		var plants []Plant
		for i := range rapid.IntRange(0, 5).Draw(t, "plants") {
			plants = append(plants, anyOddPlant(t, fmt.Sprint("p", i), kinds))
		}
		here := gardenAt(rapid.Float64Range(-70, 70).Draw(t, "lat"), rapid.Float64Range(-50, 3000).Draw(t, "altitude"))
		on := day(2021, 6, 1) + garden.Day(rapid.IntRange(0, 1700).Draw(t, "on"))
		m := Reckon(here, kinds, plants, on)
		sound(t, m.LatenessDays())
		for _, j := range m.Judgements() {
			soundJudgement(t, j)
		}
		for _, p := range plants {
			m.BlindYears(p.ID)
			if e, ok := m.Coming(p.ID); ok {
				soundBand(t, e.Open)
				soundBand(t, e.Close)
			}
			for _, s := range m.Strips(p.ID) {
				soundBand(t, s.Open)
				soundBand(t, s.Close)
			}
		}
		for _, s := range m.Season(on.Year(), DefaultParts()) {
			sound(t, s.Days, s.SD)
		}
	})
}

// soundJudgement holds every number of a judgement to be one, and every
// probability to lie between 0 and 1.
func soundJudgement(t *rapid.T, j Judgement) {
	soundBand(t, j.Expect.Open)
	soundBand(t, j.Expect.Close)
	chances := []*float64{j.Probability, j.Flowers}
	for _, e := range j.Evidence {
		chances = append(chances, e.Probability)
		for _, v := range []*float64{e.Days, e.SD} {
			if v != nil {
				sound(t, *v)
			}
		}
	}
	for _, p := range chances {
		if p != nil && !(*p >= 0 && *p <= 1) {
			t.Fatalf("%+v", j)
		}
	}
	for _, d := range []*float64{j.Days[0], j.Days[1], j.SeasonDays} {
		if d != nil {
			sound(t, *d)
		}
	}
}

// TestADayWithoutALookChangesOnlyWhatTheCalendarMoves walks a garden through a
// summer without a look: while nothing closes, every flush that was seen to open
// is judged as on the day before, every probability of lateness stays, the season
// and every expectation too; what moves is what is due, what needs a look, and
// what comes into or leaves the season.
func TestADayWithoutALookChangesOnlyWhatTheCalendarMoves(t *testing.T) {
	start := day(2025, 6, 25)
	kinds, plants := border(map[int]int{2025: 6, 2023: -5}, start)
	withLatePlant(plants, start)
	before := Reckon(referenceGarden(), kinds, plants, start)
	still := 0
	for on := start + 1; on < start+100; on++ {
		now := Reckon(referenceGarden(), kinds, plants, on)
		if closed(now) == closed(before) {
			still++
			sameButForTheCalendar(t, before, now)
		}
		before = now
	}
	if still < 80 {
		t.Errorf("nothing closed on %d of 100 days", still)
	}
}

func closed(m *Model) (count int) {
	for _, f := range m.flushes {
		if f.Standing.Kind == Closed {
			count++
		}
	}
	return count
}

func sameButForTheCalendar(t *testing.T, before, now *Model) {
	t.Helper()
	if was, is := before.Season(2025, DefaultParts()), now.Season(2025, DefaultParts()); !reflect.DeepEqual(was, is) {
		t.Errorf("%s: the season was %+v and is %+v", now.on, was, is)
	}
	is := map[string]Judgement{}
	for _, j := range now.Judgements() {
		is[fmt.Sprint(j.Plant, j.Year, j.Flush)] = j
	}
	for _, was := range before.Judgements() {
		j, told := is[fmt.Sprint(was.Plant, was.Year, was.Flush)]
		if !told {
			continue // its flush is of another season now
		}
		opened := was.Days[1] != nil
		if opened && !reflect.DeepEqual(was, j) {
			t.Errorf("%s: seen to open, it was %+v and is %+v", now.on, was, j)
		}
		if was.Verdict == j.Verdict && !reflect.DeepEqual([]any{was.Expect, was.Probability, was.SeasonDays, was.Flowers}, []any{j.Expect, j.Probability, j.SeasonDays, j.Flowers}) {
			t.Errorf("%s: %s was %+v and is %+v", now.on, was.Plant, was, j)
		}
	}
}
