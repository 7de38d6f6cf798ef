package assess

import (
	"maps"
	"slices"
	"sort"

	"haulm/almanac/heat"
	"haulm/almanac/stats"
	"haulm/garden"
)

// A daysWeather is what is known of one day's weather; nil is not known.
type daysWeather struct {
	day                                  garden.Day
	minC, maxC, rainMm, sunHours, windMs *float64
}

// A sky keeps weather by record and, once asked for, by day.
type sky struct {
	byID  map[string]garden.Weather
	byDay []daysWeather // in order of day; nil when stale
}

func newSky() sky { return sky{byID: map[string]garden.Weather{}} }

func (s *sky) add(w garden.Weather) {
	s.byID[w.ID] = w
	s.byDay = nil
}

func (s *sky) remove(id string) {
	delete(s.byID, id)
	s.byDay = nil
}

// until gives the days of which anything is known up to a day, in order. Of
// several sources on one day each quantity is their mean. The caller must not
// write into it.
func (s *sky) until(on garden.Day) []daysWeather {
	if s.byDay == nil {
		s.byDay = s.merged()
	}
	return s.byDay[:sort.Search(len(s.byDay), func(i int) bool { return s.byDay[i].day > on })]
}

// between gives the days from one to another, both included.
func (s *sky) between(from, to garden.Day) []daysWeather {
	days := s.until(to)
	return days[sort.Search(len(days), func(i int) bool { return days[i].day >= from }):]
}

// heat gives the temperatures up to a day.
func (s *sky) heat(on garden.Day) []heat.Day {
	known := s.until(on)
	days := make([]heat.Day, 0, len(known))
	for _, d := range known {
		days = append(days, heat.Day{Day: d.day, MinC: d.minC, MaxC: d.maxC})
	}
	return days
}

func (s *sky) merged() []daysWeather {
	sources := map[garden.Day][]garden.Weather{}
	for _, id := range sortedKeys(s.byID) {
		if w := s.byID[id]; w.Day != nil {
			sources[*w.Day] = append(sources[*w.Day], w)
		}
	}
	days := make([]daysWeather, 0, len(sources))
	for _, day := range slices.Sorted(maps.Keys(sources)) {
		days = append(days, oneDay(day, sources[day]))
	}
	return days
}

// oneDay is a day as its sources together have it. A minimum above its maximum is
// a slip of one of them, and neither is taken.
func oneDay(day garden.Day, sources []garden.Weather) daysWeather {
	d := daysWeather{day: day,
		minC:     meanOf(sources, func(w garden.Weather) *float64 { return w.MinC }),
		maxC:     meanOf(sources, func(w garden.Weather) *float64 { return w.MaxC }),
		rainMm:   meanOf(sources, func(w garden.Weather) *float64 { return w.RainMm }),
		sunHours: meanOf(sources, func(w garden.Weather) *float64 { return w.SunHours }),
		windMs:   meanOf(sources, func(w garden.Weather) *float64 { return w.WindMs })}
	if d.minC != nil && d.maxC != nil && *d.minC > *d.maxC {
		d.minC, d.maxC = nil, nil
	}
	return d
}

// meanOf is the mean of a quantity over the sources that give it; nil when none
// does.
func meanOf(sources []garden.Weather, quantity func(garden.Weather) *float64) *float64 {
	sum, n := 0.0, 0
	for _, w := range sources {
		if value := quantity(w); value != nil {
			sum += *value
			n++
		}
	}
	if n == 0 {
		return nil
	}
	mean := stats.Round7(sum / float64(n))
	return &mean
}
