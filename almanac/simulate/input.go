package simulate

import "fmt"

// An Input is what the verb "simulate" takes.
type Input struct {
	Seed      uint64 `json:"seed"`      // up to 2^53 − 1, what JSON carries whole
	Plantings int    `json:"plantings"` // 1 to mostPlantings
	Years     int    `json:"years"`     // 1 to mostYears, ending with LastYear
	// VisitsPerWeek sets visits at an even pace; nil is visits every 3 to 12 days.
	VisitsPerWeek *float64 `json:"visitsPerWeek,omitempty"`
	// Late is the share of plantings that are late in the last year, from 0 to 1;
	// nil is usualLate.
	Late *float64 `json:"late,omitempty"`
	// Struggling is the share of plantings whose growth falls behind, from 0 to 1;
	// nil is none.
	Struggling *float64 `json:"struggling,omitempty"`
	// Weather gives the garden normals and daily temperatures, whose heat then makes
	// part of its seasons.
	Weather bool    `json:"weather,omitempty"`
	Breaks  []Break `json:"breaks,omitempty"`
}

// check gives an error that names field, value and bound.
func (in Input) check() error {
	switch {
	case in.Seed > greatestSeed:
		return fmt.Errorf("seed %d is outside 0 to %d", in.Seed, uint64(greatestSeed))
	case in.Plantings < 1 || in.Plantings > mostPlantings:
		return fmt.Errorf("plantings %d is outside 1 to %d", in.Plantings, mostPlantings)
	case in.Years < 1 || in.Years > mostYears:
		return fmt.Errorf("years %d is outside 1 to %d", in.Years, mostYears)
	case in.VisitsPerWeek != nil && !within(*in.VisitsPerWeek, fewestVisits, mostVisits):
		return fmt.Errorf("visitsPerWeek %v is outside %v to %v", *in.VisitsPerWeek, fewestVisits, mostVisits)
	}
	for _, share := range []struct {
		name  string
		value *float64
	}{{"late", in.Late}, {"struggling", in.Struggling}} {
		if share.value != nil && !within(*share.value, 0, 1) {
			return fmt.Errorf("%s %v is outside 0 to 1", share.name, *share.value)
		}
	}
	if looks := in.looks(); looks > mostLooks {
		return fmt.Errorf("plantings %d over years %d make about %.0f looks, outside 0 to %d: ask for fewer visitsPerWeek, plantings or years",
			in.Plantings, in.Years, looks, mostLooks)
	}
	return checkBreaks(in.Breaks)
}

// within is false of NaN.
func within(x, low, high float64) bool { return x >= low && x <= high }

// looks is about how many looks the input makes.
func (in Input) looks() float64 {
	perWeek := 7 / meanGapDays
	if in.VisitsPerWeek != nil {
		perWeek = *in.VisitsPerWeek
	}
	return lookedAt * perWeek * float64(in.Plantings) * (float64(in.Years*365) + tailDays) / 7
}

// or is an optional value or what stands in for it.
func or(value *float64, usual float64) float64 {
	if value == nil {
		return usual
	}
	return *value
}
