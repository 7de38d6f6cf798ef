package bloom

import (
	"fmt"
	"slices"
	"testing"

	"haulm/garden"
)

// TestLatePlantInANormalSeason: a plant that has not opened 22 days after its
// day, in a season like any other, is late by its own account.
func TestLatePlantInANormalSeason(t *testing.T) {
	on := day(2025, 7, 20) // its expected day is 28 June, give or take
	kinds, plants := border(map[int]int{}, on)
	id := withLatePlant(plants, on)
	j := only(t, Reckon(referenceGarden(), kinds, plants, on), id)
	if j.Verdict != Late || *j.Probability > lateByLuck {
		t.Fatalf("%+v", j)
	}
	if *j.SeasonDays < -1.5 || *j.SeasonDays > 1.5 {
		t.Errorf("the season is blamed for %.1f days", *j.SeasonDays)
	}
	if j.Days[0] == nil || *j.Days[0] < 13 || *j.Days[0] > 25 || j.Days[1] != nil {
		t.Errorf("late by at least %v", j.Days)
	}
	if !slices.ContainsFunc(j.Evidence, func(e Evidence) bool { return e.Say == "last-look" && *e.Day == day(2025, 7, 17) }) {
		t.Errorf("the last look is not named: %+v", j.Evidence)
	}
}

// TestTheSamePlantInALateSeason: the same looks in a season that runs 18 days
// late for every other plant are the season's doing.
func TestTheSamePlantInALateSeason(t *testing.T) {
	on := day(2025, 7, 20)
	kinds, plants := border(map[int]int{2025: 18}, on)
	id := withLatePlant(plants, on)
	m := Reckon(referenceGarden(), kinds, plants, on)
	j := only(t, m, id)
	if j.Verdict != Due {
		t.Fatalf("%+v", j)
	}
	if *j.SeasonDays < 11 || *j.SeasonDays > 19 {
		t.Errorf("the season accounts for %.1f days of 18", *j.SeasonDays)
	}
	part := m.Season(2025, []Part{{150, 200}})
	if len(part) != 1 || part[0].Plants != 30 || part[0].WithGarden || part[0].Days < 11 || part[0].Days > 19 {
		t.Errorf("season %+v", part)
	}
	for _, id := range []string{"plant0.0", "plant5.1"} {
		if j := only(t, m, id); j.Verdict != OnTime {
			t.Errorf("%s: %s, on time in a late season expected", id, j.Verdict)
		}
	}
}

// TestALatePlantInALateSeasonIsStillFound: three weeks later again it is late,
// and the season is said to account for its part.
func TestALatePlantInALateSeasonIsStillFound(t *testing.T) {
	on := day(2025, 8, 14)
	kinds, plants := border(map[int]int{2025: 18}, on)
	id := withLatePlant(plants, on)
	j := only(t, Reckon(referenceGarden(), kinds, plants, on), id)
	if j.Verdict != Late || *j.SeasonDays < 11 || *j.SeasonDays > 19 || *j.Days[0] < 38 {
		t.Fatalf("%+v season %v", j, *j.SeasonDays)
	}
}

// TestNobodyLookedIsNeverLate: on every day of the year, a plant without a look
// this season needs one and is never late, nor without flower.
func TestNobodyLookedIsNeverLate(t *testing.T) {
	for on := day(2025, 4, 1); on < day(2025, 12, 31); on += 5 {
		kinds, plants := border(map[int]int{}, on)
		silent := &plants[4]
		silent.Looks = slices.DeleteFunc(silent.Looks, func(l Look) bool { return l.Day >= day(2025, 1, 1) })
		silent.Looks = append(silent.Looks, Look{Day: day(2025, 6, 20), Up: "up"}) // a photo or a note bounds nothing
		for _, j := range Reckon(referenceGarden(), kinds, plants, on).Judge(silent.ID) {
			if j.Verdict != NeedsALook && j.Verdict != Due || j.Days != [2]*float64{} {
				t.Fatalf("%s: %+v", on, j)
			}
			if on > day(2025, 7, 1) && j.Verdict != NeedsALook {
				t.Errorf("%s: %s", on, j.Verdict)
			}
		}
	}
}

// TestAnEarlyLookIsNotALookSinceItOpened: looks that stop before the expected
// day leave the plant in need of one, however late it gets.
func TestAnEarlyLookIsNotALookSinceItOpened(t *testing.T) {
	on := day(2025, 8, 1)
	kinds, plants := border(map[int]int{}, on)
	p := &plants[4]
	p.Looks = slices.DeleteFunc(p.Looks, func(l Look) bool { return l.Day >= day(2025, 5, 20) })
	j := only(t, Reckon(referenceGarden(), kinds, plants, on), p.ID)
	if j.Verdict != NeedsALook {
		t.Errorf("%+v", j)
	}
}

