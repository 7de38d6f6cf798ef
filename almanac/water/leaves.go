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
		return min(kcb, dryLeaf)
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

// A foliage is when a kind has leaves: some always, the rest from a day of the
// northern year on, for so many days.
type foliage struct {
	always, opens, lasts float64
	late                 float64 // days that the garden is later than the reference site
}

func newFoliage(kind *garden.Kind, late float64) foliage {
	opens := dayOfYear(leavesOpen())
	if kind.Emerges != nil {
		opens = dayOfYear(kind.Emerges.From)
	}
	lasts := dayOfYear(leavesFall()) - opens
	if lasts <= 0 {
		lasts += yearDays
	}
	f := foliage{opens: float64(opens), lasts: float64(lasts), late: late}
	switch {
	case kind.Foliage == "evergreen":
		f.always = 1
	case kind.Foliage == "semi-evergreen":
		f.always = halfEvergreen
	case kind.Foliage == "winter-green":
		f.lasts = winterGreenDays
	case kind.Habit == "bulb" && opens < dayOfYear(springBulbsBefore()):
		f.lasts = bulbDays
	}
	return f
}

// share is how much of its leaf a kind has on a day of the northern year, 0 to 1.
func (f foliage) share(ofYear int) float64 {
	passed := math.Mod(float64(ofYear)-f.opens-f.late+2*yearDays, yearDays)
	opening := min(1, passed/openDays)
	going := max(0, min(1, 1-(passed-f.lasts)/fallDays))
	return f.always + (1-f.always)*min(opening, going)
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
		years = firstYear*min(1, years) + secondYear*max(0, min(1, years-1)) + max(0, years-2)
	}
	return 1 - math.Exp(-spreadRate*max(0, years)/full)
}
