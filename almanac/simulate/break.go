package simulate

import (
	"fmt"
	"slices"
)

// A Break spoils one assumption that a model of a garden may make.
type Break string

// The breaks.
const (
	// HeavyTails draws chance from Student's t with 4 degrees of freedom, scaled
	// to the same standard deviation.
	HeavyTails Break = "heavy-tails"
	// WetCorner delays everything in one bed by cornerDays in the last year. The
	// place does it: the plants in it count as healthy, and expected that late.
	WetCorner Break = "wet-corner"
	// ColdCorner delays everything in one bed by cornerDays in every year.
	ColdCorner Break = "cold-corner"
	// WrongCatalogue states the windows of a tenth of the kinds three weeks off.
	WrongCatalogue Break = "wrong-catalogue"
	// Weekends has people come on Saturdays and Sundays alone.
	Weekends Break = "weekends"
	// LongGap has nobody come for eight weeks of the last year's growing season.
	LongGap Break = "long-gap"
	// LateSpring makes the last season late in spring and normal by August.
	LateSpring Break = "late-spring"
	// FadingSeason has seasons move September a third as far as February, with
	// the same mean square over the year.
	FadingSeason Break = "fading-season"
	// EvenSeason has each year run late or early by one number throughout.
	EvenSeason Break = "even-season"
	// BlindPlants leaves a tenth of the plants without flower in any one year.
	BlindPlants Break = "blind-plants"
	// Misread has one stage in thirty misread.
	Misread Break = "misread"
	// FlowerFollowed has people look at what is in flower more than at the rest.
	FlowerFollowed Break = "flower-followed"
)

// Breaks lists the breaks.
func Breaks() []Break {
	return []Break{HeavyTails, WetCorner, ColdCorner, WrongCatalogue, Weekends, LongGap, LateSpring, FadingSeason, EvenSeason,
		BlindPlants, Misread, FlowerFollowed}
}

func checkBreaks(breaks []Break) error {
	for i, b := range breaks {
		if !slices.Contains(Breaks(), b) {
			return fmt.Errorf("breaks[%d] %q is not known: give %s", i, b, eitherOf(Breaks()))
		}
	}
	return nil
}

// eitherOf lists breaks as a sentence does.
func eitherOf(breaks []Break) string {
	last := len(breaks) - 1
	list := string(breaks[0])
	for _, b := range breaks[1:last] {
		list += ", " + string(b)
	}
	return list + " or " + string(breaks[last])
}

// with says whether a break is asked for.
func (in Input) with(b Break) bool { return slices.Contains(in.Breaks, b) }
