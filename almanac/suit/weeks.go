package suit

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"haulm/almanac/bloom"
	"haulm/garden"
)

// weeksOfYear are counted from 1 January in steps of seven days; the last has
// eight days, or nine.
const weeksOfYear = 52

// daysOfYear leaves 29 February aside, as windows of any year do.
const daysOfYear, daysOfWeek = 365, 7

// A calendar is how much of each week a planting flowers, 0 to 1, in all and by
// shade.
type calendar struct {
	all     [weeksOfYear]float64
	byShade [weeksOfYear][shades]float64
}

// flowerOf is when a kind of the catalogue's dates flowers at the spot.
func (s Spot) flowerOf(kind garden.Kind) calendar {
	var c calendar
	for _, window := range kind.Bloom {
		worth := 1.0
		if window.Needs != "" {
			worth = needsWork
		}
		c.add(s.moved(window.From), lengthDays(window.From, window.To), worth, coloursOf(kind, window))
	}
	return c
}

// coloursOf are those of a flush where the kind tells them, or the kind's.
func coloursOf(kind garden.Kind, window garden.BloomWindow) []string {
	for _, interest := range kind.Interest {
		if interest.What == "flower" && interest.From == window.From && len(interest.Colours) > 0 {
			return interest.Colours
		}
	}
	return kind.Colours
}

// moved is the day of the year, from 0, on which a date of the catalogue falls
// here: later or earlier with the garden, as far as its time of year follows
// spring, and half a year on in the south.
func (s Spot) moved(date garden.MonthDay) float64 {
	day := dayOfYear(date)
	day += s.LatenessDays * bloom.SpringShare(day+1)
	if s.Lat != nil && *s.Lat < 0 {
		day += daysOfYear / 2.0
	}
	return math.Mod(math.Mod(day, daysOfYear)+daysOfYear, daysOfYear)
}

// anyYear has no 29 February.
const anyYear = 2001

func dayOfYear(date garden.MonthDay) float64 { return float64(date.In(anyYear).OfYear() - 1) }

// lengthDays counts both ends of a window, which may run over New Year.
func lengthDays(from, to garden.MonthDay) float64 {
	return math.Mod(dayOfYear(to)-dayOfYear(from)+daysOfYear, daysOfYear) + 1
}

// add enters a flush that opens on a day of the year and is worth so much.
func (c *calendar) add(from, length, worth float64, colours []string) {
	in := shadesOf(colours)
	for week := range weeksOfYear {
		part := worth * shareOf(week, from, length)
		c.all[week] = math.Min(1, c.all[week]+part)
		for shade, share := range in {
			c.byShade[week][shade] = math.Min(1, c.byShade[week][shade]+part*share)
		}
	}
}

// shareOf is the share of a week's days in a window that may run over New Year.
func shareOf(week int, from, length float64) float64 {
	starts := float64(week * daysOfWeek)
	ends := starts + daysOfWeek
	if week == weeksOfYear-1 {
		ends = daysOfYear
	}
	days := 0.0
	for _, year := range []float64{-daysOfYear, 0} {
		opens := from + year
		days += math.Max(0, math.Min(ends, opens+length)-math.Max(starts, opens))
	}
	return math.Min(1, days/(ends-starts))
}

// shadesOf shares a planting among the shades of its colours; one of a colour
// that is not told has none.
func shadesOf(colours []string) [shades]float64 {
	var in [shades]float64
	for _, text := range colours {
		if c, err := colorful.Hex(text); err == nil {
			in[shadeOf(c)] = 1
		}
	}
	count := 0.0
	for _, one := range in {
		count += one
	}
	for shade := range in {
		in[shade] /= math.Max(1, count)
	}
	return in
}
