package assess

import (
	"cmp"
	"math"
	"slices"

	"haulm/almanac/bloom"
	"haulm/almanac/growth"
	"haulm/almanac/stats"
	"haulm/garden"
)

// A Worth says where a look today would settle most: every planting that stands,
// by gain and then in round order.
type Worth struct {
	On        garden.Day      `json:"on"`
	Plantings []PlantingWorth `json:"plantings"`
}

// A PlantingWorth is what a look at one planting would settle, in bits: how much less
// unsure of its open questions it leaves one on average. Gain is the sum over the
// reasons, which are about different things; with none, a look settles nothing.
type PlantingWorth struct {
	Planting string   `json:"planting"`
	Gain     float64  `json:"gain"`
	Reasons  []Reason `json:"reasons"` // largest gain first
}

// A Reason is one thing that a look would settle: a code that picks the sentence, and
// the values that it names.
type Reason struct {
	Code        string      `json:"code"`
	Gain        float64     `json:"gain"`
	Flush       *int        `json:"flush,omitempty"`       // from 0; where it is about flower
	Day         *garden.Day `json:"day,omitempty"`         // of the last look, or until when it sleeps
	Probability *float64    `json:"probability,omitempty"` // of what the code says
	Verdict     string      `json:"verdict,omitempty"`     // of the finding to look into
}

// Worth answers where a look today would settle most.
func (e *Engine) Worth(on garden.Day) Worth {
	r := e.reckon(on)
	found := map[string][]Finding{}
	for _, f := range e.findings(r) {
		found[f.Planting] = append(found[f.Planting], f)
	}
	worth := Worth{On: on, Plantings: make([]PlantingWorth, 0, len(r.round))}
	for _, planting := range r.round {
		worth.Plantings = append(worth.Plantings, worthOf(planting.ID, e.reasons(r, planting, found[planting.ID])))
	}
	slices.SortStableFunc(worth.Plantings, func(a, b PlantingWorth) int { return cmp.Compare(b.Gain, a.Gain) })
	return worth
}

// worthOf sums reasons, and leaves out those that settle nothing and explain nothing.
func worthOf(planting string, reasons []Reason) PlantingWorth {
	w := PlantingWorth{Planting: planting, Reasons: []Reason{}}
	sum := 0.0
	for _, reason := range reasons {
		if reason.Gain = stats.RoundProbability(reason.Gain); reason.Gain > 0 || reason.Code == "asleep" {
			w.Reasons = append(w.Reasons, reason)
			sum += reason.Gain
		}
	}
	slices.SortStableFunc(w.Reasons, func(a, b Reason) int { return cmp.Compare(b.Gain, a.Gain) })
	w.Gain = stats.RoundProbability(sum)
	return w
}

// reasons lists what a look at one planting would settle. At one that sleeps there
// is nothing to see.
func (e *Engine) reasons(r *reckoned, planting garden.Planting, found []Finding) []Reason {
	for _, f := range found {
		if f.Verdict == "dormant" {
			return []Reason{{Code: "asleep", Day: f.Evidence[0].Day}}
		}
	}
	reasons := flowerReasons(r, planting, found)
	if len(reasons) == 0 { // what is not up does not flower, and one look answers both
		reasons = e.lifeReasons(r, planting, found)
	}
	for _, f := range found {
		if f.WorthALook && f.Flush == nil {
			reasons = append(reasons, e.findingReason(r, f))
		}
	}
	return append(reasons, e.heightReasons(r, planting, found)...)
}

// heightReasons is whether measuring would settle that it is small for its age. Of
// what nobody measures growth says nothing, nor asks; what was found of it is asked
// about as a finding.
func (e *Engine) heightReasons(r *reckoned, planting garden.Planting, found []Finding) []Reason {
	measures := e.measures(planting.ID, r.on)
	input, known := e.growthInput(r, planting, measures)
	if len(measures) == 0 || !known || slices.ContainsFunc(found, func(f Finding) bool { return f.Verdict == growth.SmallForAge || f.Verdict == growth.Stalled }) {
		return nil
	}
	gain, err := growth.Worth(input)
	last := lastHeight(measures)
	if err != nil || last == nil {
		return nil // as in growthFindings
	}
	return []Reason{{Code: "height-old", Gain: gain, Day: last}}
}

// lastHeight is the day of the last height measured; nil where there is none.
func lastHeight(measures []growth.Measure) *garden.Day {
	for i := range slices.Backward(measures) {
		if measures[i].HeightCm != nil {
			return &measures[i].Day
		}
	}
	return nil
}

