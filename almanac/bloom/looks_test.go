package bloom

import (
	"strings"
	"testing"
	"time"

	"haulm/garden"
	"haulm/internal/reference"
)

// TestStagesAreThoseOfTheScale holds the stages at which flower starts and ends
// to the published BBCH scale (testdata/reference).
func TestStagesAreThoseOfTheScale(t *testing.T) {
	says := map[string]string{}
	for _, row := range reference.Table(t, "phenology_bbch.csv") {
		says[row.Text("level")+row.Text("code")] = row.Text("short_description")
	}
	for key, words := range map[string]string{"principal5": "inflorescence emergence", "secondary60": "first flowers open", "secondary69": "end of flowering"} {
		if !strings.Contains(says[key], words) {
			t.Errorf("the scale says %q of %s, %q expected", says[key], key, words)
		}
	}
	for stage, want := range map[int]sighting{0: nothing, 49: nothing, 50: bud, 59: bud, 60: flower, 68: flower, 69: over, 70: over, 99: over} {
		if s, ok := (Look{Stage: &stage}).sight(); !ok || s.what != want {
			t.Errorf("stage %d is %v", stage, s.what)
		}
	}
}

// flushesIn are the flushes of a planting by year and window.
func flushesIn(windows []garden.BloomWindow, looks []Look, on garden.Day) map[[2]int]Flush {
	kind := kindOf("k", windows...)
	found := map[[2]int]Flush{}
	for _, f := range Flushes(referenceGarden(), []garden.Kind{kind}, []Plant{plantOf("p", "k", looks...)}, on) {
		found[[2]int{f.Year, f.Index}] = f
	}
	return found
}

func TestWhatLooksBound(t *testing.T) {
	june := []garden.BloomWindow{window("06-10", "07-10", "")}
	at := func(month time.Month, d int) garden.Day { return day(2025, month, d) }
	note := Look{Day: at(6, 12), Up: "in-leaf"}
	for _, c := range []struct {
		name                       string
		looks                      []Look
		after, by, endAfter, endBy float64 // day of the year; 0 for none
	}{
		{"none", nil, 0, 0, 0, 0},
		{"a note bounds nothing", []Look{note}, 0, 0, 0, 0},
		{"not yet", []Look{notYet(at(6, 1)), notYet(at(6, 8)), note}, 159, 0, 0, 0},
		{"not up is not yet", []Look{{Day: at(6, 1), Up: "not-up"}}, 152, 0, 0, 0},
		{"bud is not yet", []Look{staged(at(6, 8), 55)}, 159, 0, 0, 0},
		{"opened", []Look{notYet(at(6, 1)), staged(at(6, 8), 60)}, 152, 159, 159, 0},
		{"a morning and an evening look", []Look{notYet(at(6, 8)), staged(at(6, 8), 60)}, 158, 159, 159, 0},
		{"a whole flush", []Look{notYet(at(6, 1)), staged(at(6, 8), 61), staged(at(7, 1), 67), staged(at(7, 9), 69)}, 152, 159, 182, 190},
		{"out of flower", []Look{staged(at(6, 8), 61), notYet(at(7, 9))}, 0, 159, 159, 190},
		{"first seen over", []Look{notYet(at(6, 1)), staged(at(7, 20), 75)}, 152, 184.4, 0, 201},
		{"over sooner than it can be", []Look{staged(at(6, 30), 55), staged(at(7, 10), 70)}, 181, 191, 0, 191},
		{"come and gone unseen, perhaps", []Look{notYet(at(7, 20)), notYet(at(7, 27))}, 0, 0, 0, 0},
		{"no room to come and go", []Look{notYet(at(6, 1)), notYet(at(6, 18)), notYet(at(7, 5)), notYet(at(7, 20))}, 201, 0, 0, 0},
		{"room after a long gap", []Look{notYet(at(6, 1)), notYet(at(7, 20))}, 152, 0, 0, 0},
		{"a misread flower", []Look{staged(at(5, 1), 60), notYet(at(5, 9)), notYet(at(5, 20)), notYet(at(6, 1)), staged(at(6, 8), 60), staged(at(6, 15), 65)}, 152, 159, 166, 0},
		{"a misread bud", []Look{notYet(at(6, 1)), staged(at(6, 8), 60), staged(at(6, 10), 60), notYet(at(6, 12)), staged(at(6, 15), 65)}, 152, 159, 166, 0},
		{"one against one", []Look{notYet(at(6, 1)), staged(at(6, 8), 60), notYet(at(6, 12)), staged(at(6, 15), 65)}, 152, 166, 166, 0},
		{"seed heads of last year", []Look{staged(at(2, 10), 89), notYet(at(6, 1))}, 152, 0, 0, 0},
		{"looks after the day asked for", []Look{notYet(at(6, 1)), staged(at(10, 1), 65)}, 152, 0, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := flushesIn(june, c.looks, at(9, 1))[[2]int{2025, 0}]
			for what, pair := range map[string][2]any{"after": {f.After, c.after}, "by": {f.By, c.by}, "end after": {f.EndAfter, c.endAfter}, "end by": {f.EndBy, c.endBy}} {
				got, want := pair[0].(*float64), pair[1].(float64)
				if (got == nil) != (want == 0) || got != nil && (*got < want-0.5 || *got > want+0.5) {
					t.Errorf("%s is %v, %g expected", what, bound(got, 1), want)
				}
			}
		})
	}
}

