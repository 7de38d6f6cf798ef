package sun

import (
	"cmp"
	"math"
	"slices"
	"time"

	"haulm/almanac/stats"
)

// risings are the first rise and the last set between two moments, NaN where
// there is none, and for how many seconds the sun is up.
type risings struct {
	rise, set float64
	up        float64
	upAtStart bool
}

func (r risings) answer(zone *time.Location) DayAnswer {
	answer := DayAnswer{LengthHours: stats.RoundHours(r.up / 3600)}
	if !math.IsNaN(r.rise) {
		text := written(r.rise, zone)
		answer.Rise = &text
	}
	if !math.IsNaN(r.set) {
		text := written(r.set, zone)
		answer.Set = &text
	}
	if answer.Rise == nil && answer.Set == nil {
		answer.Polar = "night"
		if r.upAtStart {
			answer.Polar = "day"
		}
	}
	return answer
}

// A sky is what passes over a place in degrees.
type sky struct{ lat, lon float64 }

// height is how far the sun's centre is above where it rises, in degrees.
func (s sky) height(unix float64) float64 {
	elevation, _ := locate(apparentSun(at(unix)), s.lat, s.lon)
	return elevation/degree - horizonDeg
}

// transitNear is the moment nearest to another at which the sun crosses the
// meridian. It goes by the hour angle: each step leaves a hundredth of the error.
func (s sky) transitNear(unix float64) float64 {
	for range mostSteps {
		step := hourAngle(apparentSun(at(unix)), s.lon) / (2 * math.Pi) * secondsPerDay
		unix -= step
		if math.Abs(step) < exactSeconds {
			break
		}
	}
	return unix
}

// A look is the sun's height at a moment.
type look struct{ unix, height float64 }

// risings looks every lookSeconds, and once more at the top and bottom of the
// sun's way where it might just reach the horizon in between.
func (s sky) risings(from, to float64) risings {
	looks := s.looks(from, to)
	r := risings{rise: math.NaN(), set: math.NaN(), upAtStart: looks[0].height >= 0}
	for i := 1; i < len(looks); i++ {
		a, b := looks[i-1], looks[i]
		switch {
		case a.height < 0 && b.height >= 0:
			moment := s.crossing(a, b)
			if math.IsNaN(r.rise) {
				r.rise = moment
			}
			r.up += b.unix - moment
		case a.height >= 0 && b.height < 0:
			r.set = s.crossing(a, b)
			r.up += r.set - a.unix
		case a.height >= 0:
			r.up += b.unix - a.unix
		}
	}
	return r
}

// looks gives the even looks from one moment to another, in order, with the
// turning points near the horizon among them.
func (s sky) looks(from, to float64) []look {
	steps := math.Ceil((to - from) / lookSeconds)
	step := (to - from) / steps
	even := make([]look, 0, int(steps)+3)
	for i := -1.0; i <= steps+1; i++ {
		unix := from + step*i
		even = append(even, look{unix, s.height(unix)})
	}
	looks := append([]look(nil), even[1:len(even)-1]...)
	for i := 1; i < len(even)-1; i++ {
		if turn, ok := s.turning(even[i-1], even[i], even[i+1]); ok && turn.unix > from && turn.unix < to {
			looks = append(looks, turn)
		}
	}
	slices.SortFunc(looks, func(a, b look) int { return cmp.Compare(a.unix, b.unix) })
	return looks
}

// turning finds the sun's highest or lowest look between a and c, where b is
// above or below both and all are within nearHorizonDeg on one side of it.
func (s sky) turning(a, b, c look) (look, bool) {
	way := 1.0
	if b.height >= 0 {
		way = -1 // looked for is the lowest
	}
	if way*b.height < way*a.height || way*b.height < way*c.height || math.Abs(b.height) > nearHorizonDeg {
		return look{}, false
	}
	for c.unix-a.unix > turningSeconds {
		third := (c.unix - a.unix) / 3
		left, right := a.unix+third, c.unix-third
		if way*s.height(left) < way*s.height(right) {
			a.unix = left
		} else {
			c.unix = right
		}
	}
	middle := (a.unix + c.unix) / 2
	return look{middle, s.height(middle)}, true
}

// crossing is the moment between two looks at which the sun passes the horizon.
func (s sky) crossing(a, b look) float64 {
	for b.unix-a.unix > exactSeconds {
		middle := (a.unix + b.unix) / 2
		if height := s.height(middle); (height < 0) == (a.height < 0) {
			a = look{middle, height}
		} else {
			b = look{middle, height}
		}
	}
	return (a.unix + b.unix) / 2
}
