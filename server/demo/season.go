package demo

import (
	"haulm/almanac/heat"
	"haulm/garden"
)

// seasons is the thermal time of each year beside the mean of them all.
type seasons map[int]heat.Season

// response is how many days flower moves for a day by which the season's warmth
// is ahead or behind, by what the kind goes by. Half is what the almanac takes
// for kinds cued by heat; kinds cued by day length or autumn rain hardly move.
var response = map[string]float64{"heat": 0.5, "chill": 0.2, "day-length": 0.12, "autumn-rain": 0}

func newSeasons(days []sky) (seasons, error) {
	measured := make([]heat.Day, 0, len(days))
	for i := range days {
		measured = append(measured, heat.Day{Day: days[i].day, MinC: &days[i].minC, MaxC: &days[i].maxC})
	}
	series, err := heat.NewSeries(measured)
	if err != nil {
		return nil, err
	}
	normals, err := heat.NewNormals(normalsOf(days))
	if err != nil {
		return nil, err
	}
	s := seasons{}
	for year := firstYear; year <= lastYear; year++ {
		s[year] = heat.NewSeason(warmth(), normals, series, garden.DayOf(year, 1, 1))
	}
	return s, nil
}

// warmth counts degree-days above 5 °C, at which most temperate plants begin to
// grow (common practice).
func warmth() heat.Scale { return heat.Scale{Method: heat.SingleSine, BaseC: 5} }

// later is how many days later than usual a kind flowers that would usually do
// so on a day; in years without a series, not at all.
func (s seasons) later(cue string, usual garden.Day) float64 {
	season, known := s[usual.Year()]
	if !known {
		return 0
	}
	return response[cue] * season.At(usual).Days * tells(float64(usual.OfYear()))
}

// tells is how much the year's warmth tells of a date: nothing at New Year, when
// it has only begun to be counted, all from March.
func tells(ofYear float64) float64 {
	const nothing, all, winter = 15, 60, 335
	if ofYear > winter {
		return 0
	}
	return max(0, min(1, (ofYear-nothing)/(all-nothing)))
}

// springness is how far a day of the year belongs to spring, when places differ
// most: whole from mid-March to mid-June, nothing in autumn, and little in the
// first weeks of the year, when hardly any warmth has been counted anywhere.
func springness(ofYear float64) float64 {
	points := [][2]float64{{0, 0}, {32, 0.3}, {74, 1}, {166, 1}, {244, 0}, {366, 0}}
	for i := 1; i < len(points); i++ {
		if from, to := points[i-1], points[i]; ofYear <= to[0] {
			return from[1] + (to[1]-from[1])*(ofYear-from[0])/(to[0]-from[0])
		}
	}
	return points[len(points)-1][1]
}
