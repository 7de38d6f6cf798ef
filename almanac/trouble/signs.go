package trouble

import (
	"slices"

	"haulm/garden"
)

// A sign is one of the signs of an observation: whether one sighting is worth a
// walk, what work answers it, and what to check, in order.
type sign struct {
	name    string
	grave   func(Case) bool
	answers []string
	check   []string
}

// knownSigns lists the signs in the order of what they can cost, with what is
// looked at first (common practice): water and wet before roots, roots before
// pests, pests before leaves.
func knownSigns() []sign {
	return []sign{
		{"dieback", always, []string{"prune", "cut-back"}, []string{"dieback", "drainage", "water"}},
		{"vine-weevil", always, nil, []string{"roots"}},
		{"wind-rock", Case.wood, []string{"stake", "tie-in", "plant"}, []string{"firm-in"}},
		{"sucker", Case.graft, []string{"prune", "cut-back"}, []string{"below-graft"}},
		{"reversion", always, []string{"prune", "cut-back"}, []string{"reverted"}},
		{"dead-centre", always, []string{"divide"}, []string{"divide"}},
		{"waterlogging", never, nil, []string{"drainage"}},
		{"wilting", never, []string{"water"}, []string{"dawn", "water", "drainage", "roots"}},
		{"drought", never, []string{"water"}, []string{"water", "mulched"}},
		{"scorch", never, []string{"water"}, []string{"water", "sun-scorch"}},
		{"frost", never, []string{"protect"}, []string{"frost-wait"}},
		{"deer", never, []string{"protect"}, []string{"browsed"}},
		{"rabbit", never, []string{"protect"}, []string{"browsed"}},
		{"slug", never, []string{"protect"}, []string{"slugs"}},
		{"aphid", never, nil, []string{"aphids"}},
		{"mildew", never, []string{"prune", "cut-back"}, []string{"water", "air"}},
		{"rust", never, []string{"remove-leaves", "cut-back"}, []string{"fallen-leaves", "air"}},
		{"black-spot", never, []string{"remove-leaves", "prune"}, []string{"fallen-leaves", "air"}},
		{"other", never, nil, []string{"close-look"}},
	}
}

func always(Case) bool     { return true }
func never(Case) bool      { return false }
func (c Case) wood() bool  { return c.Woody }
func (c Case) graft() bool { return c.Grafted }

// signs tells of each sign that stands: seen within signStands days, with no later
// look that grades vigour well and no later work that answers it. One that passes
// by itself is worth a walk when it was seen again or the plant does poorly.
func signs(c Case) []Trouble {
	var list []Trouble
	for _, s := range knownSigns() {
		if s.name == "sucker" && !c.Grafted {
			continue // it spreads by them
		}
		if seen := c.standing(s); len(seen) > 0 {
			list = append(list, c.troubleOf(s, seen))
		}
	}
	return list
}

// standing lists the days on which a sign was seen that still stands.
func (c Case) standing(s sign) []Look {
	var seen []Look
	for _, look := range c.since(signStands) {
		if look.Vigour != nil && *look.Vigour >= goodVigour && !slices.Contains(look.Signs, s.name) {
			seen = nil
		}
		if slices.Contains(look.Signs, s.name) && !c.answered(s, look.Day) && !onDay(seen, look.Day) {
			seen = append(seen, look)
		}
	}
	return seen
}

func onDay(seen []Look, day garden.Day) bool {
	return len(seen) > 0 && seen[len(seen)-1].Day == day
}

func (c Case) answered(s sign, day garden.Day) bool {
	return slices.ContainsFunc(c.Work, func(w Work) bool { return w.Day >= day && slices.Contains(s.answers, w.What) })
}

func (c Case) troubleOf(s sign, seen []Look) Trouble {
	first, last, times := seen[0].Day, seen[len(seen)-1].Day, len(seen)
	t := Trouble{Say: "sign", What: s.name, Day: &last, Check: s.check,
		Grave: s.grave(c) || times >= seenAgain || c.poorly()}
	if times > 1 {
		t.Say, t.From, t.Count = "sign-again", &first, &times
	}
	if s.name == "wilting" && slices.ContainsFunc(seen, func(l Look) bool { return l.Minute < dawnEnds }) {
		t.What, t.Grave, t.Check = "wilting-at-dawn", true, s.check[1:]
	}
	return t
}

func (c Case) poorly() bool {
	last := c.lastVigour()
	return last != nil && *last.Vigour <= poorVigour
}
