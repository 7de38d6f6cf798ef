package bloom

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"haulm/garden"
)

func onDay(d garden.Day) *garden.PartialDate { return &garden.PartialDate{First: d, Last: d} }

// TestWhatWasBoughtInBudTellsNothing: what opens within weeks of being planted is
// how the nursery grew it; next year it is the garden's.
func TestWhatWasBoughtInBudTellsNothing(t *testing.T) {
	kind := kindOf("k", window("06-10", "07-10", ""))
	for _, c := range []struct {
		name    string
		planted garden.Day
		looks   []Look
		year    int
		want    StandingKind
	}{
		{"planted in flower", day(2025, 6, 20), []Look{staged(day(2025, 6, 20), 65)}, 2025, Suspended},
		{"planted in bud", day(2025, 5, 20), []Look{staged(day(2025, 6, 1), 61)}, 2025, Suspended},
		{"planted in autumn", day(2024, 10, 20), []Look{notYet(day(2025, 6, 1))}, 2025, Open},
		{"forced for autumn", day(2024, 10, 20), []Look{staged(day(2024, 11, 5), 65)}, 2025, Open},
		{"the year after", day(2024, 6, 20), []Look{staged(day(2024, 6, 20), 65)}, 2025, Open},
	} {
		p := plantOf("p", "k", c.looks...)
		p.Planted = onDay(c.planted)
		if f := flushOf(t, referenceGarden(), kind, p, c.year, 0); f.Standing.Kind != c.want {
			t.Errorf("%s: %+v", c.name, f.Standing)
		}
	}
}

// TestTheFirstSeasonIsLooser: a plant in its first season is expected about when
// a settled one is, bare-root a week later, and its band is wider by what the
// first season may be off.
func TestTheFirstSeasonIsLooser(t *testing.T) {
	on := day(2025, 9, 1)
	kinds, plants := border(map[int]int{}, on)
	expected := func(form string, planted garden.Day) Band {
		p := plantOf("new", kinds[4].ID)
		p.Form, p.Planted = form, onDay(planted)
		e, ok := Reckon(referenceGarden(), kinds, append(slices.Clone(plants), p), on).Expect("new", 2025, 0)
		if !ok {
			t.Fatal("nothing expected of a new plant")
		}
		return e.Open
	}
	settled, pot, bare := expected("pot", day(2020, 11, 1)), expected("pot", day(2024, 11, 1)), expected("bare-root", day(2024, 11, 1))
	if math.Abs(pot.P50-settled.P50) > 0.1 || math.Abs(bare.P50-pot.P50-bareRootLaterDays) > 0.11 {
		t.Errorf("settled on %.1f, from a pot on %.1f, bare-root on %.1f", settled.P50, pot.P50, bare.P50)
	}
	if wider := (pot.P90 - pot.P10) / (settled.P90 - settled.P10); wider < 1.5 {
		t.Errorf("a new plant's band is %.2f times a settled one's", wider)
	}
}

// TestASouthernFlushIsJudgedAcrossNewYear: in the south the June of the catalogue
// is December. What should open at Christmas and is shut at the end of January
// is late by last year's expectation; what opened on one side or the other of New
// Year is the same flush.
func TestASouthernFlushIsJudgedAcrossNewYear(t *testing.T) {
	south := gardenAt(-referenceLat, referenceAltitudeM)
	kind := kindOf("k", window("06-25", "07-25", ""))
	p := plantOf("p", "k")
	for year := 2019; year < 2024; year++ {
		p.Looks = append(p.Looks, weekly(day(year, 12, 24)+garden.Day(5*(year%3)), day(year+1, 3, 1))...)
	}
	on := day(2025, 1, 31)
	for d := day(2024, 11, 20); d < on; d += 5 {
		p.Looks = append(p.Looks, notYet(d))
	}
	m := Reckon(south, []garden.Kind{kind}, []Plant{p}, on)
	if j := only(t, m, "p"); j.Year != 2024 || j.Verdict != Late || *j.Days[0] < 20 || j.Expect.Open.P50 < 350 {
		t.Errorf("%+v", j)
	}
	for _, i := range m.of("p")[:5] {
		if f := m.flushes[i]; f.By == nil || *f.By < 350 || *f.By > 380 {
			t.Errorf("%d: opened by %v", f.Year, bound(f.By, 1))
		}
	}
}

