package demo

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"haulm/garden"
)

// weatherText is the daily series of Seattle, 2012 to 2015: rain in mm, maximum
// and minimum in °C, wind in m/s. NOAA National Climatic Data Center, daily
// summaries, as found in the npm package vega-datasets 3.2.1, which lists it as
// a U.S. Government work (public domain in the United States).
//
//go:embed weather.csv
var weatherText string

// weatherSource names the series in the weather records.
const weatherSource = "noaa-ncdc"

// A sky is one day's weather.
type sky struct {
	day                      garden.Day
	minC, maxC, rainMm, wind float64
}

// readWeather reads the whole series, one day after another.
func readWeather() ([]sky, error) {
	rows, err := csv.NewReader(strings.NewReader(weatherText)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("weather.csv: %w", err)
	}
	days := make([]sky, 0, len(rows)-1)
	for i, row := range rows[1:] {
		s, err := readSky(row)
		if err == nil && i > 0 && s.day != days[i-1].day+1 {
			err = fmt.Errorf("%s does not follow %s", s.day, days[i-1].day)
		}
		if err != nil {
			return nil, fmt.Errorf("weather.csv, line %d: %w", i+2, err)
		}
		days = append(days, s)
	}
	return days, nil
}

func readSky(row []string) (s sky, err error) {
	if s.day, err = garden.ParseDay(row[0]); err != nil {
		return s, err
	}
	for i, into := range []*float64{&s.rainMm, &s.maxC, &s.minC, &s.wind} {
		if *into, err = strconv.ParseFloat(row[i+1], 64); err != nil {
			return s, err
		}
	}
	return s, nil
}

// normalsOf gives the monthly means of the series itself. Four years are no
// climate, but they are what this garden's own thermometer would have; so the
// warm 2015 is reckoned as a little less warm than it was against thirty years.
func normalsOf(days []sky) []garden.Normal {
	normals := make([]garden.Normal, 12)
	var counts [12]float64
	for _, s := range days {
		_, month, _ := s.day.Date()
		normals[month-1].MinC += s.minC
		normals[month-1].MaxC += s.maxC
		normals[month-1].RainMm += s.rainMm
		counts[month-1]++
	}
	for i := range normals {
		normals[i].MinC = tenths(normals[i].MinC / counts[i])
		normals[i].MaxC = tenths(normals[i].MaxC / counts[i])
		normals[i].RainMm = tenths(normals[i].RainMm / (lastYear - firstYear + 1))
	}
	return normals
}

// writeWeather writes the days up to today.
func (g *grower) writeWeather(w *writer) {
	for _, s := range g.sky {
		if s.day > Today() {
			return
		}
		w.put(garden.WeatherRecord, s.day.String()+"."+weatherSource, map[string]any{
			"day": s.day, "minC": s.minC, "maxC": s.maxC, "rainMm": s.rainMm, "windMs": s.wind, "source": weatherSource})
	}
}
