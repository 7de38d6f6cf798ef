package bloom

import (
	"math"

	"haulm/garden"
)

// A moved says how the catalogue's windows move to one garden.
type moved struct {
	southern bool
	trusted  bool    // within the latitudes where the catalogue is trusted
	days     float64 // later in spring than at the reference site
}

// moveTo says how the catalogue moves to a garden, by Hopkins's bioclimatic law
// from the reference site. A garden without a position keeps the reference's
// dates; one without an altitude keeps its altitude.
func moveTo(g garden.Garden) moved {
	m := moved{trusted: true}
	if g.Lat != nil {
		lat := math.Abs(*g.Lat)
		m.southern = *g.Lat < 0
		m.trusted = lat >= leastLat && lat <= greatestLat
		m.days += hopkinsDaysPerDegree * (lat - referenceLat)
	}
	if g.AltitudeM != nil {
		m.days += hopkinsDaysPerMetre * (*g.AltitudeM - referenceAltitudeM)
	}
	return m
}

// opens is when a window that starts on a day of the catalogue's year, in a
// calendar year, starts here: days from 1 January 1970.
func (m moved) opens(from garden.MonthDay, year int) float64 {
	day := from.In(year)
	at := float64(day) + m.days*hopkinsShare(float64(day.OfYear()))
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

// hopkinsShare is how much of Hopkins's law holds for a window that starts on a
// day of a northern year.
func hopkinsShare(dayOfYear float64) float64 {
	switch {
	case dayOfYear < hopkinsReturnsTo-yearDays:
		return hopkinsShare(dayOfYear + yearDays)
	case dayOfYear <= hopkinsFadesFrom || dayOfYear >= hopkinsReturnsTo:
		return 1
	case dayOfYear < hopkinsFadesTo:
		return (hopkinsFadesTo - dayOfYear) / (hopkinsFadesTo - hopkinsFadesFrom)
	case dayOfYear <= hopkinsReturnsFrom:
		return 0
	default:
		return (dayOfYear - hopkinsReturnsFrom) / (hopkinsReturnsTo - hopkinsReturnsFrom)
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
