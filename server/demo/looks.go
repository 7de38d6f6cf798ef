package demo

import (
	"math"
	"slices"
	"time"

	"haulm/garden"
)

// How likely a plant is looked at on a round: when something is going on with
// it, when it merely stands there, and in winter; on the month's first round
// nearly all are.
const (
	nearShare, standingShare, winterLookShare, fullShare = 0.55, 0.13, 0.06, 0.97
	minutesApart                                         = 1 // between two plants
)

// How often people say more than the stage, and how well they measure.
const (
	amountShare, vigourShare, heightShare, noteShare = 0.5, 0.07, 0.1, 0.08
	measuringShare, measuringCm                      = 0.025, 0.7
	tallestCm                                        = 320 // nobody climbs up to measure
	shortestCm                                       = 3
)

// writeLooks writes what was seen on the rounds and by hand, one observation for
// a plant and day.
func (g *grower) writeLooks(w *writer) {
	for n, p := range g.plants {
		for _, note := range p.Written {
			g.look(w, p, g.roundOn(note.Day, note.By, n), note)
		}
		for _, r := range g.rounds {
			if g.passes(p, r) {
				r.at += minutesApart * n
				g.look(w, p, r, written{})
			}
		}
	}
}

// roundOn is the round of a day with a note on it, or a walk of its own.
func (g *grower) roundOn(day garden.Day, by string, n int) round {
	return round{day: day, by: by, at: minute(day) + minutesApart*n}
}

// passes says whether a plant is looked at on a round.
func (g *grower) passes(p plant, r round) bool {
	noted := slices.ContainsFunc(p.Written, func(note written) bool { return note.Day == r.day })
	unseen := p.Truth.UnseenAfter != nil && r.day > *p.Truth.UnseenAfter
	if noted || unseen || !p.there(r.day) {
		return false
	}
	s := g.see(p, r.day)
	likely := winterLookShare
	switch {
	case s.asleep:
		likely = 0
	case r.full:
		likely = fullShare
	case s.near:
		likely = nearShare
	case growing(monthOf(r.day)):
		likely = standingShare
	}
	return share("passes", p.ID, r.day) < likely
}

// look writes one observation.
func (g *grower) look(w *writer, p plant, r round, note written) {
	s := g.see(p, r.day)
	fields := map[string]any{
		"planting": p.ID, "seen": g.instant(r), "by": r.by, "up": unless(s.up, ""),
		"note": unless(note.Note, ""), "vigour": unless(note.Vigour, 0),
	}
	if len(note.Signs) > 0 {
		fields["signs"] = note.Signs
	}
	g.sayFlower(fields, p, r, s)
	if note.Note == "" && s.up != "not-up" {
		g.sayMore(fields, p, r)
	}
	if note.Measured {
		fields["heightCm"] = caned(g.heightCm(p, r.day), p.ID, r.day)
	}
	if note.Note == "" {
		g.sayNote(fields, p, r, s)
	}
	w.put(garden.ObservationRecord, p.ID+"."+r.day.String(), fields)
}

// instant is the moment at which a plant was passed, on the garden's own clock.
func (g *grower) instant(r round) string {
	year, month, date := r.day.Date()
	return time.Date(year, month, date, 0, r.at, 0, 0, g.zone).Format(time.RFC3339)
}

// sayFlower notes the stage, or that it is not in flower. What is not up or
// asleep has neither.
func (g *grower) sayFlower(fields map[string]any, p plant, r round, s sight) {
	switch {
	case s.stage > 0:
		fields["stage"] = s.stage
		if open := s.stage >= 61 && s.stage <= 67; open && share("amount", p.ID, r.day) < amountShare {
			fields["flowerAmount"] = map[int]int{61: 1, 65: 3, 67: 2}[s.stage] + lots("more", p.ID, r.day).IntN(2)
		}
	case s.up != "not-up" && !s.asleep && len(p.kind.Bloom) > 0:
		fields["notInFlower"] = true
	}
}

// sayMore notes vigour, height and trouble.
func (g *grower) sayMore(fields map[string]any, p plant, r round) {
	if share("vigour", p.ID, r.day) < vigourShare {
		fields["vigour"] = p.vigour(r.day)
	}
	if cm := g.measured(p, r); cm >= shortestCm {
		fields["heightCm"] = cm
	}
	if sign := g.trouble(p, r.day); sign != "" {
		fields["signs"] = []string{sign}
	}
}

func (p plant) vigour(day garden.Day) int {
	if p.ails(day.Year()) && p.Truth.As == nil {
		return 2
	}
	return 3 + lots("vigour", p.ID, day.Year()).IntN(3)
}

// measured is a height taken on a round; 0 when it was not. Shrubs that are still
// young are measured on every full round, bulbs and what cannot be reached never.
func (g *grower) measured(p plant, r round) float64 {
	young := r.full && p.woody() && p.season(r.day.Year()) <= 4
	month := monthOf(r.day)
	asked := young || growing(month) && month < 9 && share("measures", p.ID, r.day) < heightShare
	cm := g.heightCm(p, r.day)
	if !asked || p.kind.Habit == "bulb" || cm > tallestCm {
		return 0
	}
	return caned(cm, p.ID, r.day)
}

// caned is a height as read from a cane, to the centimetre or to five.
func caned(cm float64, id string, day garden.Day) float64 {
	cm = cm*(1+stray(measuringShare, "cane", id, day)) + stray(measuringCm, "foot", id, day)
	if cm > 150 {
		return 5 * math.Round(cm/5)
	}
	return math.Round(cm)
}
