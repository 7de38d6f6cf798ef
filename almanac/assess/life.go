package assess

import (
	"haulm/almanac/bloom"
	"haulm/garden"
)

// Coming up, or leafing out, is the bloom model on another event: a "flush" that
// opens when the first shoot or leaf shows and lasts until the plant dies back.
// So a cold spring that holds everything under ground is told from one plant
// that has not come up, by the same reckoning.

// upForDays is how long a plant that came up counts as up. Half a year keeps one
// year's coming up apart from the next.
const upForDays = 180

// asInFlower is the BBCH stage that stands for "is up" when life is reckoned as a
// flush: first flower (Meier 2001).
const asInFlower = 60

// emergenceOf turns a kind into the kind of its coming up; false where the kind
// has no such window. The event is expected at the window's middle.
func emergenceOf(kind garden.Kind) (garden.Kind, bool) {
	if kind.Emerges == nil {
		return garden.Kind{}, false
	}
	const anyYear = 2001 // not a leap year, so that windows keep their length
	from, to := kind.Emerges.From.In(anyYear), kind.Emerges.To.In(anyYear)
	if to < from {
		to = kind.Emerges.To.In(anyYear + 1)
	}
	opens := from + (to-from)/2
	event := kind
	event.Bloom = []garden.BloomWindow{{From: monthDay(opens), To: monthDay(opens + upForDays)}}
	event.YearsToFlower = 0
	return event, true
}

func monthDay(day garden.Day) garden.MonthDay {
	_, month, date := day.Date()
	return garden.MonthDay{Month: month, Day: date}
}

// lifeLooks keeps of a planting's observations what they say of its being up.
func lifeLooks(list []*seen) []bloom.Look {
	var looks []bloom.Look
	for _, s := range list {
		look := bloom.Look{Day: s.day}
		switch {
		case s.Up == "not-up":
			look.NotInFlower = true
		case s.Up == "dying-back":
			continue // it was up; nothing is said of when it came up
		case s.Up != "" || s.Stage != nil || s.HeightCm != nil && *s.HeightCm > 0:
			stage := asInFlower
			look.Stage = &stage
		default:
			continue
		}
		looks = append(looks, look)
	}
	return looks
}
