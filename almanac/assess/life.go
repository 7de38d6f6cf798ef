package assess

import (
	"haulm/almanac/bloom"
	"haulm/garden"
)

// Coming up, or leafing out, is the bloom model on another event: a "flush" that
// opens when the first shoot or leaf shows and lasts until the plant dies back.
// So a cold spring that holds everything under ground is told from one plant
// that has not come up, by the same reckoning.

// upForDays is how long a plant that came up counts as up. Half a year keeps one
// year's coming up apart from the next.
const upForDays = 180

// upAtLeastDays is how long whatever comes up or leafs out is there to be seen
// (common practice: the leaves of the quickest bulbs stand for ten weeks). What
// was not up within that time of when it should have been has not died back.
const upAtLeastDays = 75

// asInFlower is the BBCH stage that stands for "is up" when life is reckoned as a
// flush: first flower (Meier 2001).
const asInFlower = 60

// emergenceOf turns a kind into the kind of its coming up; false where the kind
// has no such window. The event is expected at the window's middle.
func emergenceOf(kind garden.Kind) (garden.Kind, bool) {
	if kind.Emerges == nil {
		return garden.Kind{}, false
	}
	const anyYear = 2001 // not a leap year, so that windows keep their length
	from, to := kind.Emerges.From.In(anyYear), kind.Emerges.To.In(anyYear)
	if to < from {
		to = kind.Emerges.To.In(anyYear + 1)
	}
	opens := from + (to-from)/2
	event := kind
	event.Bloom = []garden.BloomWindow{{From: monthDay(opens), To: monthDay(opens + upForDays)}}
	event.YearsToFlower = 0
	return event, true
}

func monthDay(day garden.Day) garden.MonthDay {
	_, month, date := day.Date()
	return garden.MonthDay{Month: month, Day: date}
}

// The BBCH stages (Meier 2001) between which a plant that dies down is above the
// ground: from the emergence of shoots until its leaves have died.
const firstUpStage, lastUpStage = 9, 96

func showsShoots(s *seen) bool {
	return s.Stage != nil && *s.Stage >= firstUpStage && *s.Stage <= lastUpStage || s.HeightCm != nil && *s.HeightCm > 0
}

// isWood tells whether what emerges are leaves on wood that stands all year. Of
// those neither a height nor flower says anything: much of it is measured bare
// and flowers before its leaves.
func isWood(kind garden.Kind) bool {
	return kind.Foliage != "dies-down" && kind.Foliage != "winter-green"
}

// lifeLooks keeps of a planting's observations what they say of its being up.
func lifeLooks(list []*seen, wood bool) []bloom.Look {
	var looks []bloom.Look
	for _, s := range list {
		look := bloom.Look{Day: s.day}
		switch {
		case s.Up == "not-up":
			look.NotInFlower = true
		case s.Up == "dying-back":
			continue // it was up; nothing is said of when it came up
		case s.Up != "" || !wood && showsShoots(s):
			stage := asInFlower
			look.Stage = &stage
		default:
			continue
		}
		looks = append(looks, look)
	}
	return looks
}

// lastLife is the last observation that says whether the planting lives: being
// up, shoots, or on wood a stage of growth, since dead wood has a height too.
func lastLife(list []*seen, wood bool) *seen {
	for i := len(list) - 1; i >= 0; i-- {
		if s := list[i]; s.Up != "" || showsShoots(s) && (!wood || s.Stage != nil) {
			return s
		}
	}
	return nil
}

// A comingUp keeps the model of coming up of one day as long as nothing that bears
// on it changes: most of what is noted in summer does not.
type comingUp struct {
	on    garden.Day
	news  int // of the book, as it was
	model *bloom.Model
}

// saysLife tells whether an observation can bear on coming up; nil cannot.
func saysLife(s *seen) bool { return s != nil && (s.Up != "" || showsShoots(s)) }

func (b *book) lifeChanged(changed bool) {
	if changed {
		b.lifeNews++
	}
}

// life is the model of coming up, worked out when the first planting is found
// missing or may be asleep: on most days in most gardens none is.
func (e *Engine) life(r *reckoned) *bloom.Model {
	if e.up == nil || e.up.on != r.on || e.up.news != e.lifeNews {
		e.up = &comingUp{r.on, e.lifeNews, e.reckonLife(r)}
	}
	return e.up.model
}

func (e *Engine) reckonLife(r *reckoned) *bloom.Model {
	var kinds []garden.Kind
	var plants []bloom.Plant
	taken := map[string]bool{}
	for _, planting := range e.book.round() {
		kind, known := e.kind(planting.Kind)
		emergence, emerges := emergenceOf(kind)
		if !known || !emerges || !planted(planting, r.on) {
			continue
		}
		// Cutting back and feeding do not move the coming up: work is left out.
		looks := lifeLooks(e.looks.until(planting.ID, r.on), isWood(kind))
		plants = append(plants, bloom.Plant{Planting: planting, Looks: looks, AtLeastDays: upAtLeastDays})
		if !taken[kind.ID] {
			taken[kind.ID] = true
			kinds = append(kinds, emergence)
		}
	}
	return bloom.Reckon(e.here(r.on), kinds, plants, r.on)
}

// lifeFindings says when a planting that dies down or drops its leaves was
// looked at and is not up, although by now it should be.
func (e *Engine) lifeFindings(r *reckoned, planting garden.Planting) []Finding {
	kind, known := e.kind(planting.Kind)
	if !known {
		return nil
	}
	last := lastLife(e.looks.until(planting.ID, r.on), isWood(kind))
	if last == nil || last.Up != "not-up" {
		return nil // never by silence: somebody must have looked and seen nothing
	}
	var findings []Finding
	for _, judged := range e.life(r).Judge(planting.ID) {
		late := judged.Verdict == bloom.Late || judged.Verdict == bloom.LaterThanTheBook || judged.Verdict == bloom.NoFlowerSeen
		from, to := dayOf(judged.Year, judged.Expect.Open.P10), dayOf(judged.Year, judged.Expect.Open.P90)
		if !late || last.day < from {
			continue
		}
		findings = append(findings, Finding{
			Planting: planting.ID, Year: judged.Year, Verdict: "not-up",
			Days: interval(judged.Days), SeasonDays: judged.SeasonDays, Probability: judged.Probability,
			WorthALook: true, Evidence: lifeEvidence(judged, from, to, last.day), Check: e.lifeChecks(planting, kind),
		})
	}
	return findings
}

func lifeEvidence(judged bloom.Judgement, from, to, seen garden.Day) []Evidence {
	evidence := []Evidence{{Say: "expected-up", From: &from, To: &to}, {Say: "seen-not-up", Day: &seen}}
	for _, one := range evidenceOf(judged.Evidence) {
		if one.Say == "season" {
			evidence = append(evidence, one)
		}
	}
	return evidence
}

// lifeChecks orders what to look at when nothing is up (common practice): feel
// for life before digging, then slugs, then the wet or the cold of winter.
func (e *Engine) lifeChecks(planting garden.Planting, kind garden.Kind) []string {
	checks := []string{"dig-care", "slugs"}
	if isWood(kind) {
		checks = []string{"alive", "dieback"}
	}
	if bed := e.beds[planting.Bed]; bed.Drainage == "wet" || bed.Drainage == "slow" {
		checks = append(checks, "wet-winter")
	}
	return append(checks, "label")
}
