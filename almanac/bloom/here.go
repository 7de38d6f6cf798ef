package bloom

import (
	"math"

	"haulm/almanac/heat"
	"haulm/almanac/stats"
	"haulm/garden"
)

// A Here is the garden that is reckoned for, with what its weather was: daily
// minimum and maximum in any order, each day once, nil where not measured. Days
// after the one that is reckoned for are left aside. Weather is of use only
// beside the garden's normals, from which it strays.
type Here struct {
	garden.Garden
	Weather []heat.Day
}

// warmth is how the heat of a garden's seasons runs against a usual one's.
type warmth struct {
	normals  heat.Normals
	series   heat.Series
	southern bool
	seasons  map[int]heat.Season // by the year in which they start
}

// warmthOf is the warmth of the days up to and with on; nil where the garden's
// normals or its weather are not known.
func warmthOf(h Here, on garden.Day) *warmth {
	normals, err := heat.NewNormals(h.Normals)
	if err != nil {
		return nil
	}
	var days []heat.Day
	for _, d := range h.Weather {
		if d.Day <= on {
			days = append(days, d)
		}
	}
	series, err := heat.NewSeries(days)
	if err != nil || len(days) == 0 {
		return nil
	}
	return &warmth{normals: normals, series: series, southern: h.Lat != nil && *h.Lat < 0, seasons: map[int]heat.Season{}}
}

// flowerHeat is how the heat that brings flower is counted.
func flowerHeat() heat.Scale { return heat.Scale{Method: heat.SingleSine, BaseC: flowerBaseC} }

// behind is by how many days the heat that is usual by a flush's expected day
// came later in its year, as far as the weather tells: of days not measured, and
// of those to come, the usual is taken. It is held to what moves the season by
// seasonReach of its spreads.
func (w *warmth) behind(f *Flush) float64 {
	if w == nil {
		return 0
	}
	day := f.dayOf(f.Expected)
	offset := w.season(day).At(day).Days
	reach := seasonReach * f.SeasonSD / heatResponse
	return stats.RoundDays(math.Max(-reach, math.Min(reach, offset)))
}

// season is the season that a day is in, counted from midwinter.
func (w *warmth) season(day garden.Day) heat.Season {
	year, from := day.Year(), garden.DayOf(day.Year(), 1, 1)
	if w.southern {
		if from = garden.DayOf(year, 7, 1); day < from {
			year, from = year-1, garden.DayOf(year-1, 7, 1)
		}
	}
	if _, known := w.seasons[year]; !known {
		w.seasons[year] = heat.NewSeason(flowerHeat(), w.normals, w.series, from)
	}
	return w.seasons[year]
}

// moves says whether heat moves the flower of a kind.
func (w *warmth) moves(kind *garden.Kind) bool { return w != nil && kind.Cue == "heat" }