// TestOneMisreadStageMakesNoVerdict: one look in a season's that took something
// else for flower, or flower for none, changes no verdict.
func TestOneMisreadStageMakesNoVerdict(t *testing.T) {
	on := day(2025, 7, 5)
	for _, misread := range []Look{staged(day(2025, 5, 1), 62), staged(day(2025, 5, 9), 75), notYet(day(2025, 6, 25)), staged(day(2025, 6, 23), 52)} {
		kinds, plants := border(map[int]int{}, on)
		p := &plants[13]
		p.Looks = append(p.Looks, misread)
		if j := only(t, Reckon(referenceGarden(), kinds, plants, on), p.ID); j.Verdict != OnTime {
			t.Errorf("%+v on %s: %+v", misread, misread.Day, j)
		}
	}
}

// TestASecondFlushThatNeedsNothing is expected once the first has ended, however
// that came, and not before.
func TestASecondFlushThatNeedsNothing(t *testing.T) {
	kind := kindOf("twice", window("06-01", "06-25", ""), window("08-05", "09-15", ""))
	first := []Look{notYet(day(2025, 5, 25)), staged(day(2025, 6, 1), 61), staged(day(2025, 6, 20), 67)}
	for _, c := range []struct {
		name  string
		looks []Look
		want  Standing
	}{
		{"first still on", first, Standing{Kind: Waiting, What: "first-flush"}},
		{"first never seen", nil, Standing{Kind: Waiting, What: "first-flush"}},
		{"first over", append(slices.Clone(first), staged(day(2025, 7, 1), 69)), Standing{}},
		{"second seen all the same", []Look{staged(day(2025, 8, 20), 65)}, Standing{}},
	} {
		f := flushOf(t, referenceGarden(), kind, plantOf("p", "twice", c.looks...), 2025, 1)
		if f.Standing != c.want {
			t.Errorf("%s: %+v", c.name, f.Standing)
		}
	}
}

// TestWhatIsDoneIsNotWaitedFor: annuals after their season, biennials after their
// second or once they have flowered, what dies of flowering once it has.
func TestWhatIsDoneIsNotWaitedFor(t *testing.T) {
	flowered := []Look{notYet(day(2024, 5, 25)), staged(day(2024, 6, 12), 65), staged(day(2024, 7, 12), 75)}
	for _, c := range []struct {
		cycle   string
		planted garden.Day
		looks   []Look
		want    StandingKind
	}{
		{"annual", day(2025, 4, 1), nil, Open},
		{"annual", day(2024, 4, 1), nil, NoExpectation},
		{"biennial", day(2024, 5, 1), nil, Open},
		{"biennial", day(2023, 5, 1), nil, NoExpectation},
		{"biennial", day(2023, 9, 1), flowered, NoExpectation},
		{"monocarpic", day(2019, 5, 1), nil, Open},
		{"monocarpic", day(2019, 5, 1), flowered, NoExpectation},
		{"short-lived", day(2019, 5, 1), flowered, Open},
	} {
		kind := kindOf("k", window("06-10", "07-10", ""))
		kind.LifeCycle = c.cycle
		p := plantOf("p", "k", c.looks...)
		p.Planted = onDay(c.planted)
		if f := flushOf(t, referenceGarden(), kind, p, 2025, 0); f.Standing.Kind != c.want || c.want == NoExpectation && f.Standing.What != c.cycle {
			t.Errorf("%s planted %s: %s", c.cycle, c.planted, fmt.Sprintf("%+v", f.Standing))
		}
	}
}