// flowerReasons are the flushes of which a look would settle whether something is
// the matter, but for those whose finding was put aside.
func flowerReasons(r *reckoned, planting garden.Planting, found []Finding) []Reason {
	var reasons []Reason
	for _, w := range r.flower.Worth(planting.ID) {
		aside := slices.ContainsFunc(found, func(f Finding) bool {
			return f.Dismissed != nil && f.Year == w.Year && f.Flush != nil && *f.Flush == w.Flush
		})
		if !aside {
			reasons = append(reasons, flowerReason(w, r.on))
		}
	}
	return reasons
}

// lifeReasons are whether it has come up, or leafed out, while that is to be expected
// and was not seen. What was found not to be up is asked about as a finding.
func (e *Engine) lifeReasons(r *reckoned, planting garden.Planting, found []Finding) []Reason {
	kind, known := e.kind(planting.Kind)
	known = known && kind.Emerges != nil && !isOver(planting, kind, r.on) && e.comesUpAbout(r, kind)
	if !known || slices.ContainsFunc(found, func(f Finding) bool { return f.Verdict == "not-up" || f.Verdict == "done" }) {
		return nil
	}
	var reasons []Reason
	for _, w := range e.life(r).Worth(planting.ID) {
		reasons = append(reasons, Reason{Code: "not-seen-up", Gain: w.Bits, Day: w.LastLook, Probability: &w.Opened})
	}
	return reasons
}

// The days before and after a kind's usual window of coming up in which the model of
// that, which takes a while, is asked: three standard deviations of what seasons,
// gardens and the catalogue are off by before it, and as long again after it as
// whatever comes up may still do so.
const upFromDays, upToDays = 40, latestUpDays + lateUpDays

// comesUpAbout tells whether a kind's window of coming up, moved to the garden, is near.
func (e *Engine) comesUpAbout(r *reckoned, kind garden.Kind) bool {
	const anyYear = 2001
	long := (kind.Emerges.To.In(anyYear) - kind.Emerges.From.In(anyYear) + 365) % 365
	for year := r.on.Year(); year <= r.on.Year()+1; year++ {
		if to := e.usually(r, kind.Emerges.To, year); r.on >= to-long-upFromDays && r.on <= to+upToDays {
			return true
		}
	}
	return false
}

// flowerReason picks the code: what it is called already, what is likely to be seen,
// what the verdict would be where nothing is. What is called late stays so whatever a
// look finds; that settles whether it flowers at all, as with other findings.
func flowerReason(w bloom.Worth, on garden.Day) Reason {
	reason := Reason{Code: "may-have-opened", Gain: w.Bits, Flush: &w.Flush, Day: w.LastLook, Probability: &w.Opened}
	switch {
	case late(w.Now):
		reason.Code, reason.Probability, reason.Gain = "late-still", nil, math.Max(w.Bits, changedSince(w.LastLook, on, flowersInDays))
	case w.Over > w.InFlower:
		reason.Code, reason.Probability = "may-be-over", &w.Over
	case late(w.Shut):
		reason.Code, reason.Probability = "settles-late", &w.InFlower
	}
	return reason
}

// late tells the verdicts that say that something is the matter with a flush.
func late(v bloom.Verdict) bool {
	return v == bloom.Late || v == bloom.LaterThanTheBook || v == bloom.NoFlowerSeen
}

// How fast what was found changes, in days in which half of what may change has: signs
// of trouble and drought in a fortnight, which is two or three rains; a plant that is
// late opens within a month or two, or not at all; what growth and place do to a plant
// takes a season of half a year.
const changesInDays, flowersInDays, growsInDays = 14.0, 30.0, 183.0

// findingReason is what a look at a finding would settle that is not about flower:
// whether it still holds, of which the less is known the longer nobody came. The
// chance of a change grows from none to evens.
func (e *Engine) findingReason(r *reckoned, f Finding) Reason {
	reason := Reason{Code: "finding", Verdict: f.Verdict}
	if looks := e.looks.until(f.Planting, r.on); len(looks) > 0 {
		reason.Day = &looks[len(looks)-1].day
	}
	reason.Gain = changedSince(reason.Day, r.on, changesWithin(f.Verdict))
	return reason
}

// changedSince is how unsure it is, in bits, whether what changes within some days has
// changed since a look; nil is evens.
func changedSince(look *garden.Day, on garden.Day, within float64) float64 {
	if look == nil {
		return 1
	}
	return stats.Unsure((1 - math.Exp2(-float64(on-*look)/within)) / 2)
}

func changesWithin(verdict string) float64 {
	switch verdict {
	case "dry", "troubled", "frost-below-minimum", "not-up":
		return changesInDays
	}
	return growsInDays
}
