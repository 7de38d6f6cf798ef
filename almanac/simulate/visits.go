package simulate

import (
	"math"
	"time"

	"haulm/garden"
)

// visits lists the days on which somebody came, in order.
func visits(in Input) []garden.Day {
	chance := newStream(in.Seed, visitStream)
	var days []garden.Day
	last := lastDay()
	day := garden.DayOf(in.firstYear(), 1, 1) + garden.Day(chance.whole(0, greatestGapDays))
	for n := 0; day <= last; n++ {
		days = append(days, day)
		day = in.next(days[0], day, n+1, chance)
	}
	if in.with(Weekends) {
		days = weekends(garden.DayOf(in.firstYear(), 1, 1), last, chance)
	}
	return in.leaveOut(days)
}

// lastDay is the last that is looked at.
func lastDay() garden.Day { return garden.DayOf(LastYear, 12, 31) + tailDays }

// next is the day of the nth visit after the first.
func (in Input) next(first, day garden.Day, n int, chance stream) garden.Day {
	if in.VisitsPerWeek == nil {
		return day + garden.Day(chance.whole(leastGapDays, greatestGapDays))
	}
	return first + garden.Day(math.Floor(float64(n)*7 / *in.VisitsPerWeek))
}

func weekends(from, to garden.Day, chance stream) []garden.Day {
	var days []garden.Day
	for day := from; day <= to; day++ {
		if weekday := (int(day)%7 + 11) % 7; weekday != int(time.Saturday) && weekday != int(time.Sunday) {
			continue
		}
		if chance.holds(atWeekends) {
			days = append(days, day)
		}
	}
	return days
}

// leaveOut takes the long gap out of the visits.
func (in Input) leaveOut(days []garden.Day) []garden.Day {
	if !in.with(LongGap) {
		return days
	}
	from := garden.DayOf(LastYear, 1, newStream(in.Seed, breakStream).whole(gapFrom, gapTo))
	var kept []garden.Day
	for _, day := range days {
		if day < from || day >= from+gapDays {
			kept = append(kept, day)
		}
	}
	return kept
}
