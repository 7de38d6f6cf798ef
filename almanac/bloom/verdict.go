package bloom

import (
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// Judgements judges every planting's flushes of this season, by kind and then
// planting.
func (m *Model) Judgements() []Judgement {
	var all []Judgement
	for i := range m.flushes {
		if j, told := m.judge(i); told {
			all = append(all, j)
		}
	}
	return all
}

// Judge judges one planting's flushes of this season: those whose time has come
// or that were seen, each with all that the planting showed this season left out.
func (m *Model) Judge(plant string) []Judgement {
	var told []Judgement
	for _, i := range m.of(plant) {
		if j, ok := m.judge(i); ok {
			told = append(told, j)
		}
	}
	return told
}

// judge judges one flush; ok is false when it is not of this season or its time
// has not come.
func (m *Model) judge(i int) (j Judgement, ok bool) {
	f := &m.flushes[i]
	if !f.near(m.on) {
		return Judgement{}, false
	}
	cast := m.forecast(i)
	on := f.ofYear(m.on)
	if !cast.current(f, on) {
		return Judgement{}, false
	}
	j = Judgement{Plant: f.Plant, Year: f.Year, Flush: f.Index}
	switch f.Standing.Kind {
	case Open, Closed:
		j.Expect = m.expectation(i, cast)
		m.read(&j, f, cast, on)
	default:
		j.standing(f)
	}
	return j, true
}

// near says whether a flush can be of this season at all, without reckoning.
func (f *Flush) near(on garden.Day) bool {
	if f.Year == on.Year()-1 {
		return f.Expected+f.LastsDays+upcomingDays > yearDays
	}
	return f.Year >= on.Year()
}

// current says whether a flush is of this season and its time has come: it has
// been seen, or one in ten like it are open. A flush of last year is current
// while it may still be in flower.
func (c forecast) current(f *Flush, on float64) bool {
	begun := f.By != nil || on >= c.opening().rounded().P10
	if on > yearDays+1 && begun {
		return f.EndBy == nil && c.closesBy(on, f) < closesAt
	}
	return begun
}

// standing words a flush that is not judged.
func (j *Judgement) standing(f *Flush) {
	s := f.Standing
	say := Evidence{Say: "suspended-by", Day: s.Day, What: s.What}
	switch s.Kind {
	case Suspended:
		j.Verdict = IsSuspended
	case Establishing:
		j.Verdict, say.Say = IsEstablishing, "first-season-here"
		if !f.FirstSeason {
			say.Say = "planted-on"
		}
	case Waiting:
		j.Verdict, say.Say = Unexpected, "needs-work"
	case Outside:
		j.Verdict, say.Say = Unexpected, "under-cover"
	default:
		j.Verdict, say.Say = Unexpected, "nothing-expected"
	}
	j.Evidence = append(j.Evidence, say)
}

// read judges a flush by its looks and says why.
func (m *Model) read(j *Judgement, f *Flush, cast forecast, on float64) {
	j.call(f, cast, on)
	j.lateness(f, cast)
	j.flowering(f, cast)
	j.Evidence = m.evidence(j, f, cast)
}

// call calls the verdict on a flush by its looks.
func (j *Judgement) call(f *Flush, cast forecast, on float64) {
	late, early := f.byLuck(cast), stats.RoundProbability(1-cast.beyond(bound(f.By, 1)))
	median := stats.RoundDays(cast.opening().P50)
	allowed := cast.lateBy(f)
	lookedAt := f.After != nil && *f.After >= median || f.Seen.LastLook != nil && f.ofYear(*f.Seen.LastLook) >= median && late <= allowed
	switch {
	case f.Standing.Kind == Closed:
		j.closed(f, cast)
	case f.By != nil && early <= earlyByLuck:
		j.Verdict, j.Probability = FarEarly, &early
	case f.By != nil && early <= opensEarly:
		j.Verdict, j.Probability = Early, &early
	case f.By != nil && late > allowed:
		j.Verdict, j.Probability = OnTime, &late
	case f.By == nil && on < median:
		j.Verdict = Due
	case f.By == nil && !lookedAt && stats.RoundProbability(cast.openedSince(f.After, on)) >= worthALook:
		j.Verdict = NeedsALook
	case f.By == nil && !lookedAt:
		j.Verdict = Due
	case late <= allowed && f.By == nil && stats.RoundProbability(f.Flowers) < expectsFlower:
		j.Verdict = Due
	case late <= allowed && cast.alone:
		j.Verdict, j.Probability = LaterThanTheBook, &late
	case late <= allowed:
		j.Verdict, j.Probability = Late, &late
	case stats.RoundProbability(cast.beyond(on)) <= allowed:
		j.Verdict = NeedsALook
	default:
		j.Verdict, j.Probability = Due, &late
	}
}

// byLuck is the chance of being this late by luck, rounded: of having opened no
// sooner, and, while it has not been seen open, of being met by none of the looks.
func (f *Flush) byLuck(cast forecast) float64 {
	if f.By != nil {
		return stats.RoundProbability(cast.beyond(bound(f.After, -1)))
	}
	return stats.RoundProbability(f.unmet(cast))
}

// closed judges a flush that is over: it showed no flower, unless it may well
// have come and gone between the looks.
func (j *Judgement) closed(f *Flush, cast forecast) {
	unseen := stats.RoundProbability(f.unmet(cast))
	j.Verdict = NeedsALook
	if unseen <= mayBeUnseen {
		j.Verdict, j.Probability = NoFlowerSeen, &unseen
	}
}

// openedSince is the chance that it has opened by a day, given that it had not
// at the last look; without one, that it has.
func (c forecast) openedSince(look *float64, day float64) float64 {
	if shut := c.beyond(bound(look, -1)); shut > 0 {
		return 1 - c.beyond(day)/shut
	}
	return 1
}

// lateness measures the flush against this garden's usual year. Once it was seen
// to open, the bounds are the 80 % band of how late it was: looks leave it
// anywhere between two days, and what is usual has an error of its own.
func (j *Judgement) lateness(f *Flush, cast forecast) {
	usual := cast.mean - cast.season - cast.corner
	season := stats.RoundDays(cast.season)
	j.SeasonDays = &season
	if j.Verdict == NeedsALook || j.Verdict == NoFlowerSeen || j.Verdict == Due {
		return
	}
	low, high := f.After, f.By
	switch {
	case low != nil && high != nil:
		middle, half := (*low+*high)/2, stats.NormalQuantile(0.9)*math.Hypot((*high-*low)/math.Sqrt(12), cast.sdUsual)
		first, last := middle-half, middle+half
		low, high = &first, &last
	case high == nil && f.Seen.LastLook != nil:
		last := f.ofYear(*f.Seen.LastLook)
		low = &last
	}
	for i, b := range []*float64{low, high} {
		if b != nil {
			days := stats.RoundDays(*b - usual)
			j.Days[i] = &days
		}
	}
}
