package sun

import (
	"math"

	"haulm/garden"
)

// A ray is the direction to the sun in the plan's axes: right, ahead and up, of
// length one; turn says where it points on the plan, from 0 to 4 (see turnOf).
type ray struct{ x, y, up, turn float64 }

// A path is the sun's way over one solar day, from midnight to midnight, at
// stepsPerDay even hour angles and once more at the end; noon is in the middle.
// Only the part above the horizon is kept, with one ray below it on either side.
type path struct {
	first  int // step of rays[0]
	rays   []ray
	passes []float64 // for each prism of the site, the share of the sun that passes it that day
}

// path gives the sun's way on a date: the solar day whose noon is that of the
// date by the place's own mean time.
func (s *Site) path(day garden.Day) *path {
	year := day.Year()
	if s.paths == nil || s.year != year {
		s.year, s.paths = year, make([]*path, 366)
	}
	slot := &s.paths[day.OfYear()-1]
	if *slot == nil {
		*slot = s.here.pathOf(day)
		(*slot).passes = s.passes(day)
	}
	return *slot
}

// pathOf lets the declination run evenly from one solar midnight to the next,
// which is within 0.005° of its true course; the sun's parallax, 0.002°, is left
// out.
func (p Place) pathOf(day garden.Day) *path {
	from := midnight(day) - p.Lon/360*secondsPerDay
	startSin, startCos := math.Sincos(apparentSun(at(from)).declination)
	endSin, endCos := math.Sincos(apparentSun(at(from + secondsPerDay)).declination)
	sinLat, cosLat := math.Sincos(p.Lat * degree)
	sinB, cosB := math.Sincos(p.PlanBearingDeg * degree)
	all := make([]ray, stepsPerDay+1)
	for i := range all {
		part := float64(i) / stepsPerDay
		sinD, cosD := startSin+part*(endSin-startSin), startCos+part*(endCos-startCos)
		sinH, cosH := math.Sincos((2*part - 1) * math.Pi)
		east, north := -cosD*sinH, sinD*cosLat-cosD*cosH*sinLat
		all[i] = newRay(east*cosB-north*sinB, east*sinB+north*cosB, sinD*sinLat+cosD*cosH*cosLat)
	}
	return daylight(all)
}

func newRay(x, y, up float64) ray { return ray{x, y, up, turnOf(x, y)} }

// turnOf says where a direction on the plan points as a number that grows from 0
// to 4 as it turns once, from the x axis towards the y axis: cheaper than an
// angle, and as good for putting directions in order.
func turnOf(x, y float64) float64 {
	sum := math.Abs(x) + math.Abs(y)
	switch {
	case sum == 0:
		return 0
	case y >= 0:
		return 1 - x/sum
	default:
		return 3 + x/sum
	}
}

// fullTurn is turnOf once round.
const fullTurn = 4

// directionOf is the direction of a turn, the inverse of turnOf.
func directionOf(turn float64) [2]float64 {
	if turn < fullTurn/2 {
		x := 1 - turn
		return [2]float64{x, 1 - math.Abs(x)}
	}
	x := turn - 3
	return [2]float64{x, math.Abs(x) - 1}
}

// daylight cuts off the night before sunrise and after sunset.
func daylight(all []ray) *path {
	first, last := 0, len(all)
	for first < len(all) && all[first].up <= 0 {
		first++
	}
	for last > first && all[last-1].up <= 0 {
		last--
	}
	first, last = max(0, first-1), min(len(all), last+1)
	return &path{first: first, rays: append([]ray(nil), all[first:last]...)}
}
