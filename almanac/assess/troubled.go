package assess

import (
	"slices"
	"time"

	"haulm/almanac/trouble"
	"haulm/garden"
)

// troubledFindings puts what is wrong with one planting into one finding.
func (e *Engine) troubledFindings(r *reckoned, planting garden.Planting, kind garden.Kind) []Finding {
	troubles := trouble.Find(e.troubleCase(r, planting, kind))
	if len(troubles) == 0 {
		return nil
	}
	found := Finding{Planting: planting.ID, Year: r.on.Year(), Verdict: "troubled"}
	for _, one := range troubles {
		found.WorthALook = found.WorthALook || one.Grave
		found.Evidence = append(found.Evidence, Evidence{Say: one.Say, Day: one.Day, From: one.From,
			Count: one.Count, Of: one.Of, Measures: one.Measures, What: one.What})
		for _, check := range one.Check {
			if !slices.Contains(found.Check, check) {
				found.Check = append(found.Check, check)
			}
		}
	}
	return []Finding{found}
}

func (e *Engine) troubleCase(r *reckoned, planting garden.Planting, kind garden.Kind) trouble.Case {
	c := trouble.Case{On: r.on, Grafted: planting.Grafted, Woody: woody(kind), Colony: isColony(kind),
		Planted: planting.Count, Blind: r.flower.BlindYears(planting.ID)}
	for _, s := range e.looks.until(planting.ID, r.on) {
		if s.Vigour != nil || len(s.Signs) > 0 || s.CountAlive != nil || s.CountInFlower != nil {
			c.Looks = append(c.Looks, trouble.Look{Day: s.day, Minute: minuteOf(s), Vigour: s.Vigour, Signs: s.Signs,
				Stage: s.Stage, Alive: s.CountAlive, Stems: s.CountInFlower})
		}
	}
	if len(c.Looks) == 0 {
		return c // nothing was seen that work could have answered
	}
	for _, work := range r.works[planting.ID] {
		c.Work = append(c.Work, trouble.Work{Day: *work.Day, What: work.What})
	}
	return c
}

func woody(kind garden.Kind) bool { return kind.Habit == "shrub" || kind.Habit == "tree" }

// minuteOf is the minute of the day, from 0, by the observer's clock. Only for
// signs does it matter.
func minuteOf(s *seen) int {
	if len(s.Signs) == 0 {
		return 0
	}
	t, err := time.Parse(time.RFC3339Nano, s.Seen)
	if err != nil {
		return 0 // it was read as such when it came in
	}
	return 60*t.Hour() + t.Minute()
}
