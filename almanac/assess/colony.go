package assess

import (
	"haulm/garden"
)

// Kinds that die after they have seeded are done and not failing, and what sows
// itself is a colony that is counted and not one plant that is judged.

// inSeed is the BBCH stage from which a plant has set seed, and petalsDown that at
// which its flower is over (Meier 2001).
const petalsDown, inSeed = 69, 81

// shortLived tells whether a kind dies of its first flowering.
func shortLived(kind garden.Kind) bool {
	return kind.LifeCycle == "annual" || kind.LifeCycle == "biennial" || kind.LifeCycle == "monocarpic"
}

// doneFinding says that a planting has flowered and died as its kind does; nil when
// it has not, or when its seedlings stand there for it.
func (e *Engine) doneFinding(r *reckoned, planting garden.Planting, kind garden.Kind) *Finding {
	if !shortLived(kind) {
		return nil
	}
	over, day := e.wentOver(planting, r.on)
	if !over {
		return nil
	}
	evidence := []Evidence{{Say: "done-after-flower", Day: &day, What: kind.LifeCycle}}
	if kind.SpreadHabit == "self-sowing" {
		evidence = append(evidence, Evidence{Say: "may-have-sown"})
	}
	return &Finding{Planting: planting.ID, Year: day.Year(), Verdict: "done", Evidence: evidence, Check: []string{}}
}

// wentOver tells whether a planting's flower was seen over, and nothing of it seen
// alive since but seed; with the day on which it was seen so last.
func (e *Engine) wentOver(planting garden.Planting, on garden.Day) (over bool, day garden.Day) {
	flowered := false
	for _, s := range e.looks.until(planting.ID, on) {
		switch {
		case s.Stage != nil && *s.Stage >= inSeed, flowered && (s.Up == "dying-back" || s.Up == "not-up"):
			over, day = true, s.day
		case s.Stage != nil && *s.Stage >= petalsDown:
			flowered = true
		case s.Stage != nil && *s.Stage >= firstUpStage, s.Up == "up", s.Up == "in-leaf":
			over = false
			flowered = flowered || s.Stage != nil && *s.Stage >= asInFlower
		}
	}
	return over, day
}

// isColony tells whether a planting of a kind is a colony: it lives briefly and sows
// itself.
func isColony(kind garden.Kind) bool {
	return kind.SpreadHabit == "self-sowing" && kind.LifeCycle != "long-lived"
}

// colonyFindings tells of a kind that sows itself how many were counted, beside
// the year before.
func (e *Engine) colonyFindings(r *reckoned, planting garden.Planting, kind garden.Kind) []Finding {
	if !isColony(kind) {
		return nil
	}
	now, before := e.lastCount(planting.ID, r.on, r.on.Year()), e.lastCount(planting.ID, r.on, r.on.Year()-1)
	if now == nil {
		return nil
	}
	counted := Evidence{Say: "colony-counted", Day: &now.day, Count: now.CountAlive}
	if before != nil {
		counted = Evidence{Say: "colony-counts", Day: &now.day, Count: now.CountAlive, From: &before.day, Of: before.CountAlive}
	}
	return []Finding{{Planting: planting.ID, Year: r.on.Year(), Verdict: "colony", Evidence: []Evidence{counted}, Check: []string{}}}
}

// lastCount is the last look of a year that counted what lives; nil when none did.
func (e *Engine) lastCount(planting string, on garden.Day, year int) *seen {
	looks := e.looks.until(planting, on)
	for i := len(looks) - 1; i >= 0 && looks[i].day.Year() >= year; i-- {
		if looks[i].CountAlive != nil && looks[i].day.Year() == year {
			return looks[i]
		}
	}
	return nil
}
