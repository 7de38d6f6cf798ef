package bloom

import (
	"math"
	"slices"
	"testing"
)

// TestAStripShowsWhatWasSeen: certain between first and last flower seen,
// possible between the looks around them, expected from the other years.
func TestAStripShowsWhatWasSeen(t *testing.T) {
	on := day(2025, 9, 1)
	kinds, plants := border(map[int]int{}, day(2024, 12, 31))
	p := &plants[13] // opens on 13 June, day 164
	p.Looks = append(p.Looks, notYet(day(2025, 6, 3)), staged(day(2025, 6, 10), 61), staged(day(2025, 7, 1), 67), staged(day(2025, 7, 15), 75))
	m := Reckon(referenceGarden(), kinds, plants, on)
	strips := m.Strips(p.ID)
	s := strips[len(strips)-1]
	if s.Year != 2025 || s.Flush != 0 || s.Verdict != OnTime || !s.Expected {
		t.Fatalf("%+v", s)
	}
	if *s.Certain != [2]float64{161, 182} || *s.Possible != [2]float64{154, 196} || !slices.Equal(s.Looks, []float64{154, 161, 182, 196}) {
		t.Errorf("certain %v, possible %v, looks %v", *s.Certain, *s.Possible, s.Looks)
	}
	if math.Abs(s.Open.P50-163) > 3 || s.Close.P50-s.Open.P50 < 28 || s.Close.P50-s.Open.P50 > 33 {
		t.Errorf("opens %+v closes %+v", s.Open, s.Close)
	}
	if e, ok := m.Expect(p.ID, 2025, 0); !ok || e != s.Expectation {
		t.Errorf("%+v, %+v on the strip", e, s.Expectation)
	}
	if _, ok := m.Expect(p.ID, 2025, 1); ok {
		t.Error("a flush that the kind has not is expected")
	}
}

// TestAFlushStillOpenReachesToToday: what was in flower at the last look may
// still be, today and no further.
func TestAFlushStillOpenReachesToToday(t *testing.T) {
	kinds, plants := border(map[int]int{}, day(2024, 12, 31))
	p := &plants[13]
	p.Looks = append(p.Looks, notYet(day(2025, 6, 3)), staged(day(2025, 6, 10), 61))
	strips := Reckon(referenceGarden(), kinds, plants, day(2025, 6, 14)).Strips(p.ID)
	if s := strips[len(strips)-1]; *s.Possible != [2]float64{154, 165} || *s.Certain != [2]float64{161, 161} {
		t.Errorf("certain %v, possible %v", *s.Certain, *s.Possible)
	}
}

// TestLatenessDays: three degrees north of the reference site is 12 days; a
// garden whose every year is a further week late teaches most of that.
func TestLatenessDays(t *testing.T) {
	kinds, plants := border(map[int]int{}, day(2025, 9, 1))
	north := gardenAt(54.5, 50)
	if days := Reckon(north, kinds, nil, day(2025, 9, 1)).LatenessDays(); days != 12 {
		t.Errorf("%g days by latitude alone", days)
	}
	// The border opens as at the reference site, so this garden is 12 days
	// earlier than its latitude says, or the books are.
	if days := Reckon(north, kinds, plants, day(2025, 9, 1)).LatenessDays(); days < 0 || days > 6 {
		t.Errorf("%g days after four years at the reference site's dates", days)
	}
}
