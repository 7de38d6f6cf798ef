package sun

import (
	"math"
	"time"

	"haulm/almanac/stats"
	"haulm/garden"
)

// Hours are hours of direct sun a day, to 0.01, in all and before and after solar
// noon. A share that passes a crown or a hedge counts as that share of the time;
// clouds are not reckoned. The sun counts from 0° of true elevation.
type Hours struct {
	Total, Before, After float64
}

// rounded rounds the parts on their own, so they may miss the total by 0.01.
func (h Hours) rounded() Hours {
	return Hours{stats.RoundHours(h.Total), stats.RoundHours(h.Before), stats.RoundHours(h.After)}
}

// A mean adds up days.
type mean struct {
	sum  Hours
	days float64
}

func (m *mean) add(h Hours) {
	m.sum = Hours{m.sum.Total + h.Total, m.sum.Before + h.Before, m.sum.After + h.After}
	m.days++
}

func (m mean) hours() Hours {
	days := math.Max(1, m.days)
	return Hours{m.sum.Total / days, m.sum.Before / days, m.sum.After / days}.rounded()
}

// Day gives the hours of one day, from one solar midnight to the next.
func (p *Point) Day(day garden.Day) Hours { return p.day(day).rounded() }

// Month gives the mean hours a day over a month.
func (p *Point) Month(year int, month time.Month) Hours {
	var m mean
	for day := garden.DayOf(year, month, 1); day < garden.DayOf(year, month+1, 1); day++ {
		m.add(p.day(day))
	}
	return m.hours()
}

// GrowingSeason gives the mean hours a day over those days of a calendar year
// that lie in the season.
func (p *Point) GrowingSeason(year int, season Season) Hours {
	_, growing := p.Year(year, season)
	return growing
}

// Year gives at once what Month gives for each month, January first, and
// GrowingSeason for the season.
func (p *Point) Year(year int, season Season) (months [12]Hours, growing Hours) {
	var ofMonth [12]mean
	var ofSeason mean
	for day := garden.DayOf(year, time.January, 1); day.Year() == year; day++ {
		_, month, _ := day.Date()
		h := p.day(day)
		ofMonth[month-time.January].add(h)
		if season.Has(day) {
			ofSeason.add(h)
		}
	}
	for i, m := range ofMonth {
		months[i] = m.hours()
	}
	return months, ofSeason.hours()
}

// day adds up the time between looks at the sun.
func (p *Point) day(day garden.Day) Hours {
	const stepHours, noon = 24.0 / stepsPerDay, stepsPerDay / 2
	path := p.site.path(day)
	var before, after float64
	last := p.passes(path.rays[0], path.passes)
	for i := 1; i < len(path.rays); i++ {
		next := p.passes(path.rays[i], path.passes)
		lit := last
		if next != last {
			lit = p.between(path.rays[i-1], path.rays[i], last, next, path.passes, halvings)
		}
		if path.first+i <= noon {
			before += lit
		} else {
			after += lit
		}
		last = next
	}
	return Hours{(before + after) * stepHours, before * stepHours, after * stepHours}
}

// between gives the mean share between two directions of which the shares are
// known, by halving wherever they differ.
func (p *Point) between(a, b ray, shareA, shareB float64, passing []float64, deeper int) float64 {
	if deeper == 0 || shareA == shareB {
		return (shareA + shareB) / 2
	}
	middle := newRay((a.x+b.x)/2, (a.y+b.y)/2, (a.up+b.up)/2)
	share := p.passes(middle, passing)
	return (p.between(a, middle, shareA, share, passing, deeper-1) +
		p.between(middle, b, share, shareB, passing, deeper-1)) / 2
}

// A Class says in the trade's words how sunny a place is.
type Class string

// The classes: at least fullSunHours, at least partSunHours, and less, of direct
// sun a day in the growing season (common practice).
const (
	FullSun Class = "full"
	PartSun Class = "part"
	Shade   Class = "shade"
)

// ClassOf gives the class of a mean over the growing season.
func ClassOf(hours float64) Class {
	switch {
	case hours >= fullSunHours:
		return FullSun
	case hours >= partSunHours:
		return PartSun
	}
	return Shade
}
