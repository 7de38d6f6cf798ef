package bloom

import (
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"haulm/garden"
)

// By how much a planting may yet be expected the wrong way (doc.go): by this share
// of the other's own move, and by this many days.
const wrongWayShare, wrongWayDays = 0.05, 0.75

// anySeason draws a simulated garden and one flush of its last season that was
// seen on both sides.
func anySeason(t *rapid.T) (m *Model, seen []int, x int) {
	size := rapid.SampledFrom([][3]int{{3, 6, 1}, {6, 15, 1}, {3, 8, 2}, {6, 15, 2}, {10, 30, 2}, {3, 8, 4}, {6, 15, 4}}).Draw(t, "kinds, plantings, years")
	m, _ = simulate(rapid.Uint64Range(0, 1000).Draw(t, "seed"), size[0], size[1], size[2]).model()
	for i, f := range m.flushes {
		if f.Year == 2019+size[2] && f.By != nil && f.After != nil {
			seen = append(seen, i)
		}
	}
	return m, seen, rapid.SampledFrom(seen).Draw(t, "x")
}

// with is the garden with what was seen of one flush replaced.
func (m *Model) with(x int, after, by *float64) *Model {
	flushes := slices.Clone(m.flushes)
	flushes[x].After, flushes[x].By = after, by
	return modelOf(flushes, 0, nil)
}

func plus(day *float64, days float64) *float64 {
	moved := *day + days
	return &moved
}

// eachOther goes through the other plantings' flushes that were seen.
func (m *Model) eachOther(seen []int, x int, check func(y int)) {
	for _, y := range seen {
		if m.flushes[y].Plant != m.flushes[x].Plant {
			check(y)
		}
	}
}

// TestWhatOneShowsMovesNoOtherTheWrongWay: a planting of which nothing was seen
// this season is seen to open later than all but the other one say, or to be still
// shut then: the other is not expected earlier for it. It is seen in flower sooner:
// the other is not expected later. Whether it is itself set aside does not matter
// here, only that it does not make the garden set others aside.
func TestWhatOneShowsMovesNoOtherTheWrongWay(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		m, seen, x := anySeason(t)
		y := rapid.SampledFrom(seen).Draw(t, "y")
		if m.flushes[y].Plant == m.flushes[x].Plant {
			return
		}
		without := m.with(x, nil, nil)
		expected := without.with(y, nil, nil).forecast(x).mean
		days, gap := rapid.Float64Range(1, 60).Draw(t, "days"), rapid.Float64Range(1, 12).Draw(t, "gap")
		way, after, by := 1.0, plus(&expected, days), plus(&expected, days+gap)
		if rapid.Bool().Draw(t, "sooner") {
			way, after, by = -1, plus(&expected, -days-gap), plus(&expected, -days)
		}
		if oneSided := rapid.Bool().Draw(t, "one bound"); oneSided && way > 0 {
			by = nil
		} else if oneSided {
			after = nil
		}
		now := m.with(x, after, by)
		if !sameTeachers(without, now, x) {
			return
		}
		compared++
		if was, is := without.forecast(y).mean, now.forecast(y).mean; way*(is-was) < -wrongWayShare*days-wrongWayDays {
			t.Fatalf("%s expected on %.2f, on %.2f before, when %s was out by %.1f days", m.flushes[y].Plant, is, was, m.flushes[x].Plant, way*days)
		}
	})
	if compared < 30 {
		t.Errorf("only %d expectations compared", compared)
	}
}

// TestTheLaterOneOpensTheLaterTheOthersAreExpected, as long as it is not so late
// that it is set aside: then it says nothing more of the others.
func TestTheLaterOneOpensTheLaterTheOthersAreExpected(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		m, seen, x := anySeason(t)
		f, days := &m.flushes[x], rapid.Float64Range(1, 40).Draw(t, "days")
		was, is := m.with(x, f.After, f.By), m.with(x, plus(f.After, days), plus(f.By, days))
		switch rapid.IntRange(0, 2).Draw(t, "bounds") {
		case 1:
			was, is = m.with(x, f.After, nil), m.with(x, plus(f.After, days), nil)
		case 2:
			was, is = m.with(x, nil, f.By), m.with(x, nil, plus(f.By, days))
		}
		if !sameTeachers(was, is, -1) {
			return
		}
		m.eachOther(seen, x, func(y int) {
			compared++
			if before, now := was.forecast(y).mean, is.forecast(y).mean; now < before-wrongWayShare*days-wrongWayDays {
				t.Fatalf("%s came %.1f days later: %s expected on %.2f, on %.2f before", f.Plant, days, m.flushes[y].Plant, now, before)
			}
		})
	})
	if compared < 50 {
		t.Errorf("only %d expectations compared", compared)
	}
}

// sameTeachers says whether two models set the same flushes aside, whatever they
// did with flush x.
func sameTeachers(a, b *Model, x int) bool {
	return reflect.DeepEqual(a.taught(x), b.taught(x))
}

// taught lists what was not set aside, but for flush x: kind, planting and year.
func (m *Model) taught(x int) (kept [][3]int) {
	for i, k := range m.kinds {
		for _, s := range k.sites {
			if x < 0 || m.places[x].kind != i || m.places[x].plant != s.plant || m.flushes[x].Year != s.year {
				kept = append(kept, [3]int{i, s.plant, s.year})
			}
		}
	}
	return kept
}

// TestALatePlantNeverMakesItsNeighboursLate: week after week a plant is seen not
// to be in flower; nobody else is expected earlier for it than before anybody
// looked, nor becomes late.
func TestALatePlantNeverMakesItsNeighboursLate(t *testing.T) {
	told := func(looks int) (m *Model, late map[string]bool) {
		kinds, plants := border(map[int]int{2024: 5}, day(2025, 6, 20))
		withLatePlant(plants, day(2025, 4, 24)+7*garden.Day(looks))
		m = Reckon(referenceGarden(), kinds, plants, day(2025, 8, 20))
		late = map[string]bool{}
		for _, j := range m.Judgements() {
			late[j.Plant] = j.Verdict == Late
		}
		return m, late
	}
	before, wasLate := told(0)
	subject := before.flushes[len(before.flushes)-1].Plant
	for looks := 1; looks <= 17; looks++ {
		now, isLate := told(looks)
		for i, f := range now.flushes {
			if was, is := before.forecast(i).mean, now.forecast(i).mean; f.Year == 2025 && f.Plant != subject && is < was-wrongWayDays {
				t.Errorf("%d looks: %s expected on %.2f, on %.2f before", looks, f.Plant, is, was)
			}
			if f.Plant != subject && isLate[f.Plant] && !wasLate[f.Plant] {
				t.Errorf("%d looks: %s is late for it", looks, f.Plant)
			}
		}
	}
}
