package bloom

import (
	"math"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// Reckon fits the model to a garden's plantings as they were known on a day.
func Reckon(here Here, kinds []garden.Kind, plants []Plant, on garden.Day) *Model {
	m := Fit(Flushes(here, kinds, plants, on), on)
	m.movedDays = moveTo(here.Garden).days
	return m
}

// LatenessDays is how many days later than at the catalogue's reference site
// spring comes to the garden in its usual year: the catalogue's move to it, and
// what the garden's own years have taught. It is rounded to 0.1.
func (m *Model) LatenessDays() float64 { return stats.RoundDays(m.movedDays + m.globals[0]) }

// Fit fits the model to flushes as they were known on a day. A flush that is
// past its time without flower, never while bud was the last thing seen, is
// closed and leaves the fit; what is past its time is first judged by the
// catalogue alone, then by what the garden has taught.
func Fit(flushes []Flush, on garden.Day) *Model {
	flushes = sortedFlushes(slices.Clone(flushes))
	for i := range flushes {
		flushes[i].closeIfPast(flushes[i].beforehand(), on)
	}
	learnFlowering(flushes)
	m := modelOf(flushes, on, nil)
	if m.closePast() {
		return modelOf(flushes, on, nil)
	}
	return m
}

// closePast closes what the fit says is past, and tells whether any of it had
// a part in the fit.
func (m *Model) closePast() (changed bool) {
	for i := range m.flushes {
		f := &m.flushes[i]
		if f.mayClose(m.on) && f.closeIfPast(m.alone(i), m.on) {
			changed = changed || f.After != nil
		}
	}
	return changed
}

// mayClose says whether a flush has been open to judging long enough to be past.
func (f *Flush) mayClose(on garden.Day) bool {
	return f.Standing.Kind == Open && f.By == nil && f.Seen.LastWas != "bud" && f.ofYear(on) > f.Expected
}

// closeIfPast closes a flush without flower once it is over with chance closesAt.
func (f *Flush) closeIfPast(cast forecast, on garden.Day) bool {
	if !f.mayClose(on) || cast.closesBy(f.ofYear(on), f) < closesAt {
		return false
	}
	f.Standing = Standing{Kind: Closed}
	return true
}

// beforehand is the forecast from the catalogue alone.
func (f *Flush) beforehand() forecast {
	variance := f.SD*f.SD + sdGarden*sdGarden + f.SeasonSD*f.SeasonSD + sdHabit*sdHabit + sdChance*sdChance
	if f.FirstSeason {
		variance += sdFirstSeason * sdFirstSeason
	}
	return forecast{mean: f.Expected + f.LaterDays + heatResponse*f.HeatDays, sd: math.Sqrt(variance), alone: true}
}
