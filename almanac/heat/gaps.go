package heat

import (
	"fmt"
	"slices"

	"haulm/garden"
)

// A Day is one day's temperatures; either may be null when it was not measured.
type Day struct {
	Day  garden.Day `json:"day"`
	MinC *float64   `json:"minC"`
	MaxC *float64   `json:"maxC"`
}

const (
	// coldestC and hottestC hold every air temperature measured at a station
	// (WMO: −89.2 °C at Vostok in 1983, 56.7 °C at Furnace Creek in 1913).
	coldestC, hottestC = -90, 60

	// longestGap is how many days running are filled from their neighbours:
	// weather holds about that long, so their mean is a fair guess.
	longestGap = 3

	// longestSpan days, two centuries, keep one mistyped year from filling memory.
	longestSpan = 73050
)

// A Series is daily temperatures without holes in its calendar, from its first
// day to its last.
type Series struct {
	First   garden.Day
	Filled  []garden.Day // gaps of up to 3 days, by the mean of the days on both sides
	Missing []garden.Day // in longer gaps, or at an end where there is only one side
	temps   []temps
}

type temps struct {
	minC, maxC float64
	known      bool
}

// NewSeries orders days, fills short gaps and names long ones. It fails, naming
// the day, on a day given twice, an implausible temperature, a minimum above its
// maximum, and a span longer than two centuries.
func NewSeries(days []Day) (Series, error) {
	series := Series{Filled: []garden.Day{}, Missing: []garden.Day{}}
	if len(days) == 0 {
		return series, nil
	}
	ordered := slices.Clone(days)
	slices.SortStableFunc(ordered, func(a, b Day) int { return int(a.Day) - int(b.Day) })
	if err := checkDays(ordered); err != nil {
		return Series{}, err
	}
	series.First = ordered[0].Day
	series.temps = make([]temps, ordered[len(ordered)-1].Day-series.First+1)
	for _, d := range ordered {
		if d.MinC != nil && d.MaxC != nil {
			series.temps[d.Day-series.First] = temps{*d.MinC, *d.MaxC, true}
		}
	}
	series.fillGaps()
	return series, nil
}

func checkDays(ordered []Day) error {
	for i, d := range ordered {
		if i > 0 && ordered[i-1].Day == d.Day {
			return fmt.Errorf("days holds %s twice: give each day once", d.Day)
		}
		if d.MinC != nil && !plausible(*d.MinC) {
			return fmt.Errorf("minC %v on %s is outside %d to %d °C", *d.MinC, d.Day, coldestC, hottestC)
		}
		if d.MaxC != nil && !plausible(*d.MaxC) {
			return fmt.Errorf("maxC %v on %s is outside %d to %d °C", *d.MaxC, d.Day, coldestC, hottestC)
		}
		if d.MinC != nil && d.MaxC != nil && *d.MinC > *d.MaxC {
			return fmt.Errorf("minC %v is above maxC %v on %s", *d.MinC, *d.MaxC, d.Day)
		}
	}
	if first, last := ordered[0].Day, ordered[len(ordered)-1].Day; int64(last)-int64(first) >= longestSpan {
		return fmt.Errorf("days run from %s to %s, longer than two centuries: check the years", first, last)
	}
	return nil
}

func plausible(c float64) bool { return c >= coldestC && c <= hottestC }

// fillGaps walks from gap to gap.
func (s *Series) fillGaps() {
	for from := 0; from < len(s.temps); from++ {
		if s.temps[from].known {
			continue
		}
		to := from
		for to < len(s.temps) && !s.temps[to].known {
			to++
		}
		fillable := from > 0 && to < len(s.temps) && to-from <= longestGap
		for i := from; i < to; i++ {
			if !fillable {
				s.Missing = append(s.Missing, s.First+garden.Day(i))
				continue
			}
			s.Filled = append(s.Filled, s.First+garden.Day(i))
		}
		if fillable {
			fill(s.temps[from:to], s.temps[from-1], s.temps[to])
		}
		from = to
	}
}

func fill(gap []temps, before, after temps) {
	for i := range gap {
		gap[i] = temps{(before.minC + after.minC) / 2, (before.maxC + after.maxC) / 2, true}
	}
}

// at gives the temperatures of a day; not known outside the series.
func (s Series) at(day garden.Day) temps {
	if i := int(day - s.First); day >= s.First && i < len(s.temps) {
		return s.temps[i]
	}
	return temps{}
}
