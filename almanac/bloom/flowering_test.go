package bloom

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"haulm/garden"
)

func TestFlowersByAgeAndLifeCycle(t *testing.T) {
	kind := func(cycle string, years float64) *garden.Kind {
		return &garden.Kind{LifeCycle: cycle, YearsToFlower: years}
	}
	for _, c := range []struct {
		name          string
		kind          *garden.Kind
		season, index int
		flowered      bool
		want          float64
	}{
		{"settled", kind("long-lived", 2), 6, 0, false, 0.95},
		{"of unknown age", kind("long-lived", 2), 0, 0, false, 0.95},
		{"in the first season it may", kind("long-lived", 2), 2, 0, false, 0.95 * 0.85},
		{"in the next", kind("long-lived", 2), 3, 0, false, 0.95 * 0.95},
		{"half a year's wait counts as one", kind("long-lived", 1.5), 2, 0, false, 0.95 * 0.85},
		{"young, but it has flowered", kind("long-lived", 2), 2, 0, true, 0.95},
		{"short-lived", kind("short-lived", 1), 5, 0, false, 0.9},
		{"an annual in its one season", kind("annual", 0), 1, 0, false, 0.9},
		{"a biennial in its year", kind("biennial", 1), 1, 0, false, 0.9 * 0.85},
		{"what flowers once", kind("monocarpic", 3), 8, 0, false, 0.3},
		{"a second flush", kind("long-lived", 1), 5, 1, true, 0.95 * 0.8},
	} {
		if got := flowersByAge(c.kind, c.season, c.flowered, c.index); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %g, %g expected", c.name, got, c.want)
		}
	}
}

// blindSeasons is a garden of four plants of one kind that opened in June of 2021
// to 2024 but for the first, which showed in those years what the looks say.
func blindSeasons(looks func(year int) []Look) []Plant {
	plants := []Plant{plantOf("p0", "k"), plantOf("p1", "k"), plantOf("p2", "k"), plantOf("p3", "k")}
	for year := 2021; year <= 2024; year++ {
		plants[0].Looks = append(plants[0].Looks, looks(year)...)
		for p := range plants[1:] {
			plants[1+p].Looks = append(plants[1+p].Looks, weekly(day(year, 6, 10), day(year, 9, 1))...)
		}
	}
	return plants
}

func neverOpen(year int) []Look {
	var looks []Look
	for d := day(year, 5, 1); d < day(year, 9, 20); d += 7 {
		looks = append(looks, notYet(d))
	}
	return looks
}

// flowersIn2025 is the chance that a planting flowers in 2025, before any look.
func flowersIn2025(plants []Plant, id string) float64 {
	m := Reckon(referenceGarden(), []garden.Kind{kindOf("k", window("06-10", "07-10", ""))}, plants, day(2025, 5, 1))
	for _, i := range m.of(id) {
		if m.flushes[i].Year == 2025 {
			return m.flushes[i].Flowers
		}
	}
	return math.NaN()
}

// TestHistoryTellsWhetherItFlowers: the chance that a planting flowers is that of
// a beta distribution: of its kind's mean after twelve plant-seasons in which it
// flowered, and its own record after that.
func TestHistoryTellsWhetherItFlowers(t *testing.T) {
	ofKind := (10*0.95 + 12) / 22
	for name, c := range map[string]struct {
		looks      func(int) []Look
		own, other float64
	}{
		"never flowered": {neverOpen, 4 * ofKind / 8, (4*(10*0.95+8)/22 + 4) / 8},
		"always did":     {func(y int) []Look { return weekly(day(y, 6, 10), day(y, 9, 1)) }, (4*ofKind + 4) / 8, (4*ofKind + 4) / 8},
		"nobody looked":  {func(int) []Look { return nil }, ofKind, (4*(10*0.95+8)/18 + 4) / 8},
		"two looks leave room for it to have flowered": {func(y int) []Look { return []Look{notYet(day(y, 5, 1)), notYet(day(y, 9, 10))} }, ofKind, (4*(10*0.95+8)/18 + 4) / 8},
		"browsed each year": {func(y int) []Look {
			return append(neverOpen(y), Look{Day: day(y, 5, 28), Signs: []string{"deer"}})
		}, ofKind, (4*(10*0.95+8)/18 + 4) / 8},
	} {
		t.Run(name, func(t *testing.T) {
			plants := blindSeasons(c.looks)
			if own := flowersIn2025(plants, "p0"); math.Abs(own-c.own) > 1e-9 {
				t.Errorf("%g, %g expected", own, c.own)
			}
			if other := flowersIn2025(plants, "p1"); math.Abs(other-c.other) > 1e-9 {
				t.Errorf("another of its kind %g, %g expected", other, c.other)
			}
		})
	}
}