// TestWhoLookedYesterdayIsNotSentBack: a look on the eve of the expected day is
// enough for the day after.
func TestWhoLookedYesterdayIsNotSentBack(t *testing.T) {
	kinds, plants := border(map[int]int{}, day(2025, 5, 1))
	p := &plants[13] // opens on 13 June
	eve := day(2025, 6, 12)
	p.Looks = append(p.Looks, notYet(eve))
	for on, want := range map[garden.Day]Verdict{eve + 2: Due, eve + 8: NeedsALook} {
		if j := only(t, Reckon(referenceGarden(), kinds, plants, on), p.ID); j.Verdict != want {
			t.Errorf("%s: %s, %s expected: %+v", on, j.Verdict, want, j)
		}
	}
}

// TestALateFlowerIsNotItsOwnExcuse: a plant alone of its kind that opened a
// month late is judged by the other kinds' season and its own other years, not
// by this one.
func TestALateFlowerIsNotItsOwnExcuse(t *testing.T) {
	on := day(2025, 8, 14)
	kinds, plants := border(map[int]int{}, on)
	kinds = append(kinds, kindOf("alone", window("06-10", "07-10", "")))
	alone := plantOf("alone", "alone")
	for year := 2022; year < 2025; year++ {
		alone.Looks = append(alone.Looks, weekly(day(year, 6, 10), on)...)
	}
	alone.Looks = append(alone.Looks, weekly(day(2025, 7, 10), on)...)
	j := only(t, Reckon(referenceGarden(), kinds, append(plants, alone), on), "alone")
	if j.Verdict != Late || *j.Days[0] < 20 || *j.Days[1] > 36 || j.Expect.Open.P50 < 155 || j.Expect.Open.P50 > 167 {
		t.Errorf("%+v, expected to open on %.1f", j, j.Expect.Open.P50)
	}
}

// TestTheCatalogueAlone: one plant of its kind in its first year here is held
// against the book and nothing else.
func TestTheCatalogueAlone(t *testing.T) {
	on := day(2025, 8, 20)
	kinds, plants := border(map[int]int{}, on)
	kinds = append(kinds, kindOf("new", window("06-10", "07-20", "")))
	p := plantOf("new", "new")
	p.Planted = &garden.PartialDate{First: day(2023, 3, 1), Last: day(2023, 3, 1)}
	for d := day(2025, 5, 1); d < on; d += 7 {
		p.Looks = append(p.Looks, notYet(d))
	}
	p.Looks = append(p.Looks, staged(on-1, 55)) // a bud, so that it does not close
	j := only(t, Reckon(referenceGarden(), kinds, append(plants, p), on), "new")
	if j.Verdict != LaterThanTheBook {
		t.Errorf("%+v", j)
	}
}

func TestFarEarly(t *testing.T) {
	on := day(2025, 7, 1)
	kinds, plants := border(map[int]int{}, on)
	p := &plants[15]
	p.Looks = slices.DeleteFunc(p.Looks, func(l Look) bool { return l.Day >= day(2025, 1, 1) })
	p.Looks = append(p.Looks, weekly(day(2025, 5, 15), on)...)
	j := only(t, Reckon(referenceGarden(), kinds, plants, on), p.ID)
	if j.Verdict != FarEarly || *j.Probability > earlyByLuck || *j.Days[1] > -20 {
		t.Errorf("%+v", j)
	}
}

// TestABlindYearDoesNotTeachLateness: a plant that did not flower in 2024 closes
// as no flower seen then, and is expected on its usual day in 2025.
func TestABlindYearDoesNotTeachLateness(t *testing.T) {
	blind := func(on garden.Day) ([]garden.Kind, []Plant) {
		kinds, plants := border(map[int]int{}, on)
		p := &plants[4]
		p.Looks = slices.DeleteFunc(p.Looks, func(l Look) bool { return l.Day.Year() == 2024 })
		for d := day(2024, 5, 1); d < day(2024, 11, 1) && d <= on; d += 7 {
			p.Looks = append(p.Looks, notYet(d))
		}
		return kinds, plants
	}
	kinds, plants := blind(day(2024, 10, 15))
	j := only(t, Reckon(referenceGarden(), kinds, plants, day(2024, 10, 15)), plants[4].ID)
	if j.Verdict != NoFlowerSeen || j.Days != [2]*float64{} || *j.Probability > 0.05 {
		t.Errorf("2024: %+v", j)
	}
	kinds, plants = blind(day(2025, 12, 1))
	m := Reckon(referenceGarden(), kinds, plants, day(2025, 12, 1))
	e, ok := m.Expect(plants[4].ID, 2025, 0)
	sister, _ := m.Expect(plants[5].ID, 2025, 0)
	if !ok || e.Open.P50 > sister.Open.P50+1 {
		t.Errorf("expected on %.1f after a blind year, its sister on %.1f", e.Open.P50, sister.Open.P50)
	}
}

