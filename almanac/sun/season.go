package sun

import (
	"math"
	"time"

	"haulm/garden"
)

// A Season is a span of the year, both days counted; it may run over the new
// year.
type Season struct {
	From garden.MonthDay `json:"from"`
	To   garden.MonthDay `json:"to"`
}

// SeasonAt gives the growing season over which hours of sun are averaged: the
// half year from April in the north and from October in the south, and the whole
// year between the tropics.
func SeasonAt(lat float64) Season {
	switch {
	case math.Abs(lat) < tropicDeg:
		return Season{garden.MonthDay{Month: time.January, Day: 1}, garden.MonthDay{Month: time.December, Day: 31}}
	case lat > 0:
		return Season{garden.MonthDay{Month: time.April, Day: 1}, garden.MonthDay{Month: time.September, Day: 30}}
	}
	return Season{garden.MonthDay{Month: time.October, Day: 1}, garden.MonthDay{Month: time.March, Day: 31}}
}

// Has says whether a day lies in the season.
func (s Season) Has(day garden.Day) bool {
	from, to := s.From.In(day.Year()), s.To.In(day.Year())
	if from <= to {
		return from <= day && day <= to
	}
	return from <= day || day <= to
}
