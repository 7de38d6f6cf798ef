package growth

import (
	"math"

	"haulm/almanac/stats"
)

// findings are what the measures say, most pressing first. Probabilities are
// rounded before they are compared, so that every machine finds the same.
func (g *grown) findings(evidence []Evidence) []Finding {
	findings := []Finding{}
	if !g.own.measured {
		return findings
	}
	if f, found := g.small(evidence); found {
		findings = append(findings, f)
	}
	if g.way == bulb || len(g.heights) == 0 {
		return findings
	}
	if f, found := g.stalled(); found {
		findings = append(findings, f)
	}
	if f, found := g.outgrown(); found {
		findings = append(findings, f)
	}
	if f, found := g.reached(); found && len(findings) == 0 {
		findings = append(findings, f)
	}
	return findings
}

// stillTells says whether what was seen on a day tells how things are: of wood for a
// year and a bit, of what rises each year anew until it rises again.
func (g *grown) stillTells(day float64) bool {
	if c, rises := g.course.(*seasonal); rises {
		return c.spot(g.today).season <= c.spot(day).season
	}
	return g.today-day <= freshDays
}

// last is the last height measured, and whether it still tells how things are.
func (g *grown) last() (height, bool) {
	if len(g.heights) == 0 {
		return height{}, false
	}
	h := g.heights[len(g.heights)-1]
	return h, g.stillTells(h.day)
}

// small is small-for-age: the rate is probably under smallRate.
func (g *grown) small(evidence []Evidence) (Finding, bool) {
	h, fresh := g.last()
	if fresh = fresh && g.way != bulb; !fresh && len(evidence) == 0 || g.firstSeason() {
		return Finding{}, false
	}
	sure := stats.RoundProbability(stats.NormalCDF((math.Log(smallRate) - g.own.theta[ofRate]) / math.Sqrt(g.own.cov[ofRate][ofRate])))
	if sure < smallSure {
		return Finding{}, false
	}
	facts := []Evidence{}
	if fresh {
		facts = append(facts, g.measuredFact(h))
		facts = append(facts, g.grownFact()...)
		facts = append(facts, g.establishing(h)...)
	}
	facts = append(facts, evidence...)
	rate := spreadOf(g.own.theta[ofRate], g.own.cov[ofRate][ofRate])
	facts = append(facts, Evidence{Say: "rate", Rate: &Spread{stats.Round7(rate.P10), stats.Round7(rate.P50), stats.Round7(rate.P90)}})
	return Finding{SmallForAge, sure, facts, g.checks()}, true
}

// firstSeason says whether the planting is in its first season of several, in which
// it makes roots and nothing that is seen is to be expected of it.
func (g *grown) firstSeason() bool {
	since, known := g.settledSince()
	if !known || g.way == bulb || g.kind.LifeCycle == "annual" {
		return false
	}
	if c, rises := g.course.(*seasonal); rises && len(g.moves) == 0 {
		where := c.spot(g.today)
		return !where.known || c.rises[where.part].age <= 1
	}
	return seasonClock(g.today)-seasonClock(since) < 1
}

// checks are what to look at first, likeliest cause first.
func (g *grown) checks() []string {
	switch g.way {
	case bulb:
		return []string{"lifted", "drainage", "depth"}
	case herbaceous:
		return []string{"browsed", "light", "water", "crowded"}
	default:
		return []string{"light", "water", "roots"}
	}
}

// measuredFact is a height beside the band of its day.
func (g *grown) measuredFact(h height) Evidence {
	fact := Evidence{Say: "measured", Day: day(h.date), Cm: rounded(h.cm)}
	if where := g.course.spot(h.day); where.known {
		lo, mid, hi := g.percentiles(g.fitter.prior(), where, true)
		fact.ExpectedCm = pair(Spread{lo, mid, hi})
	}
	return fact
}

// establishing says that a woody planting is in one of its first three seasons.
func (g *grown) establishing(h height) []Evidence {
	w, isWoody := g.course.(*woody)
	since, known := g.settledSince()
	if !isWoody || !known || math.IsInf(w.planted, -1) && len(w.moves) == 0 {
		return nil
	}
	if season := int(math.Floor(seasonClock(h.day)-seasonClock(since))) + 1; season <= 3 {
		return []Evidence{{Say: "establishing", Season: season}}
	}
	return nil
}

// outgrown is a height that is probably well above the kind's range.
func (g *grown) outgrown() (Finding, bool) {
	h, fresh := g.last()
	top := g.kind.HeightCm[1]
	sure := stats.RoundProbability(stats.NormalCDF((h.cm - outgrownBy*top) / math.Max(measuringError(h.cm), 1e-9)))
	if !fresh || sure < outgrownSure {
		return Finding{}, false
	}
	lo := g.kind.HeightCm[0]
	facts := []Evidence{{Say: "range", Day: day(h.date), Cm: rounded(h.cm), ExpectedCm: pair(Spread{P10: lo, P90: top})}}
	return Finding{Outgrown, sure, facts, []string{"identity", "prune", "light"}}, true
}

// reached is a height that is probably at least reachedShare of the eventual one.
func (g *grown) reached() (Finding, bool) {
	h, fresh := g.last()
	where := g.course.spot(h.day)
	if !fresh || !where.judged || !g.newlyFull(where) {
		return Finding{}, false
	}
	o := g.size.own(g.own.theta)
	at := g.course.at(where, o)
	if at.cm <= 0 {
		return Finding{}, false
	}
	at.by[ofSize] -= at.cm * o.sizeSlope // of the height against the size
	_, variance := g.own.along(at)
	off := math.Log(at.cm) - o.logSize - math.Log(reachedShare)
	sure := stats.RoundProbability(stats.NormalCDF(off / math.Sqrt(variance+1e-12)))
	if sure < reachedSure {
		return Finding{}, false
	}
	size := g.size.spread(g.own.theta[ofSize], g.own.cov[ofSize][ofSize])
	facts := []Evidence{{Say: "range", Day: day(h.date), Cm: rounded(h.cm), ExpectedCm: pair(size)}}
	return Finding{Reached, sure, facts, []string{}}, true
}

// newlyFull says whether full size is news: for a kind that rises each year anew only
// in the first season that should have it.
func (g *grown) newlyFull(where spot) bool {
	c, rises := g.course.(*seasonal)
	if !rises {
		return true
	}
	now := c.rises[where.part]
	before, _ := g.shareIn(now.season - 1)
	return now.age > 0 && now.share >= reachedShare && before < reachedShare
}

func rounded(cm float64) *float64 {
	cm = stats.RoundCM(cm)
	return &cm
}

// pair is the outer percentiles of a length.
func pair(s Spread) *[2]float64 { return &[2]float64{stats.RoundCM(s.P10), stats.RoundCM(s.P90)} }
