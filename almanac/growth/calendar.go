package growth

import (
	"math"

	"haulm/garden"
)

// A calendar turns dates of a garden into those of the catalogue's reference
// site, on which all windows are written, and back. Inside this package days are
// the reference site's, as fractions of a garden.Day.
type calendar struct{ later float64 }

// halfYear is what the southern hemisphere's seasons lag behind the catalogue's.
const halfYear = 365.25 / 2

func calendarOf(in *Input) calendar {
	later := in.LatenessDays
	if in.Southern {
		later += halfYear
	}
	return calendar{later}
}

func (c calendar) in(day garden.Day) float64 { return float64(day) - c.later }

func (c calendar) out(day float64) garden.Day {
	return garden.Day(math.Round(math.Max(-maxDay, math.Min(maxDay, day+c.later))))
}

// firstFrom is the first whole day from a time on.
func (c calendar) firstFrom(day float64) garden.Day { return c.out(math.Ceil(day+c.later) - c.later) }

// maxDay keeps a far forecast within dates that can be written.
const maxDay = 2_000_000

func yearOf(day float64) int { return garden.Day(math.Floor(day)).Year() }

func on(date garden.MonthDay, year int) float64 { return float64(date.In(year)) }

// seasonClock counts growing seasons: it stands still through winter and gains
// one from growthStarts to growthEnds, fastest in the middle (a smooth step).
func seasonClock(day float64) float64 {
	year := yearOf(day)
	from, to := on(growthStarts(), year), on(growthEnds(), year)
	u := math.Max(0, math.Min(1, (day-from)/(to-from)))
	return float64(year) + u*u*(3-2*u)
}

// seasonDay is the day on which seasonClock reads a time: its inverse.
func seasonDay(clock float64) float64 {
	year := math.Floor(clock)
	from, to := on(growthStarts(), int(year)), on(growthEnds(), int(year))
	u := 0.5 - math.Sin(math.Asin(1-2*(clock-year))/3)
	return from + u*(to-from)
}

// established is the effective age that a plant has grown by a number of growing
// seasons after planting, the first two being slower. seasonsFor is its inverse.
func established(seasons float64) float64 {
	return firstYear*math.Min(seasons, 1) + secondYear*math.Max(0, math.Min(seasons-1, 1)) + math.Max(0, seasons-2)
}

func seasonsFor(age float64) float64 {
	switch {
	case age <= firstYear:
		return age / firstYear
	case age <= firstYear+secondYear:
		return 1 + (age-firstYear)/secondYear
	default:
		return 2 + age - firstYear - secondYear
	}
}
