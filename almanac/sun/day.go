package sun

import (
	"fmt"
	"math"
	"time"

	"haulm/garden"
)

// A DayQuestion is what the verb "day" takes: a place in degrees, a civil date,
// and the zone whose date it is, as Zone reads it.
type DayQuestion struct {
	Lat      float64    `json:"lat"`
	Lon      float64    `json:"lon"`
	Day      garden.Day `json:"day"`
	TimeZone string     `json:"timeZone"`
}

// A DayAnswer is what the verb "day" gives. Times are RFC 3339 to the second with
// the zone's offset: when the upper limb rises and sets with standard refraction
// (the centre at −50′), the first rise and the last set of the date, and when the
// sun crosses the meridian (nearest to the date's middle, since one in hundreds has
// no crossing in a zone half the world away). A date may have only one of rise and set; on one with
// neither, Polar is "day" or "night". LengthHours is how long the sun is up in the
// date, to 0.01.
type DayAnswer struct {
	Rise        *string `json:"rise"`
	Transit     string  `json:"transit"`
	Set         *string `json:"set"`
	LengthHours float64 `json:"lengthHours"`
	Polar       string  `json:"polar"`
}

// horizonDeg is where the sun's centre stands at rise and set: 34′ of refraction
// and 16′ of its own radius under the horizon, as almanacs have it.
const horizonDeg = -50.0 / 60

// DayOf answers the verb "day". It fails, naming the field, on a place off the
// earth, a year outside firstYear to lastYear, an unknown zone, and a date that
// the zone left out when it changed sides of the date line.
func DayOf(q DayQuestion) (DayAnswer, error) {
	if err := checkPlace(q.Lat, q.Lon); err != nil {
		return DayAnswer{}, err
	}
	if err := checkYear("day", q.Day.Year()); err != nil {
		return DayAnswer{}, err
	}
	zone, err := Zone(q.TimeZone)
	if err != nil {
		return DayAnswer{}, err
	}
	sky := sky{q.Lat, q.Lon}
	from, to := startOf(q.Day, zone), startOf(q.Day+1, zone)
	if from >= to {
		return DayAnswer{}, fmt.Errorf("day %s was left out in %s: its clocks went over it", q.Day, q.TimeZone)
	}
	answer := sky.risings(from, to).answer(zone)
	answer.Transit = written(sky.transitNear((from+to)/2), zone)
	return answer, nil
}

// startOf is the first second, since 1970, at which a zone's calendar shows a
// date or a later one.
func startOf(day garden.Day, zone *time.Location) float64 {
	const widest = 16 * 60 * 60 // no zone is farther from UTC
	early, late := int64(day)*secondsPerDay-widest, int64(day)*secondsPerDay+widest
	for late-early > 1 {
		middle := (early + late) / 2
		if garden.DayOf(time.Unix(middle, 0).In(zone).Date()) >= day {
			late = middle
		} else {
			early = middle
		}
	}
	return float64(late)
}

func written(unix float64, zone *time.Location) string {
	return time.Unix(int64(math.Round(unix)), 0).In(zone).Format(time.RFC3339)
}
