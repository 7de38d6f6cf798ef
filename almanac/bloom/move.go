package bloom

import (
	"math"

	"haulm/garden"
)

// A moved says how the catalogue's windows move to one garden.
type moved struct {
	southern bool
	trusted  bool     // within the latitudes where the catalogue is trusted
	days     float64  // later in spring than at the reference site
	thermal  *thermal // by the garden's own normals, nil where they are not known
}

// moveTo says how the catalogue moves from the reference site to a garden: by
// the heat of its normals where they are known, else by Hopkins's bioclimatic
// law. A garden without a position keeps the reference's dates; one without an
// altitude keeps its altitude.
func moveTo(g garden.Garden) moved {
	m := moved{trusted: true, thermal: thermalOf(g)}
	if g.Lat != nil {
		lat := math.Abs(*g.Lat)
		m.southern = *g.Lat < 0
		m.trusted = lat >= leastLat && lat <= greatestLat
		m.days += hopkinsDaysPerDegree * (lat - referenceLat)
	}
	if g.AltitudeM != nil {
		m.days += hopkinsDaysPerMetre * (*g.AltitudeM - referenceAltitudeM)
	}
	if m.thermal != nil {
		m.days = m.thermal.later(springAt)
	}
	return m
}

// later is how many days later than at the reference site what opens there on a
// day of a northern year is, before it fades.
func (m moved) later(dayOfYear float64) float64 {
	if m.thermal != nil {
		return m.thermal.later(dayOfYear)
	}
	return m.days
}

// opens is when a window that starts on a day of the catalogue's year, in a
// calendar year, starts here: days from 1 January 1970.
func (m moved) opens(from garden.MonthDay, year int) float64 {
	day := from.In(year)
	ofYear := float64(day.OfYear())
	at := float64(day) + m.later(ofYear)*SpringShare(ofYear)
	if m.southern {
		at += halfYearDays
	}
	return at
}

// yearsOn is how many years after the catalogue's year a window opens here: 1 or
// −1 where moving it carries it over New Year. It is the same in leap years, so
// that every window opens once in every year.
func (m moved) yearsOn(from garden.MonthDay) int {
	return garden.Day(math.Floor(m.opens(from, anyYear))).Year() - anyYear
}

// anyYear has no 29 February.
const anyYear = 2001

// SpringShare is how much of what moves spring moves a window that starts on a day
// of a northern year.
func SpringShare(dayOfYear float64) float64 {
	switch {
	case dayOfYear < springReturnsTo-yearDays:
		return SpringShare(dayOfYear + yearDays)
	case dayOfYear <= springFadesFrom || dayOfYear >= springReturnsTo:
		return 1
	case dayOfYear < springFadesTo:
		return (springFadesTo - dayOfYear) / (springFadesTo - springFadesFrom)
	case dayOfYear <= springReturnsFrom:
		return 0
	default:
		return (dayOfYear - springReturnsFrom) / (springReturnsTo - springReturnsFrom)
	}
}

// lengthDays is how long a catalogue window lasts; it may run over New Year.
func lengthDays(from, to garden.MonthDay) float64 {
	days := float64(to.In(anyYear) - from.In(anyYear))
	if days < 0 {
		days += 365
	}
	return math.Max(shortestLengthDays, days)
}