// TestJudgementTellsWhetherItFlowers: what shows no flower past its day may not
// flower at all, and the more so the later it gets; what is in bud will, and what
// is in flower has.
func TestJudgementTellsWhetherItFlowers(t *testing.T) {
	last := 1.0
	for _, on := range []garden.Day{day(2025, 6, 27), day(2025, 7, 4), day(2025, 7, 11), day(2025, 7, 20)} {
		kinds, plants := border(map[int]int{}, on)
		id := withLatePlant(plants, on)
		m := Reckon(referenceGarden(), kinds, plants, on)
		j := only(t, m, id)
		at := m.of(id)[len(m.of(id))-1]
		pi, shut := m.flushes[at].Flowers, m.forecast(at).beyond(*m.flushes[at].After)
		if want := pi * shut / (pi*shut + 1 - pi); j.Flowers == nil || math.Abs(*j.Flowers-want) > 0.0005 || *j.Flowers >= last {
			t.Fatalf("%s: %v, %g expected, %g before", on, *j.Flowers, want, last)
		}
		last = *j.Flowers
		told := slices.IndexFunc(j.Evidence, func(e Evidence) bool { return e.Say == "may-not-flower" })
		if told >= 0 != (1-last >= tellingDoubt) || told >= 0 && math.Abs(*j.Evidence[told].Probability-1+last) > 1e-9 {
			t.Errorf("%s: flowers with chance %g: %+v", on, last, j.Evidence)
		}
		if j := only(t, m, "plant1.0"); j.Flowers != nil {
			t.Errorf("%s: in flower, and it flowers with chance %g", on, *j.Flowers)
		}
		plants[len(plants)-1].Looks = append(plants[len(plants)-1].Looks, staged(on, 55))
		if j := only(t, Reckon(referenceGarden(), kinds, plants, on), id); j.Flowers != nil {
			t.Errorf("%s: in bud, and it flowers with chance %g", on, *j.Flowers)
		}
	}
	if last > 0.3 {
		t.Errorf("22 days after its day it flowers with chance %g", last)
	}
}

// TestWhatIsNotExpectedToFlowerIsNotLate: a plant that came to nothing in four
// seasons under watch is due, may not flower, and is not called late; its blind
// years are named.
func TestWhatIsNotExpectedToFlowerIsNotLate(t *testing.T) {
	kinds, on := []garden.Kind{kindOf("k", window("06-10", "07-10", ""))}, day(2025, 7, 18)
	for name, c := range map[string]struct {
		looks func(int) []Look
		want  Verdict
		blind []int
	}{
		"always flowered": {func(y int) []Look { return weekly(day(y, 6, 10), day(y, 9, 1)) }, Late, nil},
		"never did":       {neverOpen, Due, []int{2021, 2022, 2023, 2024}},
	} {
		plants := blindSeasons(c.looks)
		for d := day(2025, 5, 1); d <= on; d += 7 {
			plants[0].Looks = append(plants[0].Looks, notYet(d))
		}
		for p := range plants[1:] {
			plants[1+p].Looks = append(plants[1+p].Looks, weekly(day(2025, 6, 10), on)...)
		}
		m := Reckon(referenceGarden(), kinds, plants, on)
		if j := only(t, m, "p0"); j.Verdict != c.want || !slices.ContainsFunc(j.Evidence, func(e Evidence) bool { return e.Say == "may-not-flower" }) {
			t.Errorf("%s: %+v", name, j)
		}
		if blind := m.BlindYears("p0"); !slices.Equal(blind, c.blind) {
			t.Errorf("%s: blind in %v", name, blind)
		}
	}
}

