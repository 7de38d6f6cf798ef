package skill

import (
	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// A Judge looks at one planting's flush of the last year on one day.
type Judge interface {
	// Names says whether it calls the flush late, and in which words, from the
	// looks up to that day.
	Names(flush *simulate.Flush, looks []bloom.Look, on garden.Day) (word string, names bool)
}

// A Naming is the first time that a judge named a planting.
type Naming struct {
	Day  float64 // of the flush's year
	Word string
}

// ofYear is a day as a day of the year.
func ofYear(day garden.Day, year int) float64 { return float64(day-garden.DayOf(year, 1, 1)) + 1 }

// noted is the first day, of its year, on which flower of a flush was noted; what
// is noted long before its window is another year's.
func noted(f *simulate.Flush, looks []bloom.Look) (day float64, was bool) {
	for _, l := range looks {
		if at := ofYear(l.Day, f.Year); at >= f.StatedDay-strayDays && inFlower(l) {
			return at, true
		}
	}
	return 0, false
}

// strayDays before its stated window flower is not a flush's own: more than four
// standard deviations of season, habit, chance and catalogue together, and short
// enough that last year's, which lasts two months, is not taken for it.
const strayDays = 60.0
