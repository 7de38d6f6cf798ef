package demo

import (
	"fmt"
	"math"
	"slices"

	"haulm/garden"
)

// routine is the care that these two do by the book, as the catalogue tells it;
// the rest (dividing, moving, planting, watering) belongs to stories.
var routine = []string{"prune", "cut-back", "deadhead", "feed", "mulch", "stake", "tie-in", "remove-leaves"}

// How often they get round to it, how soon after flower they tidy, within what
// share of a window they start, and how long after one they give up, in days.
const (
	doneShare, tidyAfterDays, startsWithin, giveUpDays = 0.72, 2, 0.5, 10
	youngSeasons                                       = 3 // new shrubs are not pruned
	topsLeftCm                                         = 8 // of stems cut down in late winter
)

// work gives all that was done up to today: what the stories tell, and routine.
func (g *grower) work() []deed {
	deeds := slices.Clone(g.Works)
	for _, p := range g.plants {
		for year := firstYear; year <= lastYear; year++ {
			for n, rule := range p.kind.Care {
				if d, done := g.follow(p, year, n, rule); done {
					deeds = append(deeds, d)
				}
			}
		}
	}
	return deeds
}

// follow does what a care rule asks for in a year, or not.
func (g *grower) follow(p plant, year, n int, rule garden.CareRule) (deed, bool) {
	young := rule.What == "prune" && p.woody() && (p.season(year) <= 1 || p.addsWood() && p.season(year) <= youngSeasons)
	due := rule.EveryYears <= 1 || (year+lots("turn", p.ID).IntN(rule.EveryYears))%rule.EveryYears == 0
	if !slices.Contains(routine, rule.What) || young || !due || p.Truth.As != nil {
		return deed{}, false
	}
	day, done := g.whenDone(p, year, n, rule)
	if !done || !p.there(day) {
		return deed{}, false
	}
	return deed{Planting: p.ID, Day: day, What: rule.What, By: g.whoOn(day), HeightLeftCm: p.leaves(rule, day)}, true
}

func (g *grower) whenDone(p plant, year, n int, rule garden.CareRule) (garden.Day, bool) {
	if rule.When.After != "" {
		if list := g.flushes(p, year); len(list) > 0 {
			return g.tended(p, list[0], rule.What)
		}
		return 0, false
	}
	if rule.When.From == nil || rule.When.To == nil || share("does", p.ID, year, n) > doneShare {
		return 0, false
	}
	from := g.moved(rule.When.From.In(year), "heat")
	if rule.What == "deadhead" {
		list := g.flushes(p, year)
		if len(list) == 0 {
			return 0, false
		}
		from = max(from, (list[0].opens+list[0].ends)/2) // no head is dead before
	}
	length := float64(rule.When.To.In(year) - rule.When.From.In(year))
	day, found := g.roundFrom(from + max(0, length)*startsWithin*share("starts", p.ID, year, n))
	return day, found && float64(day) < from+length+giveUpDays
}

// tended says when a flush that is over was deadheaded or cut back, if it was.
func (g *grower) tended(p plant, f flush, what string) (garden.Day, bool) {
	if share("tends", p.ID, what, int(f.opens)) > doneShare {
		return 0, false
	}
	return g.roundFrom(f.ends + tidyAfterDays)
}

// roundFrom is the day of the first round on or after a day.
func (g *grower) roundFrom(day float64) (garden.Day, bool) {
	for _, r := range g.rounds {
		if float64(r.day) >= day {
			return r.day, day >= float64(g.rounds[0].day)
		}
	}
	return 0, false
}

func (g *grower) whoOn(day garden.Day) string {
	for _, r := range g.rounds {
		if r.day == day {
			return r.by
		}
	}
	return g.People[0].Name
}

// leaves is what a cut leaves standing, in cm; 0 where nobody would measure.
func (p plant) leaves(rule garden.CareRule, day garden.Day) float64 {
	winter := monthOf(day) < 4
	switch {
	case rule.What == "prune" && winter && p.woody() && !p.addsWood():
		return math.Round(p.leftCm(day.Year()))
	case rule.What == "cut-back" && winter && p.kind.Foliage == "dies-down":
		return topsLeftCm
	}
	return 0
}

func (g *grower) writeWorks(w *writer) {
	for _, d := range g.done {
		w.put(garden.WorkRecord, fmt.Sprintf("%s.%s.%s", d.Planting+d.Bed, d.What, d.Day), map[string]any{
			"planting": unless(d.Planting, ""), "bed": unless(d.Bed, ""), "day": d.Day, "what": d.What, "by": d.By,
			"amount": unless(d.Amount, ""), "minutes": unless(d.Minutes, 0), "heightLeftCm": unless(d.HeightLeftCm, 0),
			"note": unless(d.Note, "")})
	}
}

func (g *grower) writePutAside(w *writer) {
	for _, p := range g.PutAside {
		w.put(garden.DismissalRecord, fmt.Sprintf("%s.%d-%s.%s", p.Planting, p.Day.Year(), p.Flush, p.Finding), map[string]any{
			"planting": p.Planting, "flush": p.Flush, "finding": p.Finding, "why": p.Why, "day": p.Day})
	}
}

// unless gives a value, or nothing when it is the one that says nothing.
func unless[T comparable](value, nothing T) any {
	if value == nothing {
		return nil
	}
	return value
}
