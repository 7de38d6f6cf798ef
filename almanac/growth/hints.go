package growth

import (
	"math"

	"haulm/garden"
)

// addHints gives the fit what tells of the rate besides height: the spread and the
// flower stems of herbaceous clumps, and the number of bulbs. It returns the facts
// to show with a finding.
func (g *grown) addHints(in *Input) []Evidence {
	switch g.way {
	case herbaceous:
		facts := append(g.addSpread(in), g.addStems(in)...)
		if _, fresh := g.last(); len(facts) > 0 && !fresh {
			g.fitter.rows = nil // an older season's height says nothing of this one's rate
		}
		return facts
	case bulb:
		g.fitter.rows, g.fitter.hints = nil, nil // the height of a bulb tells of its kind
		return g.addNumber(in)
	}
	return nil
}

// latest is the last measure up to today that a test accepts on its day.
func (g *grown) latest(in *Input, accepts func(Measure, spot) bool) (Measure, spot, bool) {
	var best Measure
	var at spot
	found := false
	for _, m := range in.Measures {
		if m.Day > in.On || found && m.Day <= best.Day {
			continue
		}
		if where := g.course.spot(g.calendar.in(m.Day)); where.known && accepts(m, where) {
			best, at, found = m, where, true
		}
	}
	return best, at, found
}

// addSpread compares the last spread of a clump in growth with that of its age.
func (g *grown) addSpread(in *Input) []Evidence {
	m, where, found := g.latest(in, func(m Measure, s spot) bool {
		return m.SpreadCm != nil && *m.SpreadCm > 0 && s.judged && g.stillTells(g.calendar.in(m.Day))
	})
	if !found || in.Kind.SpreadCm[1] <= 0 {
		return nil
	}
	usual := priorOf(in.Kind.SpreadCm)
	mean := usual.mean + math.Log(g.rise(where).share)
	sd := math.Sqrt(usual.sd*usual.sd + spreadMeasuring*spreadMeasuring + seasonSD*seasonSD)
	g.fitter.hints = append(g.fitter.hints, hint{ofRate, math.Log(*m.SpreadCm) - mean, sd})
	band := spreadOf(mean, rateSD*rateSD+sd*sd)
	return []Evidence{{Say: "spread", Day: &m.Day, Cm: rounded(*m.SpreadCm), ExpectedCm: pair(band)}}
}

func (g *grown) rise(s spot) rise { return g.course.(*seasonal).rises[s.part] }

// addStems compares the flower stems of the last season with those of the one
// before, each at its best, once flower has been under way.
func (g *grown) addStems(in *Input) []Evidence {
	last, where, found := g.latest(in, func(m Measure, s spot) bool {
		return m.Stems != nil && g.stillTells(g.calendar.in(m.Day)) && g.calendar.in(m.Day) > g.rise(s).full+standsAfterFlower
	})
	if !found {
		return nil
	}
	now, before := g.mostStems(in, where.season), g.mostStems(in, where.season-1)
	earlier, grew := g.shareIn(where.season - 1)
	if before < fewestStems || !grew {
		return nil
	}
	usual := math.Log(g.rise(where).share / earlier)
	g.fitter.hints = append(g.fitter.hints, hint{ofRate, math.Log(math.Max(0.5, float64(now))/float64(before)) - usual, stemsSD})
	return []Evidence{{Say: "stems", Day: &last.Day, Count: &now, CountBefore: &before}}
}

func (g *grown) mostStems(in *Input, season int) int {
	most := 0
	for _, m := range in.Measures {
		if m.Stems == nil || m.Day > in.On {
			continue
		}
		if where := g.course.spot(g.calendar.in(m.Day)); where.known && where.season == season {
			most = max(most, *m.Stems)
		}
	}
	return most
}

// shareIn is the share of its size that the planting had in a season.
func (g *grown) shareIn(season int) (float64, bool) {
	for _, r := range g.course.(*seasonal).rises {
		if r.season == season && r.plain {
			return r.share, true
		}
	}
	return 0, false
}

// addNumber compares the bulbs alive in the last season, at the most counted while
// they could be seen, with those planted.
func (g *grown) addNumber(in *Input) []Evidence {
	if in.Count == nil || *in.Count <= 0 {
		return nil
	}
	seen := func(m Measure, s spot) bool {
		day := g.calendar.in(m.Day)
		return m.Alive != nil && g.stillTells(day) && g.rise(s).plain && day >= g.rise(s).full && day <= g.rise(s).end
	}
	last, where, found := g.latest(in, seen)
	if !found {
		return nil
	}
	most := 0
	for _, m := range in.Measures {
		if m.Day <= in.On && m.Alive != nil {
			if s := g.course.spot(g.calendar.in(m.Day)); s.known && s.season == where.season && seen(m, s) {
				most = max(most, *m.Alive)
			}
		}
	}
	off := math.Log(math.Max(0.5, float64(most)) / float64(*in.Count))
	g.fitter.hints = append(g.fitter.hints, hint{ofRate, off, numberSD})
	planted := *in.Count
	return []Evidence{{Say: "number", Day: &last.Day, Count: &most, CountBefore: &planted}}
}

func day(d garden.Day) *garden.Day { return &d }
