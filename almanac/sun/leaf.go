package sun

import (
	"math"
	"time"

	"haulm/almanac/heat"
	"haulm/almanac/stats"
	"haulm/garden"
)

// LeafDates gives the days of a usual year on which deciduous trees and hedges
// come into leaf and stand bare again: by heat where twelve months' normals are
// known, January first, and otherwise, or where no summer is warm enough, by
// latitude. It speaks of temperate climates and may be a fortnight off; a
// structure's own dates are better.
func LeafDates(lat float64, normals []garden.Normal) (out, fall garden.MonthDay) {
	outDay, fallDay := leafByLatitude(lat)
	if months, err := heat.NewNormals(normals); err == nil {
		if warm, cold, ok := leafByHeat(lat, months); ok {
			outDay, fallDay = warm, cold
		}
	}
	return monthDay(lat, outDay), monthDay(lat, fallDay)
}

// monthDay writes a day of the northern year for a latitude's hemisphere.
func monthDay(lat float64, ofYear int) garden.MonthDay {
	if lat < 0 {
		ofYear += halfYear
	}
	_, month, day := garden.DayOf(plainYear, time.January, 1+(ofYear-1)%daysOfYear).Date()
	return garden.MonthDay{Month: month, Day: day}
}

// leafByLatitude moves the dates of the reference site by latitude: spring by
// the four days a degree of Hopkins (1918), Monthly Weather Review supplement 9,
// autumn by half that.
func leafByLatitude(lat float64) (out, fall int) {
	north := math.Max(leafLeastLat, math.Min(leafMostLat, math.Abs(lat))) - leafReferenceLat
	return leafOutReference + int(math.Round(springDaysPerDegree*north)),
		leafFallReference - int(math.Round(autumnDaysPerDegree*north))
}

// leafByHeat goes through a usual year from midwinter, as if in the north. The
// trees come into leaf when the heat since then reaches what the cool days since
// 1 November leave them in need of, in the form of Murray, Cannell & Smith (1989),
// Journal of Applied Ecology 26:693: T = a + b·exp(−r·C).
func leafByHeat(lat float64, months heat.Normals) (out, fall int, ok bool) {
	turned := months
	if lat < 0 {
		for i := range turned {
			turned[i] = months[(i+6)%12]
		}
	}
	scale := heat.Scale{Method: heat.SingleSine, BaseC: leafBaseC}
	cool, warmth := coolDays(turned, firstCoolDay, daysOfYear), 0.0
	for day := 1; day <= latestLeafOut; day++ {
		cool += coolDays(turned, day, day)
		minC, maxC := turned.On(plainDay(day))
		warmth += scale.Of(minC, maxC)
		if warmth >= leafLeastHeat+leafUnchilledHeat*math.Exp(-leafChillRate*cool) {
			return day, leafFallByCold(turned), true
		}
	}
	return 0, 0, false
}

// coolDays is how many of the days of a usual year stay at or under the base,
// allowing for days that stray from the normal.
func coolDays(months heat.Normals, from, to int) float64 {
	sum := 0.0
	for day := from; day <= to; day++ {
		minC, maxC := months.On(plainDay(day))
		sum += stats.NormalCDF((leafBaseC - (minC+maxC)/2) / strayC)
	}
	return sum
}

func leafFallByCold(months heat.Normals) int {
	for day := firstLeafFall; day < latestLeafFall; day++ {
		if minC, maxC := months.On(plainDay(day)); (minC+maxC)/2 < leafFallC {
			return day
		}
	}
	return latestLeafFall
}

func plainDay(ofYear int) garden.Day { return garden.DayOf(plainYear, time.January, ofYear) }
