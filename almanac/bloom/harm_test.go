package bloom

import (
	"fmt"
	"testing"
	"time"

	"haulm/garden"
)

// TestWhatSuspendsAFlush: what was done to a plant, or befell it, before its June
// flower suspends judging where it can have moved it, and nothing else does.
func TestWhatSuspendsAFlush(t *testing.T) {
	const june, none = "06-10", ""
	for _, c := range []struct {
		name, what string
		sign       bool
		on         garden.Day
		looks      []Look
		suspends   bool
	}{
		{"cut back in May", "cut-back", false, day(2025, 5, 20), nil, true},
		{"pruned in April", "prune", false, day(2025, 4, 5), nil, true},
		{"pruned, in the words of the record", "pruned", false, day(2025, 5, 1), nil, true},
		{"pruned in March", "prune", false, day(2025, 3, 20), nil, false},
		{"cut down in November", "cut-back", false, day(2024, 11, 20), nil, false},
		{"cut in August last year", "cut-back", false, day(2024, 8, 20), nil, false},
		{"cut back in flower", "cut-back", false, day(2025, 6, 20), []Look{notYet(day(2025, 6, 1)), staged(day(2025, 6, 8), 61)}, false},
		{"cut back when it was seen to be over", "cut-back", false, day(2025, 7, 5), []Look{notYet(day(2025, 6, 1)), staged(day(2025, 7, 4), 75)}, false},
		{"divided in March", "divide", false, day(2025, 3, 20), nil, true},
		{"divided last autumn", "divided", false, day(2024, 10, 10), nil, true},
		{"moved last July", "move", false, day(2024, 7, 20), nil, true},
		{"moved the spring before", "moved", false, day(2024, 3, 20), nil, false},
		{"deadheaded", "deadhead", false, day(2025, 5, 20), nil, false},
		{"old leaves taken", "remove-leaves", false, day(2025, 4, 20), nil, false},
		{"thinned", "thin", false, day(2025, 5, 1), nil, false},
		{"fed", "feed", false, day(2025, 4, 20), nil, false},
		{"in a word of one's own", "sang to it", false, day(2025, 5, 20), nil, false},
		{"buds frosted", "frost", true, day(2025, 5, 12), nil, true},
		{"browsed by deer", "deer", true, day(2025, 5, 12), nil, true},
		{"browsed by rabbits", "rabbit", true, day(2025, 5, 12), nil, true},
		{"slugs", "slug", true, day(2025, 5, 12), nil, false},
		{"frosted in winter", "frost", true, day(2025, 1, 12), nil, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := plantOf("p", "k", append([]Look{notYet(day(2023, 5, 1))}, c.looks...)...)
			if c.sign {
				p.Looks = append(p.Looks, Look{Day: c.on, Signs: []string{c.what}})
			} else {
				p.Work = []garden.Work{{Day: &c.on, What: c.what}}
			}
			f := flushOf(t, referenceGarden(), kindOf("k", window(june, "07-10", none)), p, 2025, 0)
			if suspended := f.Standing.Kind == Suspended; suspended != c.suspends || suspended && (f.Standing.What != c.what || *f.Standing.Day != c.on) {
				t.Errorf("%+v", f.Standing)
			}
		})
	}
}

// flushOf is one flush of a garden of one planting, as known in March of
// the next year.
func flushOf(t *testing.T, here Here, kind garden.Kind, p Plant, year, index int) Flush {
	t.Helper()
	for _, f := range Flushes(here, []garden.Kind{kind}, []Plant{p}, day(year+1, 3, 1)) {
		if f.Year == year && f.Index == index {
			return f
		}
	}
	t.Fatalf("no flush %d of %d", index, year)
	return Flush{}
}

// TestASouthernSpringIsSixMonthsOn: what May is in the north, November is in the
// south, and the southern winter is July.
func TestASouthernSpringIsSixMonthsOn(t *testing.T) {
	for month, want := range map[time.Month]StandingKind{time.November: Suspended, time.July: Open} {
		cut := day(2024, month, 20)
		p := plantOf("p", "k", notYet(day(2023, 11, 1)))
		p.Work = []garden.Work{{Day: &cut, What: "cut-back"}}
		f := flushOf(t, gardenAt(-referenceLat, referenceAltitudeM), kindOf("k", window("06-10", "07-10", "")), p, 2024, 0)
		if f.Standing.Kind != want || f.Expected < 335 {
			t.Errorf("cut in %s: %+v, expected on day %.0f", month, f.Standing, f.Expected)
		}
	}
}

// TestASuspendedFlushTeachesNothing: a plant that was cut back in May and opened
// five weeks later moves no other plant's expectation, nor the season.
func TestASuspendedFlushTeachesNothing(t *testing.T) {
	on := day(2025, 9, 1)
	told := func(opens garden.Day) string {
		kinds, plants := border(map[int]int{}, day(2025, 5, 1))
		cut := day(2025, 5, 20)
		for p := range 6 {
			plants[p].Work = []garden.Work{{Day: &cut, What: "cut-back"}}
			plants[p].Looks = append(plants[p].Looks, notYet(opens-7), staged(opens, 61), staged(opens+30, 75))
		}
		m := Reckon(referenceGarden(), kinds, plants, on)
		e, _ := m.Expect(plants[8].ID, 2025, 0)
		return fmt.Sprint(m.Season(2025, DefaultParts()), e)
	}
	if early, late := told(day(2025, 6, 3)), told(day(2025, 7, 12)); early != late {
		t.Errorf("opened in time: %s\nopened late: %s", early, late)
	}
}
