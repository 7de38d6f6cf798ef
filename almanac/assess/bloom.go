package assess

import (
	"slices"

	"haulm/almanac/bloom"
	"haulm/garden"
)

// bloomFindings words the flower model's judgements on one planting.
func (e *Engine) bloomFindings(r *reckoned, planting garden.Planting) []Finding {
	kind, known := e.kind(planting.Kind)
	if !known {
		return nil
	}
	var findings []Finding
	for _, judged := range r.flower.Judge(planting.ID) {
		flush, check := judged.Flush, flowerChecks(judged, planting, kind, r.works[planting.ID])
		findings = append(findings, Finding{
			Planting:    planting.ID,
			Flush:       &flush,
			Year:        judged.Year,
			Verdict:     string(judged.Verdict),
			Days:        interval(judged.Days),
			SeasonDays:  judged.SeasonDays,
			Probability: judged.Probability,
			WorthALook:  flowerWorthALook(judged),
			Evidence:    append(evidenceOf(judged.Evidence), e.budFrost(judged, check)...),
			Check:       orEmpty(check),
		})
	}
	return findings
}

func interval(days [2]*float64) *Interval {
	if days[0] == nil && days[1] == nil {
		return nil
	}
	both := Interval(days)
	return &both
}

// flowerWorthALook tells whether going there could help: not when the flush is
// over and nobody can tell any more what it did.
func flowerWorthALook(judged bloom.Judgement) bool {
	switch judged.Verdict {
	case bloom.Late, bloom.LaterThanTheBook, bloom.NoFlowerSeen:
		return true
	case bloom.NeedsALook:
		return !slices.ContainsFunc(judged.Evidence, func(one bloom.Evidence) bool { return one.Say == "too-late-to-tell" })
	}
	return false
}

func evidenceOf(list []bloom.Evidence) []Evidence {
	evidence := make([]Evidence, 0, len(list))
	for _, one := range list {
		evidence = append(evidence, Evidence{Say: one.Say, Day: one.Day, From: one.From, To: one.To,
			Days: one.Days, SD: one.SD, Stage: one.Stage, Plants: one.Plants, Probability: one.Probability, What: one.What})
	}
	return evidence
}

// flowerChecks orders what to look at first: what would settle it at a glance,
// then what was done to the plant, then its place. Common practice.
func flowerChecks(judged bloom.Judgement, planting garden.Planting, kind garden.Kind, works []garden.Work) []string {
	switch judged.Verdict {
	case bloom.NeedsALook:
		return []string{"look"}
	case bloom.FarEarly:
		return []string{"label"}
	case bloom.Late, bloom.LaterThanTheBook, bloom.NoFlowerSeen:
	default:
		return nil
	}
	missing := judged.Verdict == bloom.NoFlowerSeen
	oldWood := kind.FlowersOn == "last-year" || kind.FlowersOn == "old"
	clump := kind.Habit == "perennial" || kind.Habit == "grass"
	doubtful := planting.Confidence == "guess" || planting.Confidence == "as-bought"
	var checks []string
	for _, check := range []struct {
		code  string
		holds bool
	}{
		{"label", doubtful && judged.Verdict == bloom.LaterThanTheBook},
		{"buds", !missing},
		{"pruned-off", oldWood && prunedBefore(works, judged)},
		{"late-frost", oldWood},
		{"sun", kind.SunHours[0] >= partSunHours},
		{"water", true},
		{"divide", missing && clump},
		{"depth", missing && (kind.Habit == "bulb" || planting.Form == "bare-root")},
		{"feed", missing},
	} {
		if check.holds {
			checks = append(checks, check.code)
		}
	}
	return checks
}

// partSunHours is where part sun begins: three to six hours a day (common
// practice). A kind that wants as much can miss it.
const partSunHours = 3

// prunedBefore tells whether wood that could have carried this flush was cut in
// the twelve months before it.
func prunedBefore(works []garden.Work, judged bloom.Judgement) bool {
	opens := dayOf(judged.Year, judged.Expect.Open.P50)
	for _, work := range works {
		cut := work.What == "prune" || work.What == "cut-back"
		if cut && work.Day != nil && *work.Day < opens && opens-*work.Day < 365 {
			return true
		}
	}
	return false
}
