package water

import (
	"math"

	"haulm/garden"
)

// basal is Kcb of a habit at full cover: the row of FAO-56 Table 17 that is most
// like it. The rows were seen as other software quotes them.
func basal(habit string) float64 {
	switch habit {
	case "shrub":
		return 1.00 // berries (bushes)
	case "tree":
		return 0.95 // conifers; between almonds 0.85 and walnuts 1.05
	case "climber":
		return 0.90 // between table grapes 0.80 and hops 1.00
	case "grass":
		return 0.90 // turf, cool season
	}
	return 0.95 // small vegetables; between strawberries 0.80 and mint 1.10
}

// leafCoefficient is Kcb of a kind, less for kinds of dry places.
func leafCoefficient(kind *garden.Kind) float64 {
	kcb := basal(kind.Habit)
	if kind.Moisture == "dry" {
		return math.Min(kcb, dryLeaf)
	}
	return kcb
}

// depletionFraction is p of Table 22 for a moisture need: the row of a crop of
// such ground.
func depletionFraction(moisture string) float64 {
	switch moisture {
	case "dry":
		return 0.65 // olives
	case "moist":
		return 0.40 // mint, tea, cool turf
	case "wet":
		return 0.20 // rice, celery
	}
	return 0.50 // berries, apples
}

// leafShare is how much of its leaf a kind has on a day, 0 to 1.
func leafShare(kind *garden.Kind, s seasons, day garden.Day) float64 {
	opens := leavesOpen()
	if kind.Emerges != nil {
		opens = kind.Emerges.From
	}
	switch kind.Foliage {
	case "evergreen":
		return 1
	case "semi-evergreen":
		return halfEvergreen + (1-halfEvergreen)*outUntil(s, opens, sinceOpening(opens, leavesFall()), day)
	case "winter-green":
		return outUntil(s, opens, winterGreenDays, day)
	}
	if kind.Habit == "bulb" && dayOfYear(opens) < dayOfYear(springBulbsBefore()) {
		return outUntil(s, opens, bulbDays, day)
	}
	return outUntil(s, opens, sinceOpening(opens, leavesFall()), day)
}

// sinceOpening is how many days of the year lie between two dates of it.
func sinceOpening(opens, falls garden.MonthDay) float64 {
	days := dayOfYear(falls) - dayOfYear(opens)
	if days <= 0 {
		days += yearDays
	}
	return float64(days)
}

// outUntil is the leaf of a kind whose leaves start to open on a date and to go
// so many days later.
func outUntil(s seasons, opens garden.MonthDay, lasts float64, day garden.Day) float64 {
	passed := s.since(opens, day)
	opening := math.Min(1, passed/openDays)
	going := math.Max(0, math.Min(1, 1-(passed-lasts)/fallDays))
	return math.Min(opening, going)
}

// woody tells kinds that keep their wood.
func woody(habit string) bool { return habit == "shrub" || habit == "climber" || habit == "tree" }

// grown is the share of its eventual spread that a kind has added so many years
// after planting.
func grown(kind *garden.Kind, years float64) float64 {
	full := kind.YearsToSize
	if full <= 0 {
		full = usualYears
	}
	switch {
	case kind.Habit == "annual":
		full = annualYears
	case woody(kind.Habit):
		years = firstYear*math.Min(1, years) + secondYear*math.Max(0, math.Min(1, years-1)) + math.Max(0, years-2)
	}
	return 1 - math.Exp(-fullSizeAt95*math.Max(0, years)/full)
}