// TestTheChanceOfFlowerHolds: in gardens where one plant-year in eight is blind,
// of the plants without flower on a day in June as many still flower as was said,
// within five of a hundred.
func TestTheChanceOfFlowerHolds(t *testing.T) {
	on := day(lastYear, 6, 15)
	said, came, of := 0.0, 0.0, 0.0
	for seed := range uint64(40) {
		s := simulateLasting(500+seed, 20, 60)
		rng := rand.New(rand.NewPCG(seed, 20261126))
		opens := map[string]bool{}
		for p := range s.plants {
			for year := lastYear - lastedYears + 1; year <= lastYear; year++ {
				if blind := rng.IntN(8) == 0; blind {
					makeBlind(&s.plants[p], year)
				} else if year == lastYear {
					opens[s.plants[p].ID] = true
				}
			}
		}
		m := Reckon(referenceGarden(), s.kinds, s.plants, on)
		for _, j := range m.Judgements() {
			if j.Flowers != nil && (j.Verdict == Due || j.Verdict == Late) {
				said, of = said+*j.Flowers, of+1
				if opens[j.Plant] {
					came++
				}
			}
		}
	}
	if of < 200 || math.Abs(said-came)/of > 0.05 {
		t.Errorf("of %g plants without flower %.3f were said to flower and %.3f did", of, said/of, came/of)
	}
}

// makeBlind turns all that a year's looks saw of flower into none.
func makeBlind(p *Plant, year int) {
	for i, l := range p.Looks {
		if l.Day.Year() == year {
			p.Looks[i] = notYet(l.Day)
		}
	}
}

// TestComing: what sleeps in winter comes up in spring; what did not come up by
// May is still to; what came up is expected again next year.
func TestComing(t *testing.T) {
	kind := kindOf("k", window("04-10", "10-07", ""))
	plant := Plant{AtLeastDays: 75}
	plant.ID, plant.Kind = "p", "k"
	up := func(years ...int) (looks []Look) {
		for _, y := range years {
			looks = append(looks, notYet(day(y, 3, 20)), staged(day(y, 4, 12), 60), staged(day(y, 9, 1), 60))
		}
		return looks
	}
	for _, c := range []struct {
		name  string
		looks []Look
		on    garden.Day
		year  int
	}{
		{"in winter", up(2023, 2024), day(2025, 1, 10), 2025},
		{"in autumn", up(2023, 2024), day(2024, 11, 20), 2025},
		{"not up in May", append(up(2023, 2024), notYet(day(2025, 5, 10))), day(2025, 5, 12), 2025},
		{"up", up(2023, 2024, 2025), day(2025, 9, 2), 2026},
		{"never looked at", nil, day(2025, 1, 10), 2025},
	} {
		plant.Looks = c.looks
		e, ok := Reckon(referenceGarden(), []garden.Kind{kind}, []Plant{plant}, c.on).Coming("p")
		if !ok || e.Year != c.year || math.Abs(e.Open.P50-95) > 6 {
			t.Errorf("%s: %v %+v", c.name, ok, e)
		}
	}
	ended := day(2024, 12, 1)
	plant.Ended = &ended
	if e, ok := Reckon(referenceGarden(), []garden.Kind{kind}, []Plant{plant}, day(2025, 1, 10)).Coming("p"); ok {
		t.Errorf("lifted, and %+v", e)
	}
}

// TestEarly: opened before the band in which eight of ten open is early, further
// out far early, within it on time.
func TestEarly(t *testing.T) {
	on := day(2025, 7, 20)
	verdicts := map[Verdict]bool{}
	for earlier := garden.Day(0); earlier < 30; earlier++ {
		kinds, plants := border(map[int]int{}, on)
		p := &plants[15]
		p.Looks = slices.DeleteFunc(p.Looks, func(l Look) bool { return l.Day >= day(2025, 1, 1) })
		opens := day(2025, 6, 14) - earlier
		p.Looks = append(p.Looks, notYet(opens-2), staged(opens, 61), staged(opens+20, 67))
		m := Reckon(referenceGarden(), kinds, plants, on)
		j := only(t, m, p.ID)
		verdicts[j.Verdict] = true
		by := float64(opens-day(2025, 1, 1)) + 1
		if before := by <= j.Expect.Open.P10; before != (j.Verdict == Early || j.Verdict == FarEarly) {
			t.Errorf("open by %g with 10 %% point %g: %s", by, j.Expect.Open.P10, j.Verdict)
		}
		if j.Verdict == Early && (*j.Probability > opensEarly || *j.Probability <= earlyByLuck || *j.Days[1] >= 0) {
			t.Errorf("%+v", j)
		}
	}
	if fmt.Sprint(verdicts[OnTime], verdicts[Early], verdicts[FarEarly]) != "true true true" {
		t.Error(verdicts)
	}
}
