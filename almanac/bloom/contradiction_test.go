package bloom

import (
	"testing"

	"haulm/garden"
)

// A window that lies within a long one hides no later flush.
func TestAShortWindowWithinALongOneHidesNone(t *testing.T) {
	kind := kindOf("k", window("05-01", "11-30", ""), window("06-01", "06-15", ""))
	p := plantOf("p", "k", notYet(day(2024, 12, 20)))
	planted := garden.PartialDate{First: day(2024, 12, 1), Last: day(2024, 12, 1)}
	p.Planted = &planted
	flushes := Flushes(referenceGarden(), []garden.Kind{kind}, []Plant{p}, day(2026, 8, 1))
	years := map[int]int{}
	for _, f := range flushes {
		years[f.Year]++
	}
	if years[2025] != 2 || years[2026] != 2 {
		t.Errorf("flushes by year: %v", years)
	}
}

// A flower noted before the flush had opened was misread: it ends nothing.
func TestAFlowerMisreadBeforeOpeningEndsNothing(t *testing.T) {
	kind := kindOf("k", window("05-01", "05-31", ""))
	p := plantOf("p", "k", staged(day(2025, 4, 20), 65), staged(day(2025, 4, 27), 55), staged(day(2025, 5, 2), 55),
		staged(day(2025, 6, 10), 80), staged(day(2025, 6, 17), 80), staged(day(2025, 6, 24), 55))
	m := Reckon(referenceGarden(), []garden.Kind{kind}, []Plant{p}, day(2025, 8, 1))
	for _, s := range m.Strips("p") {
		if s.Certain != nil && s.Certain[0] > s.Certain[1] || s.Possible != nil && s.Possible[0] > s.Possible[1] {
			t.Errorf("%d: certain %v, possible %v", s.Year, s.Certain, s.Possible)
		}
	}
	for _, f := range m.flushes {
		if f.By != nil && f.EndBy != nil && *f.EndBy < *f.By {
			t.Errorf("opened by %v, over by %v", *f.By, *f.EndBy)
		}
	}
}
