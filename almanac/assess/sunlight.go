package assess

import (
	"math"
	"reflect"
	"time"

	"haulm/almanac/stats"
	"haulm/almanac/sun"
	"haulm/garden"
)

// Sun at a planting: hours a day over the time in which its kind uses them, in the
// shade of structures and of the garden's own trees and shrubs.

// What of the plantings casts shade on others.
const (
	// castsFromCM is how tall a tree or shrub must be: lower ones shade what stands
	// beneath them, which is crowding.
	castsFromCM = 150
	// plantDensity is the share of the sun that a crown in leaf takes (common
	// practice: from half under a birch to nearly all under a yew).
	plantDensity = 0.8
	// clearStem is the share of a tree's height below its crown.
	clearStem = 1.0 / 3
	// mostCasting trees and shrubs are looked at, the first of the round: of more no
	// plan is drawn so well that their shade would be true.
	mostCasting = 200
	// spotM and spotHeightM are how near two spots have the same sun, in metres: as
	// near as a plan is drawn.
	spotM, spotHeightM = 0.25, 0.25
	// mostSunned plantings, the first of the round, have their sun reckoned: more
	// would take longer than a person waits. mostKept spots are remembered, with room
	// for plantings that come, go and move.
	mostSunned, mostKept = 1500, 6000
)

// A sunlight keeps the sun of a garden's plantings for one year, since what makes
// it seldom changes and reckoning it takes long.
type sunlight struct {
	here   sun.Place
	prisms []sun.Prism
	year   int
	site   *sun.Site // nil where the garden's place is not known
	hours  map[spot]sun.Hours
}

// A spot is a point of the plan at a height, and the time for which its sun is
// asked.
type spot struct {
	at      garden.Point
	heightM float64
	season  sun.Season
}

// sunlight gives the sun of the year, kept as long as nothing that makes it has
// changed; nil where the garden's place is not known.
func (e *Engine) sunlight(r *reckoned) *sunlight {
	here := e.garden()
	if here.Lat == nil || here.Lon == nil {
		return nil
	}
	now := sunlight{here: sun.Place{Lat: *here.Lat, Lon: *here.Lon, PlanBearingDeg: here.PlanBearingDeg}, prisms: e.prisms(r, here), year: r.on.Year()}
	if kept := e.sun; kept != nil && kept.here == now.here && kept.year == now.year && reflect.DeepEqual(kept.prisms, now.prisms) {
		return kept
	}
	site, err := sun.NewSite(now.here, now.prisms)
	if err != nil {
		return nil // more than any garden has: nothing is told of it
	}
	now.site, now.hours = site, map[spot]sun.Hours{}
	e.sun = &now
	return e.sun
}

// prisms lists what casts shade: structures, and the trees and shrubs of this year.
func (e *Engine) prisms(r *reckoned, here garden.Garden) []sun.Prism {
	out, fall := sun.LeafDates(*here.Lat, here.Normals)
	var prisms []sun.Prism
	add := func(s garden.Structure) {
		if prism, casts := sun.PrismOf(s); casts {
			prism.LeafOut, prism.LeafFall = &out, &fall
			prisms = append(prisms, prism)
		}
	}
	for _, id := range sortedKeys(e.structures) {
		add(e.structures[id])
	}
	casting := 0
	for i := range r.plots {
		p := &r.plots[i]
		if !woody(p.kind) || casting == mostCasting {
			continue
		}
		if tall := p.tallThisYear(r.on); tall >= castsFromCM {
			add(p.structure(tall))
			casting++
		}
	}
	return prisms
}

// tallThisYear is how tall a plot stands, in cm: as it was measured, else by its age
// in the middle of a day's year, so that its shade is the same all year.
func (p *plot) tallThisYear(on garden.Day) float64 {
	if p.measured != nil {
		return math.Round(*p.measured)
	}
	return math.Round(p.tallCM * grownBy(p.since, p.kind, garden.DayOf(on.Year(), 7, 1)))
}

// structure is a tree or shrub as what casts shade.
func (p *plot) structure(tallCM float64) garden.Structure {
	density, heightM := plantDensity, tallCM/100
	s := garden.Structure{Form: "tree", Outline: p.full.Outline(), HeightM: &heightM, Leaf: "deciduous", Density: &density}
	if p.kind.Foliage == "evergreen" || p.kind.Foliage == "semi-evergreen" {
		s.Leaf = "evergreen"
	}
	if p.kind.Habit == "tree" {
		s.BaseM = stats.Round7(heightM * clearStem)
	}
	return s
}

// at gives a plot's hours a day over the time in which its kind uses them: the
// growing season, and of bulbs the months about their flower, when they have leaf.
// They are taken at the plot's own top, which is above its own shade.
func (s *sunlight) at(p *plot, on garden.Day) sun.Hours {
	where := spot{season: sun.SeasonAt(s.here.Lat)}
	if p.kind.Habit == "bulb" && len(p.kind.Bloom) > 0 {
		where.season = s.flowerTime(p.kind.Bloom[0])
	}
	if len(s.prisms) > 0 { // else the open sky is the same everywhere
		where.at = garden.Point{nearest(p.middle[0], spotM), nearest(p.middle[1], spotM)}
		where.heightM = math.Ceil(p.tallThisYear(on)/100/spotHeightM) * spotHeightM
	}
	hours, known := s.hours[where]
	if !known {
		hours = meanOver(s.site.Point(where.at, where.heightM), s.year, where.season)
		s.keep(where, hours)
	}
	return hours
}

// flowerTime is the time of a window of the catalogue's, which in the south is half a
// year off.
func (s *sunlight) flowerTime(window garden.BloomWindow) sun.Season {
	if s.here.Lat >= 0 {
		return sun.Season{From: window.From, To: window.To}
	}
	const anyYear = 2001 // not a leap year
	return sun.Season{From: monthDay(window.From.In(anyYear) + halfYear), To: monthDay(window.To.In(anyYear) + halfYear)}
}

// keep remembers the hours of a spot, and begins anew when there are too many.
func (s *sunlight) keep(where spot, hours sun.Hours) {
	if len(s.hours) >= mostKept {
		clear(s.hours)
	}
	s.hours[where] = hours
}

func nearest(x, step float64) float64 { return math.Round(x/step) * step }

// meanDays are the days of each month, January first, on which the sun stands as
// in the month's mean (Klein 1977, Solar Energy 19:325, table 1).
func meanDays() [12]int { return [12]int{17, 16, 16, 15, 15, 11, 17, 16, 15, 15, 14, 10} }

// meanOver gives the mean hours a day over the months of a year whose mean day lies
// in a season; where none does, those of the day on which it starts.
func meanOver(p *sun.Point, year int, season sun.Season) sun.Hours {
	var sum sun.Hours
	months := 0.0
	for i, date := range meanDays() {
		if day := garden.DayOf(year, time.Month(i+1), date); season.Has(day) {
			hours := p.Day(day)
			sum.Total, sum.Before, sum.After = sum.Total+hours.Total, sum.Before+hours.Before, sum.After+hours.After
			months++
		}
	}
	if months == 0 {
		return p.Day(season.From.In(year))
	}
	return sun.Hours{Total: stats.RoundHours(sum.Total / months), Before: stats.RoundHours(sum.Before / months), After: stats.RoundHours(sum.After / months)}
}
