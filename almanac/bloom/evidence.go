package bloom

import (
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// evidence lists what a judgement by looks rests on: what was expected, what the
// season does, what was seen.
func (m *Model) evidence(j *Judgement, f *Flush, cast forecast) []Evidence {
	from, to := f.dayOf(j.Expect.Open.P10), f.dayOf(j.Expect.Open.P90)
	facts := []Evidence{{Say: "expected-open", From: &from, To: &to}}
	if season := m.seasonAround(f); season.Plants > 0 {
		facts = append(facts, Evidence{Say: "season", Days: j.SeasonDays, SD: &season.SD, Plants: &season.Plants})
	}
	if delay := stats.RoundDays(cast.corner); math.Abs(delay) >= toldDelay {
		facts = append(facts, Evidence{Say: "bed-delay", Days: &delay})
	}
	if cast.alone {
		facts = append(facts, Evidence{Say: "catalogue-alone"})
	}
	if f.FirstSeason {
		facts = append(facts, Evidence{Say: "first-season-here"})
	}
	return append(append(facts, f.sightings(j.Verdict)...), j.mayNotFlower()...)
}

// sightings are the looks that speak.
func (f *Flush) sightings(v Verdict) []Evidence {
	seen := &f.Seen
	if f.By != nil {
		return f.openedEvidence()
	}
	if seen.LastLook == nil {
		return append(f.tooLate(v), Evidence{Say: "no-look-this-season"})
	}
	last := Evidence{Say: "last-look", Day: seen.LastLook, Stage: seen.LastStage, What: seen.LastWas}
	switch {
	case v == NeedsALook:
		return append(f.tooLate(v), Evidence{Say: "no-look-since", Day: seen.LastLook})
	case seen.LastWas == "bud":
		return []Evidence{last, {Say: "bud-on", Day: seen.LastLook}}
	}
	return []Evidence{last}
}

// tooLate says that a look can no longer settle what nobody came to see.
func (f *Flush) tooLate(v Verdict) []Evidence {
	if v == NeedsALook && f.Standing.Kind == Closed {
		return []Evidence{{Say: "too-late-to-tell"}}
	}
	return nil
}

func (f *Flush) openedEvidence() []Evidence {
	var facts []Evidence
	by := f.dayOf(*f.By)
	between := Evidence{Say: "opened-between", To: &by}
	if f.After != nil {
		after := f.dayOf(*f.After)
		between.From = &after
		facts = append(facts, between)
	} else if f.Seen.FirstFlower != nil {
		facts = append(facts, Evidence{Say: "in-flower-on", Day: f.Seen.FirstFlower})
	}
	if f.Seen.Over != nil {
		facts = append(facts, Evidence{Say: "over-by", Day: f.Seen.Over})
	}
	return facts
}

// Expect gives when a flush should open and end, its own season left out; false
// when the model has no expectation of it.
func (m *Model) Expect(plant string, year, flush int) (Expectation, bool) {
	for _, i := range m.of(plant) {
		if f := &m.flushes[i]; f.Year == year && f.Index == flush && f.expected() {
			return m.expectation(i, m.forecast(i)), true
		}
	}
	return Expectation{}, false
}

// expected says whether anything can be expected of the flush.
func (f *Flush) expected() bool {
	return f.Standing.Kind != NoExpectation && f.Standing.Kind != Outside
}

func (m *Model) expectation(i int, cast forecast) Expectation {
	f := &m.flushes[i]
	return Expectation{Plant: f.Plant, Year: f.Year, Flush: f.Index,
		Open: cast.opening().rounded(), Close: cast.closing(f).band().rounded()}
}

// Strips gives every flush of a planting as a picture shows it, by opening.
func (m *Model) Strips(plant string) []Strip {
	var strips []Strip
	for _, i := range m.of(plant) {
		strips = append(strips, m.strip(i))
	}
	return strips
}

func (m *Model) strip(i int) Strip {
	f := &m.flushes[i]
	s := Strip{Expectation: Expectation{Plant: f.Plant, Year: f.Year, Flush: f.Index}, Looks: []float64{}}
	if s.Expected = f.expected(); s.Expected {
		s.Expectation = m.expectation(i, m.forecast(i))
	}
	for _, day := range f.Seen.Days {
		s.Looks = append(s.Looks, f.ofYear(day))
	}
	s.Certain, s.Possible = f.inFlower(s.Close.P90, m.on)
	if j, told := m.judge(i); told {
		s.Verdict = j.Verdict
	}
	return s
}

// inFlower gives when the flush was certainly and possibly in flower: between
// its first and last flower seen, and between the looks around those that saw
// none, in so far as it had happened by the day on. Where no look closes it, it
// may have lasted until lastsTo.
func (f *Flush) inFlower(lastsTo float64, on garden.Day) (certain, possible *[2]float64) {
	if f.By == nil {
		return nil, nil
	}
	first, last := *f.By, *f.By
	if f.EndAfter != nil {
		first, last = math.Max(*f.By, f.ofYear(*f.Seen.FirstFlower)), *f.EndAfter
		certain = &[2]float64{first, last}
	}
	possible = &[2]float64{first, math.Max(last, math.Min(lastsTo, f.ofYear(on)))}
	if f.After != nil {
		possible[0] = *f.After
	}
	if f.EndBy != nil {
		possible[1] = *f.EndBy
	}
	possible[0], possible[1] = stats.RoundDays(possible[0]), stats.RoundDays(possible[1])
	return certain, possible
}
