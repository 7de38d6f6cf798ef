package assess

import (
	"math"

	"haulm/almanac/place"
	"haulm/almanac/stats"
	"haulm/garden"
)

// How large plantings are and will be. A claim that one takes another's room has
// to hold even when both stay as small as their kind allows, so room is reckoned
// from the least spread of the kind; how tall one stands from the middle of its
// range.

// fullGrowth makes a planting 95 % of its size at its kind's yearsToSize, as the
// growth model has it: −log 0.05.
const fullGrowth = 2.995732273553991

// daysInYear is the mean length of a year of the Gregorian calendar.
const daysInYear = 365.2425

// A plot is one planting with a known place, as it takes up room.
type plot struct {
	planting garden.Planting
	kind     garden.Kind
	since    *garden.PartialDate // when it was planted, or what it was moved from
	middle   garden.Point
	grown    float64  // share of its size that it has by its age, 0 to 1
	tallCM   float64  // when grown, in the middle of its kind's range
	measured *float64 // how tall it was measured of late, in cm; nil where it was not
	full     place.Room
	now      place.Room
	apart    bool // it neither takes nor wants room among others
	nth      int  // its place among the plots, from 0
	over     bool // nothing of it stands but what it sowed
}

// plots lists what of the round has a place on the plan, in round order.
func (e *Engine) plots(r *reckoned) []plot {
	var list []plot
	for _, planting := range r.round {
		kind, known := e.kind(planting.Kind)
		placed := planting.At != nil || len(planting.Area) >= 3
		if known && placed && kind.SpreadCm[1] > 0 {
			p := e.plot(r, planting, kind)
			p.nth = len(list)
			list = append(list, p)
		}
	}
	return list
}

func (e *Engine) plot(r *reckoned, planting garden.Planting, kind garden.Kind) plot {
	since := e.sincePlanted(planting)
	p := plot{planting: planting, kind: kind, since: since, grown: grownBy(since, kind, r.on), tallCM: (kind.HeightCm[0] + kind.HeightCm[1]) / 2,
		measured: e.measuredHeight(r, planting, kind), apart: apart(kind), over: isOver(planting, kind, r.on)}
	if len(planting.Area) >= 3 {
		p.full = place.Ground(planting.Area)
		p.now = p.full
		p.middle = p.full.Middle()
		return p
	}
	p.middle = *planting.At
	now := radiusM(planting, kind, p.grown)
	if measured := e.measuredSpread(planting, r.on); measured != nil {
		now = stats.Round7(*measured / 200)
	}
	p.now, p.full = place.Disc(p.middle, now), place.Disc(p.middle, math.Max(now, radiusM(planting, kind, 1)))
	return p
}

// radiusM is the radius of the ground that a planting covers at a share of its
// size: of a group, a disc as large as those of all of it side by side.
func radiusM(planting garden.Planting, kind garden.Kind, share float64) float64 {
	number := 1.0
	if planting.Count != nil && *planting.Count > 1 {
		number = float64(*planting.Count)
	}
	return stats.Round7(kind.SpreadCm[0] / 200 * share * math.Sqrt(number))
}

// grownBy is the share of its size that a planting has by its age alone.
func grownBy(planted *garden.PartialDate, kind garden.Kind, on garden.Day) float64 {
	if planted == nil {
		return 1
	}
	years := math.Max(0, float64(on-planted.Middle())) / daysInYear
	return stats.RoundProbability(1 - math.Exp(-fullGrowth*years/yearsToSize(kind)))
}

// The catalogue's middle years to size, for a kind of which nobody said them.
const treeYears, shrubYears, otherYears = 15, 6, 3

func yearsToSize(kind garden.Kind) float64 {
	switch {
	case kind.YearsToSize > 0:
		return kind.YearsToSize
	case kind.Habit == "tree":
		return treeYears
	case kind.Habit == "shrub":
		return shrubYears
	}
	return otherYears
}

// grownYear is the year in which a planting has its size.
func (p *plot) grownYear() int {
	if p.since == nil {
		return 0
	}
	return (p.since.Middle() + garden.Day(math.Ceil(yearsToSize(p.kind)*daysInYear))).Year()
}

// standsCM is how tall a plot stands, in cm: as it was measured, else by its age.
func (p *plot) standsCM() float64 {
	if p.measured != nil {
		return *p.measured
	}
	return p.tallCM * p.grown
}

// measuredLasts days is how long a measured spread, or height of wood, is still
// that of the plant: a growing season.
const measuredLasts = 365

// measuredHeight is the last height of a tree or a shrub of late, in cm: measured,
// left by the secateurs or brought from the nursery; nil where none is known. What
// dies down is measured at any height between winter and flower, and says nothing
// of another day.
func (e *Engine) measuredHeight(r *reckoned, planting garden.Planting, kind garden.Kind) *float64 {
	if !woody(kind) {
		return nil
	}
	var last *float64
	day := r.on - measuredLasts // of the last; nothing from before it is taken
	if planting.Planted != nil && planting.Planted.Last >= day {
		last, day = planting.HeightCm, planting.Planted.Last
	}
	looks := e.looks.until(planting.ID, r.on)
	for i := len(looks) - 1; i >= 0 && looks[i].day >= day; i-- {
		if looks[i].HeightCm != nil {
			last, day = looks[i].HeightCm, looks[i].day
			break
		}
	}
	works := r.works[planting.ID]
	for i := len(works) - 1; i >= 0 && *works[i].Day >= day; i-- {
		if works[i].HeightLeftCm != nil {
			return works[i].HeightLeftCm
		}
	}
	return last
}

// measuredSpread is the last spread measured on a single plant; nil when none was
// of late.
func (e *Engine) measuredSpread(planting garden.Planting, on garden.Day) *float64 {
	if planting.Count != nil && *planting.Count > 1 {
		return nil
	}
	looks := e.looks.until(planting.ID, on)
	for i := len(looks) - 1; i >= 0 && looks[i].day >= on-measuredLasts; i-- {
		if looks[i].SpreadCm != nil {
			return looks[i].SpreadCm
		}
	}
	return nil
}

// isOver tells whether a planting is of a kind that lives a year or two and that
// time is over, so that nothing of it stands but what it sowed: that is told of
// where it is seen, and nothing of its place or the weather.
func isOver(planting garden.Planting, kind garden.Kind, on garden.Day) bool {
	if planting.Planted == nil {
		return false
	}
	years := on.Year() - planting.Planted.Middle().Year()
	return kind.LifeCycle == "annual" && years >= 1 || kind.LifeCycle == "biennial" && years >= 2
}
