package assess

import (
	"math"
	"time"

	"haulm/garden"
)

// What sleeps under the soil is not to be dug into: from when its tops have died
// until when it should certainly be up again, or was seen up.

const (
	// bulbLeafDays after flower a bulb's leaves have withered, as in the growth
	// model (common practice: left for six weeks).
	bulbLeafDays = 42
	// latestUpDays after its kind's window, and not later, a planting may still come
	// up: beyond it the model of coming up is not asked.
	latestUpDays = 45
	// nearUpDays before the end of its kind's window the season begins to tell when
	// it comes up: earlier there is hardly a season yet.
	nearUpDays = 30
	// lateUpDays after the window nearly all of a kind are up: a cold spring and a
	// slow plant, each a week or so.
	lateUpDays = 21
)

// topsDie is the day of the catalogue's year by which the first frosts have cut down
// what dies down, as in the growth model (common practice).
func topsDie() garden.MonthDay { return garden.MonthDay{Month: time.October, Day: 31} }

// sleepFindings says of a planting that sleeps until when nobody should dig there.
func (e *Engine) sleepFindings(r *reckoned, planting garden.Planting, kind garden.Kind) []Finding {
	if kind.Emerges == nil || isWood(kind) || !e.maySleep(r, planting, kind) {
		return nil
	}
	until, known := e.sleepsUntil(r, planting, kind)
	if !known || r.on > until || r.on < e.sleepsFrom(r, planting, kind, until) {
		return nil
	}
	return []Finding{{Planting: planting.ID, Year: until.Year(), Verdict: "dormant",
		Evidence: []Evidence{{Say: "asleep-until", Day: &until}}, Check: []string{}}}
}

// sleepsUntil is when a planting should certainly be up: while that is far off, by
// its kind's usual window and lateUpDays; when it comes near, by the model of
// coming up, which knows the season and the planting's own years. False where it
// is up, or nothing is to be expected.
func (e *Engine) sleepsUntil(r *reckoned, planting garden.Planting, kind garden.Kind) (until garden.Day, known bool) {
	next := e.usually(r, kind.Emerges.To, r.on.Year())
	if next < r.on-latestUpDays {
		next = e.usually(r, kind.Emerges.To, r.on.Year()+1)
	}
	if next > r.on+nearUpDays {
		return next + lateUpDays, planting.Ended == nil
	}
	coming, known := e.life(r).Coming(planting.ID)
	return dayOf(coming.Year, math.Ceil(coming.Open.P95)), known
}

// maySleep tells, from its kind's usual year and the last look alone, whether a
// planting may be under the soil on a day: not while all of its kind stand, nor
// when it was seen up, unless it was seen to go down.
func (e *Engine) maySleep(r *reckoned, planting garden.Planting, kind garden.Kind) bool {
	last := lastLife(e.looks.until(planting.ID, r.on), false)
	switch {
	case last != nil && wentDown(last):
		return true
	case last != nil && r.on-last.day < halfYear && r.on < e.downAfter(r, kind, last.day):
		return false // seen up, and it has not had time to go down
	}
	for year := r.on.Year() - 1; year <= r.on.Year(); year++ {
		up := e.usually(r, kind.Emerges.To, year)
		if r.on > up+latestUpDays && r.on < e.downAfter(r, kind, up) {
			return false
		}
	}
	return true
}

// sleepsFrom is when the tops of a planting died before it comes up again: when it
// was seen so, or else when they usually have.
func (e *Engine) sleepsFrom(r *reckoned, planting garden.Planting, kind garden.Kind, until garden.Day) garden.Day {
	up := until - lateUpDays - measuredLasts
	down := e.downAfter(r, kind, up)
	last := lastLife(e.looks.until(planting.ID, r.on), false)
	switch {
	case last == nil || last.day < up:
		return down
	case wentDown(last):
		return min(down, last.day)
	}
	return max(down, last.day+1)
}

func wentDown(s *seen) bool { return s.Up == "not-up" || s.Up == "dying-back" }

// downAfter is when a kind that has come up has usually gone down again: a bulb so
// long after its flower, another by the frosts.
func (e *Engine) downAfter(r *reckoned, kind garden.Kind, up garden.Day) garden.Day {
	date, later := topsDie(), garden.Day(0)
	if kind.Habit == "bulb" && len(kind.Bloom) > 0 {
		date, later = kind.Bloom[0].To, bulbLeafDays
	}
	for year := up.Year(); ; year++ {
		if down := e.usually(r, date, year) + later; down > up {
			return down
		}
	}
}
