package bloom

import (
	"cmp"
	"math"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A Worth is what one look on the model's day would settle of one flush. The open
// question is whether the plant flowers as others do, or something is the matter:
// it is late for a cause of its own, or shows no flower this year. Being early or on
// time is one answer to it, as neither asks anything of anybody.
type Worth struct {
	Plant       string
	Year, Flush int
	// Bits is how much less unsure of that question one is on average after the look
	// (Lindley 1956, Annals of Mathematical Statistics 27:986), 0 to 1. It is 0 when
	// whatever is seen leaves the same verdict. Rounded to 0.001, as the chances.
	Bits float64
	// Opened is the chance that it has opened by now, unseen; InFlower that flower is
	// there to be seen; Over that it has come and gone.
	Opened, InFlower, Over float64
	LastLook               *garden.Day // that told of flower; nil for none this season
	// Now is the verdict before the look, Shut after one that finds no flower.
	Now, Shut Verdict
}

// Worth tells what a look would settle of each of a planting's flushes whose time
// has come and which was not seen to open, by year and window. What is expected of a
// flush is reckoned without its own season's looks, so that one look more leaves it
// as it is, and only the looks are read again.
func (m *Model) Worth(plant string) []Worth {
	var worths []Worth
	for _, i := range m.of(plant) {
		f := &m.flushes[i]
		open := f.Standing.Kind == Open || f.Standing.Kind == Closed
		if !open || f.By != nil || !f.near(m.on) {
			continue
		}
		if cast := m.forecast(i); cast.current(f, f.ofYear(m.on)) {
			worths = append(worths, m.worth(i, cast))
		}
	}
	return worths
}

func (m *Model) worth(i int, cast forecast) Worth {
	f := &m.flushes[i]
	w := Worth{Plant: f.Plant, Year: f.Year, Flush: f.Index, LastLook: f.Seen.LastLook, Now: f.verdict(cast, m.on)}
	o := f.outlookOn(cast, m.on)
	w.Opened, w.InFlower, w.Over = stats.RoundProbability(o.opened), stats.RoundProbability(o.inFlower), stats.RoundProbability(o.over)
	shut, shutTells := m.seenAs(i, nothing, cast)
	open, openTells := m.seenAs(i, flower, cast)
	w.Shut = shut.verdict(cast, m.on)
	if openTells && shutTells && open.verdict(cast, m.on) != w.Shut {
		w.Bits = stats.RoundProbability(o.bits())
	}
	return w
}

// verdict is what is said of a flush on a day.
func (f *Flush) verdict(cast forecast, on garden.Day) Verdict {
	var j Judgement
	j.call(f, cast, f.ofYear(on))
	return j.Verdict
}

// An openQuestion is what may be the matter with a flush by the looks so far, and
// what a look would find, as chances.
type openQuestion struct {
	amiss                  float64 // something is the matter
	met                    float64 // flower is met, where nothing is
	opened, inFlower, over float64 // all told
}

// outlookOn gives the open question of a flush. What flowers as others do passes the
// looks so far unmet by so much of a chance; what does not always passes them.
func (f *Flush) outlookOn(cast forecast, on garden.Day) openQuestion {
	end, after := cast.closing(f), math.Inf(-1)
	if f.Seen.LastBud != nil {
		after = f.ofYear(*f.Seen.LastBud)
	}
	day, looks := f.ofYear(on), f.lookDays()
	before := end.unmet(after, looks)
	then := end.unmet(after, append(looks, day))
	well := f.flowersWell() * before
	if before == 0 {
		return openQuestion{amiss: 1}
	}
	q := openQuestion{amiss: 1 - well/(well+1-f.flowersWell()), met: math.Max(0, 1-then/before)}
	q.inFlower = (1 - q.amiss) * q.met
	q.over = (1 - q.amiss) * math.Max(0, then-cast.beyond(day)) / before
	q.opened = q.inFlower + q.over
	return q
}

// flowersWell is the chance, before any look of the year, that a flush comes and
// nothing holds it back. A bud leaves no doubt that it comes.
func (f *Flush) flowersWell() float64 {
	if f.Seen.LastWas == "bud" {
		return 1 - ailing
	}
	return f.Flowers * (1 - ailing)
}

// bits is how much less unsure one is on average of whether something is the matter
// once one has looked, and either stage may have been misread.
func (q openQuestion) bits() float64 {
	seen := misread + (1-2*misread)*q.met // where nothing is the matter
	found := (1-q.amiss)*seen + q.amiss*misread
	left := found*stats.Unsure(q.amiss*misread/found) + (1-found)*stats.Unsure(q.amiss*(1-misread)/(1-found))
	return math.Max(0, stats.Unsure(q.amiss)-left)
}

// seenAs is a flush as it would stand after a look on the model's day; false where
// such a look would be taken to be about another flush, or none.
func (m *Model) seenAs(i int, what sighting, cast forecast) (Flush, bool) {
	turns, at := m.turnsOf(i)
	s := sight{day: m.on, what: what}
	if whose(turns, s, nil, lastFlowering(turns)) != at {
		return m.flushes[i], false
	}
	t := turns[at]
	t.seen = append(slices.Clone(t.seen), s)
	t.readAfresh()
	if t.By != nil {
		t.Standing = Standing{Kind: Open}
	}
	t.closeIfPast(cast, m.on)
	return t.Flush, true
}

// turnsOf lists a planting's flushes by opening, with the place among them of one.
func (m *Model) turnsOf(flush int) (turns []turn, at int) {
	for _, i := range m.of(m.flushes[flush].Plant) {
		f := m.flushes[i]
		opens := f.newYear() + f.Expected - 1
		turns = append(turns, turn{Flush: f, opens: opens, ends: opens + f.LengthDays})
	}
	slices.SortStableFunc(turns, func(a, b turn) int { return cmp.Compare(a.opens, b.opens) })
	f := &m.flushes[flush]
	return turns, slices.IndexFunc(turns, func(t turn) bool { return t.Year == f.Year && t.Index == f.Index })
}

// lastFlowering is the last turn in which bud or flower was seen, 0 for none.
func lastFlowering(turns []turn) (last int) {
	for i := range turns {
		if turns[i].has(bud) || turns[i].has(flower) {
			last = i
		}
	}
	return last
}
