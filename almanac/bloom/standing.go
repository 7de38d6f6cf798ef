package bloom

import (
	"cmp"
	"slices"

	"haulm/garden"
)

// settle says how a flush stands: whether it can be judged and learnt from, and
// whether it is the planting's first season. The turns' sights have been read.
func (p Plant) settle(here moved, kind *garden.Kind, turns []turn, i int) {
	t := &turns[i]
	season := p.seasonOf(t)
	if season == 1 {
		t.FirstSeason, t.LaterDays = true, laterInFirstSeason(p.Form)
	}
	t.Standing, t.Flowers = Standing{}, flowersByAge(kind, p.ageAt(t), p.flowered(turns[:i]), t.Index)
	standing := cmp.Or(p.outside(here), p.bought(t), p.moved(t), p.harmed(here, t),
		p.tooYoung(kind, turns, i), p.waits(kind, turns, i), p.done(kind, turns, i))
	if standing != nil {
		t.Standing = *standing
	}
}

// outside: nothing is expected beyond the catalogue's latitudes, and plants
// under cover live in another climate.
func (p Plant) outside(here moved) *Standing {
	switch {
	case !here.trusted:
		return &Standing{Kind: NoExpectation, What: "latitude"}
	case p.Cover != "" && p.Cover != "none":
		return &Standing{Kind: Outside, What: p.Cover}
	}
	return nil
}

// seasonOf counts the flowering season since planting from 1; 0 is not known,
// or before planting.
func (p Plant) seasonOf(t *turn) int { return t.seasonSince(p.Planted) }

// ageAt counts it since the first of its forebears was planted.
func (p Plant) ageAt(t *turn) int {
	if p.Before != nil {
		return t.seasonSince(p.Before.Planted)
	}
	return p.seasonOf(t)
}

func (t *turn) seasonSince(planted *garden.PartialDate) int {
	if planted == nil || t.opens < float64(planted.Middle()) {
		return 0
	}
	return 1 + int((t.opens-float64(planted.Middle()))/yearDays)
}

// bought: what was planted in bud or in flower, or just before, tells how the
// nursery grew it.
func (p Plant) bought(t *turn) *Standing {
	if p.Planted == nil {
		return nil
	}
	planted := p.Planted.Middle()
	first := t.Seen.FirstFlower
	if since := t.opens - float64(planted); since < boughtOpenDays || first != nil && *first < planted+boughtOpenDays {
		return &Standing{Kind: Suspended, Day: &planted, What: "planted"}
	}
	return nil
}

// moved: a planting lifted from elsewhere sulks in its first season.
func (p Plant) moved(t *turn) *Standing {
	if p.From == nil || p.seasonOf(t) != 1 || !slices.Contains([]string{"moved", "divided", "lifted"}, p.From.How) {
		return nil
	}
	day := p.Planted.Middle()
	return &Standing{Kind: Suspended, Day: &day, What: p.From.How}
}

// tooYoung: before its kind's years to flower nothing is expected, unless it has
// flowered already.
func (p Plant) tooYoung(kind *garden.Kind, turns []turn, i int) *Standing {
	season := p.ageAt(&turns[i])
	if p.flowered(turns[:i+1]) || season == 0 || float64(season) >= kind.YearsToFlower {
		return nil
	}
	day := p.Planted.Middle()
	return &Standing{Kind: Establishing, Day: &day}
}

// flowered says whether it, or what it was before, was seen to flower in some flushes.
func (p Plant) flowered(turns []turn) bool {
	return p.Before != nil && p.Before.Flowered || floweredIn(turns)
}

// floweredIn says whether any of some flushes was seen to open.
func floweredIn(turns []turn) bool {
	return slices.ContainsFunc(turns, func(t turn) bool { return t.By != nil })
}

// waits: a later flush is expected only after the one before it has ended and
// the work that it needs was done; once seen, it has come.
func (p Plant) waits(kind *garden.Kind, turns []turn, i int) *Standing {
	t := &turns[i]
	if t.Index == 0 || t.By != nil {
		return nil
	}
	before := i - 1
	for before >= 0 && turns[before].Index != t.Index-1 {
		before--
	}
	if before < 0 || turns[before].EndBy == nil {
		return &Standing{Kind: Waiting, What: "first-flush"}
	}
	needs := kind.Bloom[t.Index].Needs
	if needs == "" || p.workedSince(needs, *turns[before].Seen.Over-garden.Day(turns[before].LastsDays)) {
		return nil
	}
	return &Standing{Kind: Waiting, Day: turns[before].Seen.Over, What: needs}
}

// workedSince says whether a work was done after a day.
func (p Plant) workedSince(what string, day garden.Day) bool {
	return slices.ContainsFunc(p.Work, func(w garden.Work) bool { return w.What == what && *w.Day > day })
}

// done: what was lifted or died before its time is over is not waited for;
// annuals flower in their first season, biennials by their second, and
// what dies of flowering flowers once.
func (p Plant) done(kind *garden.Kind, turns []turn, i int) *Standing {
	season := p.seasonOf(&turns[i])
	flowered := slices.ContainsFunc(turns[:i], func(t turn) bool { return t.By != nil && t.Year < turns[i].Year })
	if turns[i].By != nil {
		return nil
	}
	if p.Ended != nil && float64(*p.Ended) < turns[i].ends {
		return &Standing{Kind: NoExpectation, Day: p.Ended, What: "ended"}
	}
	if kind.LifeCycle == "annual" && season > 1 || kind.LifeCycle == "biennial" && (season > 2 || flowered) || kind.LifeCycle == "monocarpic" && flowered {
		return &Standing{Kind: NoExpectation, What: kind.LifeCycle}
	}
	return nil
}
