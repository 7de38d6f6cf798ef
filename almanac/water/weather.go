package water

import (
	"haulm/garden"
)

// A Weather is a garden's daily weather made ready, once for all its plantings:
// each day's reference evapotranspiration and rain, short gaps filled.
type Weather struct {
	southern bool
	first    garden.Day
	air      []air
	filled   []garden.Day // in order
	assumed  []string     // in the order of assumptions.go
}

// An air is what one day's weather gives and takes.
type air struct {
	et0Mm, rainMm float64
	known         bool
}

// NewWeather takes a garden's latitude in degrees, its altitude (nil: not known)
// and its days in any order. A day is reckoned by Penman–Monteith where sunshine
// and wind are known, with the wind brought down from 10 m and the night taken to
// have reached the dew point, else by Hargreaves. It fails, naming the field or
// the day, on a value out of its bounds, a minimum above its maximum, a day given
// twice and a span of more than two centuries.
func NewWeather(lat float64, altitudeM *float64, days []Day) (*Weather, error) {
	if err := checkPlace(lat, altitudeM); err != nil {
		return nil, err
	}
	temperatures, rain, err := splitDays(days)
	if err != nil {
		return nil, err
	}
	w := &Weather{southern: lat < 0, first: temperatures.first, air: make([]air, len(temperatures.readings))}
	w.filled = union(temperatures.filled, rain.filled)
	altitude, better, plain := float64(usualAltitudeM), 0, 0
	if altitudeM != nil {
		altitude = *altitudeM
	}
	extra := make(map[garden.Day]Day, len(days))
	for _, day := range days {
		extra[day.Day] = day
	}
	for i, t := range temperatures.readings {
		if r := rain.readings[i]; t.known && r.known {
			day := extra[t.day]
			w.air[i] = air{et0Mm: et0Of(day, t, lat, altitude), rainMm: r.values[0], known: true}
			if measured(day) {
				better++
			} else {
				plain++
			}
		}
	}
	w.assumed = weatherAssumptions(better, plain, altitudeM == nil)
	return w, nil
}

// measured tells days that Penman–Monteith can be used on.
func measured(day Day) bool { return day.SunHours != nil && day.WindMs != nil }

func et0Of(day Day, t reading, lat, altitudeM float64) float64 {
	minC, maxC := t.values[0], t.values[1]
	sun := sunOn(lat, t.day)
	if !measured(day) {
		return hargreaves(minC, maxC, sun.extraMJ)
	}
	vapour := vapourKPa(minC, maxC, nil, nil, nil)
	solar := sun.solarFromHours(*day.SunHours)
	return penmanMonteith(minC, maxC, windAt2(*day.WindMs, stationM), vapour, sun.net(solar, minC, maxC, vapour, altitudeM), altitudeM)
}

// splitDays gives temperatures and rain as two series over the same days, since
// each may have gaps of its own.
func splitDays(days []Day) (temperatures, rain series, err error) {
	t, r := make([]reading, len(days)), make([]reading, len(days))
	for i, d := range days {
		if err := checkDay(d); err != nil {
			return series{}, series{}, err
		}
		t[i], r[i] = reading{day: d.Day}, reading{day: d.Day}
		if d.MinC != nil && d.MaxC != nil {
			t[i].values, t[i].known = [2]float64{*d.MinC, *d.MaxC}, true
		}
		if d.RainMm != nil {
			r[i].values, r[i].known = [2]float64{*d.RainMm}, true
		}
	}
	if temperatures, err = newSeries(t); err != nil {
		return series{}, series{}, err
	}
	rain, err = newSeries(r)
	return temperatures, rain, err
}

func checkDay(d Day) error {
	if err := checkTemperatures(d.Day, d.MinC, d.MaxC); err != nil {
		return err
	}
	return checkEach(d.Day, []bounded{{"rainMm", d.RainMm, 0, wettestMm}, {"sunHours", d.SunHours, 0, 24}, {"windMs", d.WindMs, 0, strongestMs}})
}

// union merges two lists of days that are in order.
func union(a, b []garden.Day) []garden.Day {
	both := make([]garden.Day, 0, len(a)+len(b))
	for len(a) > 0 || len(b) > 0 {
		switch {
		case len(b) == 0 || len(a) > 0 && a[0] < b[0]:
			both, a = append(both, a[0]), a[1:]
		case len(a) == 0 || b[0] < a[0]:
			both, b = append(both, b[0]), b[1:]
		default:
			both, a, b = append(both, a[0]), a[1:], b[1:]
		}
	}
	return both
}

// on gives the air of a day; not known outside the weather.
func (w *Weather) on(day garden.Day) air {
	if i := int(day) - int(w.first); i >= 0 && i < len(w.air) {
		return w.air[i]
	}
	return air{}
}

// lastKnown is the last day whose weather is known, up to a day.
func (w *Weather) lastKnown(on garden.Day) (garden.Day, bool) {
	for i := min(len(w.air)-1, int(on)-int(w.first)); i >= 0; i-- {
		if w.air[i].known {
			return w.first + garden.Day(i), true
		}
	}
	return 0, false
}