// TestABudAfterPetalsOpensTheNextFlush: the second flush comes when it shows,
// before its stretch of the year begins.
func TestABudAfterPetalsOpensTheNextFlush(t *testing.T) {
	twice := []garden.BloomWindow{window("06-01", "06-30", ""), window("08-20", "09-30", "")}
	found := flushesIn(twice, []Look{
		notYet(day(2025, 5, 20)), staged(day(2025, 6, 1), 61), staged(day(2025, 6, 25), 69),
		staged(day(2025, 7, 5), 55), staged(day(2025, 7, 12), 61), staged(day(2025, 7, 19), 65),
	}, day(2025, 7, 20))
	first, second := found[[2]int{2025, 0}], found[[2]int{2025, 1}]
	if *first.By != 152 || *first.EndBy != 176 {
		t.Errorf("first flush by %g, over by %g", *first.By, *first.EndBy)
	}
	if *second.After != 186 || *second.By != 193 {
		t.Errorf("second flush after %g by %g", *second.After, *second.By)
	}
}

// TestFlowerThatGoesOnIsNotTheNextFlush: roses that never stopped have not begun
// again.
func TestFlowerThatGoesOnIsNotTheNextFlush(t *testing.T) {
	twice := []garden.BloomWindow{window("06-01", "06-30", ""), window("08-20", "09-30", "")}
	looks := []Look{notYet(day(2025, 5, 20))}
	for d := day(2025, 6, 1); d < day(2025, 8, 15); d += 7 {
		looks = append(looks, staged(d, 65))
	}
	found := flushesIn(twice, looks, day(2025, 8, 15))
	if second := found[[2]int{2025, 1}]; second.By != nil || second.Standing.Kind != Waiting {
		t.Errorf("%+v", second)
	}
}

func TestTheObserverNamesTheFlush(t *testing.T) {
	twice := []garden.BloomWindow{window("06-01", "06-30", ""), window("08-20", "09-30", "")}
	named := staged(day(2025, 7, 10), 61)
	second := 1
	named.Flush = &second
	if f := flushesIn(twice, []Look{named}, day(2025, 8, 1))[[2]int{2025, 1}]; f.By == nil || *f.By != 191 {
		t.Errorf("%+v", f)
	}
}

// TestWinterFlowerIsNotCutAtNewYear: a flush that is expected around New Year
// and opens on one side or the other is the same flush of the same year.
func TestWinterFlowerIsNotCutAtNewYear(t *testing.T) {
	winter := []garden.BloomWindow{window("12-28", "02-15", "")}
	for _, c := range []struct {
		name      string
		opens     garden.Day
		after, by float64
	}{
		{"in December", day(2024, 12, 12), 340, 347},
		{"in January", day(2025, 1, 16), 375, 382},
	} {
		t.Run(c.name, func(t *testing.T) {
			looks := []Look{notYet(c.opens - 7), staged(c.opens, 61), staged(c.opens+14, 65), staged(c.opens+50, 75)}
			f := flushesIn(winter, looks, day(2025, 4, 1))[[2]int{2024, 0}]
			if f.After == nil || f.By == nil || *f.After != c.after || *f.By != c.by || f.EndBy == nil {
				t.Errorf("%+v", f)
			}
		})
	}
}

// TestAWinterFlushIsJudgedAcrossNewYear: in January the flush of last year that
// has not opened is judged by its own year's expectation.
func TestAWinterFlushIsJudgedAcrossNewYear(t *testing.T) {
	kind := kindOf("winter", window("12-10", "01-31", ""))
	p := plantOf("p", "winter")
	for year := 2019; year < 2024; year++ {
		p.Looks = append(p.Looks, weekly(day(year, 12, 10), day(year+1, 2, 20))...)
	}
	for d := day(2024, 11, 20); d < day(2025, 1, 20); d += 5 {
		p.Looks = append(p.Looks, notYet(d))
	}
	j := only(t, Reckon(referenceGarden(), []garden.Kind{kind}, []Plant{p}, day(2025, 1, 20)), "p")
	if j.Year != 2024 || j.Verdict != Late || *j.Days[0] < 25 {
		t.Errorf("%+v", j)
	}
}

// A June flower seen in late November by somebody who first came then, or a bud
// that the plant sets for next year, says nothing of when June's opened; after a
// summer of looks it does.
func TestWhatComesLongAfterTheFlushIsAnotherEvents(t *testing.T) {
	june := []garden.BloomWindow{window("06-10", "07-10", "")}
	november := day(2025, 11, 25)
	for name, look := range map[string]Look{"flower": staged(november, 65), "bud": staged(november, 55)} {
		if f := flushesIn(june, []Look{look}, november)[[2]int{2025, 0}]; f.By != nil || f.After != nil {
			t.Errorf("a %s in November bounds June's flush: after %v, by %v", name, f.After, f.By)
		}
	}
	watched := []Look{notYet(day(2025, 7, 20)), notYet(day(2025, 9, 20)), staged(november, 65)}
	if f := flushesIn(june, watched, november)[[2]int{2025, 0}]; f.By == nil {
		t.Error("a flower that was watched for is not taken for a late one")
	}
}