// TestWhatNobodyCameToSeeIsNotLate: a winter flower that nobody visited until
// April, when it showed nothing, may have flowered in January. It is neither late
// nor without flower; from a bud, or from looks that left no room, it would be.
func TestWhatNobodyCameToSeeIsNotLate(t *testing.T) {
	kinds := []garden.Kind{kindOf("winter", window("01-10", "02-20", ""))}
	p := plantOf("p", "winter")
	for year := 2021; year < 2024; year++ {
		p.Looks = append(p.Looks, weekly(day(year, 1, 10), day(year, 3, 20))...)
	}
	april := append(slices.Clone(p.Looks), notYet(day(2024, 4, 6)), notYet(day(2024, 4, 20)))
	for on := day(2024, 4, 20); on < day(2024, 12, 1); on += 19 {
		p.Looks = april
		j := only(t, Reckon(referenceGarden(), kinds, []Plant{p}, on), "p")
		if j.Verdict != NeedsALook || !slices.ContainsFunc(j.Evidence, func(e Evidence) bool { return e.Say == "too-late-to-tell" }) {
			t.Errorf("%s: %+v", on, j)
		}
	}
	p.Looks = slices.Clone(april[:len(april)-2])
	for d := day(2023, 12, 20); d < day(2024, 3, 19); d += 7 {
		p.Looks = append(p.Looks, notYet(d))
	}
	if j := only(t, Reckon(referenceGarden(), kinds, []Plant{p}, day(2024, 3, 18)), "p"); j.Verdict != Late {
		t.Errorf("looked at every week and not in flower in March: %+v", j)
	}
	p.Looks = append(april[:len(april)-2], staged(day(2024, 4, 6), 55))
	if j := only(t, Reckon(referenceGarden(), kinds, []Plant{p}, day(2024, 4, 6)), "p"); j.Verdict != Late {
		t.Errorf("in bud in April: %+v", j)
	}
}

// TestBudKeepsAFlushOpen: while bud was the last thing seen, a flush never closes.
func TestBudKeepsAFlushOpen(t *testing.T) {
	on := day(2025, 10, 15)
	kinds, plants := border(map[int]int{}, on)
	id := withLatePlant(plants, on-8)
	p := &plants[len(plants)-1]
	p.Looks = append(p.Looks, staged(on-7, 55))
	if j := only(t, Reckon(referenceGarden(), kinds, plants, on), id); j.Verdict != Late {
		t.Errorf("%+v", j)
	}
}

// TestFirstGardenSeason: with one season known the season is told with the
// garden's own difference in it, and says so.
func TestFirstGardenSeason(t *testing.T) {
	on := day(2022, 8, 1)
	kinds, plants := border(map[int]int{2022: 12}, on)
	m := Reckon(referenceGarden(), kinds, plants, on)
	part := m.Season(2022, []Part{{150, 200}})
	if len(part) != 1 || !part[0].WithGarden || part[0].Days < 9 || part[0].Days > 13.5 {
		t.Errorf("%+v", part)
	}
	if j := only(t, m, "plant3.1"); *j.SeasonDays < 8 {
		t.Errorf("garden and season account for %.1f of 12 days", *j.SeasonDays)
	}
}

func TestSecondFlushWaitsForItsWork(t *testing.T) {
	on := day(2025, 8, 25)
	kinds, plants := border(map[int]int{}, on)
	kinds = append(kinds, kindOf("twice", window("06-01", "06-25", ""), window("08-05", "09-15", "deadhead")))
	looks := func() []Look {
		var all []Look
		for year := 2023; year <= 2025; year++ {
			all = append(all, weekly(day(year, 6, 1), day(year, 7, 4))...)
		}
		for d := day(2025, 7, 11); d <= on; d += 7 {
			all = append(all, notYet(d))
		}
		return all
	}
	p := plantOf("twice", "twice", looks()...)
	second := func(plant Plant) Judgement {
		for _, j := range Reckon(referenceGarden(), kinds, append(slices.Clone(plants), plant), on).Judge("twice") {
			if j.Flush == 1 {
				return j
			}
		}
		return Judgement{}
	}
	if j := second(p); j.Verdict != Unexpected || j.Evidence[0].Say != "needs-work" || j.Evidence[0].What != "deadhead" {
		t.Errorf("without deadheading: %+v", j)
	}
	cut := day(2025, 7, 5)
	p.Work = []garden.Work{{Day: &cut, What: "deadhead"}}
	if j := second(p); j.Verdict != Due {
		t.Errorf("deadheaded: %+v", j)
	}
}

