package water

import (
	"cmp"
	"fmt"
	"slices"

	"haulm/garden"
)

// A reading is two numbers of one day, known together or not at all.
type reading struct {
	day    garden.Day
	values [2]float64
	known  bool
}

// A series is readings without holes in its calendar, from its first day to its
// last: gaps of up to longestGap days hold the mean of the days on both sides.
type series struct {
	first    garden.Day
	readings []reading
	filled   []garden.Day
	missing  []garden.Day // in longer gaps, or at an end where there is only one side
}

// newSeries orders readings, fills short gaps and names long ones. It fails on a
// day given twice and on a span of more than two centuries.
func newSeries(list []reading) (series, error) {
	s := series{filled: []garden.Day{}, missing: []garden.Day{}}
	if len(list) == 0 {
		return s, nil
	}
	ordered := slices.Clone(list)
	slices.SortStableFunc(ordered, func(a, b reading) int { return cmp.Compare(a.day, b.day) })
	first, last := ordered[0].day, ordered[len(ordered)-1].day
	if int64(last)-int64(first) >= longestSpan {
		return s, fmt.Errorf("days run from %s to %s, longer than two centuries: check the years", first, last)
	}
	s.first, s.readings = first, make([]reading, last-first+1)
	for i := range s.readings {
		s.readings[i].day = first + garden.Day(i)
	}
	for i, r := range ordered {
		if i > 0 && ordered[i-1].day == r.day {
			return s, fmt.Errorf("days holds %s twice: give each day once", r.day)
		}
		s.readings[r.day-first] = r
	}
	s.fillGaps()
	return s, nil
}

func (s *series) fillGaps() {
	for from := 0; from < len(s.readings); from++ {
		to := from
		for to < len(s.readings) && !s.readings[to].known {
			to++
		}
		fillable := from > 0 && to < len(s.readings) && to-from <= longestGap
		for i := from; i < to; i++ {
			if !fillable {
				s.missing = append(s.missing, s.readings[i].day)
				continue
			}
			before, after := s.readings[from-1].values, s.readings[to].values
			s.readings[i].values = [2]float64{(before[0] + after[0]) / 2, (before[1] + after[1]) / 2}
			s.filled = append(s.filled, s.readings[i].day)
		}
		for i := from; fillable && i < to; i++ {
			s.readings[i].known = true
		}
		from = to
	}
}

// on gives the values of a day; not known outside the series.
func (s series) on(day garden.Day) (values [2]float64, known bool) {
	if i := int(day) - int(s.first); i >= 0 && i < len(s.readings) {
		return s.readings[i].values, s.readings[i].known
	}
	return values, false
}
