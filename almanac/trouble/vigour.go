package trouble

import (
	"math"

	"haulm/almanac/stats"
)

// failing: the last grade is the lowest there is.
func failing(c Case) []Trouble {
	last := c.lastVigour()
	if last == nil || *last.Vigour > failingVigour {
		return nil
	}
	return []Trouble{{Say: "vigour-failing", Grave: true, Day: &last.Day, Check: []string{"water", "drainage", "roots", "dieback"}}}
}

// falling: over the last years the line through the grades of vigour, by the
// median of all slopes (Sen 1968), falls by leastFall or more, and the last grade
// is poor. The median is not moved by one bad day.
func falling(c Case) []Trouble {
	var graded []Look
	for _, look := range c.since(vigourYears * yearDays) {
		if look.Vigour != nil {
			graded = append(graded, look)
		}
	}
	if len(graded) < fewestGrades || *graded[len(graded)-1].Vigour > poorVigour {
		return nil
	}
	first, last := graded[0], graded[len(graded)-1]
	fall := fallOver(graded)
	if last.Day-first.Day < leastStretch || stats.RoundDays(fall) < leastFall {
		return nil
	}
	measures, was := len(graded), int(math.Round(min(5, float64(*last.Vigour)+fall)))
	return []Trouble{{Say: "vigour-falling", Grave: true, From: &first.Day, Day: &last.Day, Count: last.Vigour, Of: &was, Measures: &measures,
		Check: []string{"water", "roots", "light", "crowded", "feed"}}}
}

// fallOver is by how many grades the line falls from the first look to the last;
// 0 where no line can be drawn. Of very many looks the last are taken.
func fallOver(graded []Look) float64 {
	graded = graded[max(0, len(graded)-mostGrades):]
	x, y := make([]float64, len(graded)), make([]float64, len(graded))
	for i, look := range graded {
		x[i], y[i] = float64(look.Day-graded[0].Day), float64(*look.Vigour)
	}
	line, err := stats.TheilSen(x, y)
	if err != nil {
		return 0 // all on one day
	}
	return -line.Slope * x[len(x)-1]
}