func TestSuspendedAndEstablishing(t *testing.T) {
	on := day(2025, 7, 20)
	cut, winter := day(2025, 5, 20), day(2025, 2, 10)
	young := garden.PartialDate{First: day(2024, 11, 1), Last: day(2024, 11, 1)}
	for _, c := range []struct {
		name   string
		change func(*Plant, *garden.Kind)
		want   Verdict
		what   string
	}{
		{"cut back in May", func(p *Plant, _ *garden.Kind) { p.Work = []garden.Work{{Day: &cut, What: "cut-back"}} }, IsSuspended, "cut-back"},
		{"cut back in winter", func(p *Plant, _ *garden.Kind) { p.Work = []garden.Work{{Day: &winter, What: "cut-back"}} }, Late, ""},
		{"browsed", func(p *Plant, _ *garden.Kind) {
			p.Looks = append(p.Looks, Look{Day: day(2025, 5, 30), Signs: []string{"slug", "deer"}})
		}, IsSuspended, "deer"},
		{"moved", func(p *Plant, _ *garden.Kind) {
			p.Planted, p.From = &young, &garden.Descent{Planting: "old", How: "moved"}
		}, IsSuspended, "moved"},
		{"too young", func(p *Plant, k *garden.Kind) { p.Planted, k.YearsToFlower, p.Looks = &young, 3, late2025(on) }, IsEstablishing, ""},
		{"under glass", func(p *Plant, _ *garden.Kind) { p.Cover = "greenhouse" }, Unexpected, "greenhouse"},
		{"annual of last year", func(_ *Plant, k *garden.Kind) { k.LifeCycle = "annual" }, Unexpected, "annual"},
		{"lifted in July", func(p *Plant, _ *garden.Kind) { ended := day(2025, 7, 10); p.Ended = &ended }, Unexpected, "ended"},
	} {
		t.Run(c.name, func(t *testing.T) {
			kinds, plants := border(map[int]int{}, on)
			kinds = append(kinds, kinds[9])
			kinds[10].ID = "own"
			p := plants[len(plants)-1]
			p.ID, p.Kind = "subject", "own"
			id := withLatePlant([]Plant{p}, on)
			p.Looks = append(p.Looks[:0:0], late2025(on)...)
			for year := 2022; year < 2025; year++ {
				p.Looks = append(p.Looks, weekly(day(year, 6, 28), on)...)
			}
			c.change(&p, &kinds[10])
			j := only(t, Reckon(referenceGarden(), kinds, append(plants, p), on), id)
			if j.Verdict != c.want || c.what != "" && j.Evidence[0].What != c.what {
				t.Errorf("%+v", j)
			}
		})
	}
}

// late2025 is a look a week in 2025 that never sees flower.
func late2025(on garden.Day) []Look {
	var looks []Look
	for d := day(2025, 5, 1); d <= on; d += 7 {
		looks = append(looks, notYet(d))
	}
	return looks
}

// TestTheOrderOfTheInputDoesNotMatter: plants, kinds and looks in another order
// give the same judgements to the last digit.
func TestTheOrderOfTheInputDoesNotMatter(t *testing.T) {
	on := day(2025, 7, 20)
	kinds, plants := border(map[int]int{2025: 7, 2023: -4}, on)
	forwards := fmt.Sprintf("%+v", values(Reckon(referenceGarden(), kinds, plants, on)))
	slices.Reverse(kinds)
	slices.Reverse(plants)
	for i := range plants {
		slices.Reverse(plants[i].Looks)
	}
	if backwards := fmt.Sprintf("%+v", values(Reckon(referenceGarden(), kinds, plants, on))); backwards != forwards {
		t.Error("another order gave other judgements")
	}
}

// values are the numbers of all judgements.
func values(m *Model) (all []any) {
	for _, j := range m.Judgements() {
		all = append(all, j.Plant, j.Verdict, j.Expect, *j.SeasonDays)
		for _, d := range j.Days {
			if d != nil {
				all = append(all, *d)
			}
		}
	}
	return all
}
