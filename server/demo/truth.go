package demo

import (
	"math"
	"slices"

	"haulm/garden"
)

// A flush is one flowering as it really was. Days are counted from 1 January
// 1970 and may be fractions.
type flush struct {
	index       int
	opens, ends float64
	due         float64 // when it would have opened without what ails the plant
}

// How far plants stray by themselves, in days: a kind from what the catalogue
// says, a planting from its kind, and one year from the next.
const kindStray, habitStray, yearStray = 4, 2.5, 3

// lengthStray is how far the length of a flush strays, by its logarithm, and
// reflowerDays how long new buds take after the first flowers are cut away
// (common practice says five to seven weeks).
const lengthStray, reflowerDays = 0.15, 38

// flushes gives a year's flowerings of a plant, in order.
func (g *grower) flushes(p plant, year int) []flush {
	if !p.flowersIn(year) {
		return nil
	}
	var list []flush
	for i, window := range p.windows() {
		f := g.flush(p, year, i, window)
		if i > 0 {
			tended, was := g.tended(p, list[0], window.Needs)
			if !was {
				break
			}
			late := math.Max(0, float64(tended)+reflowerDays-f.opens)
			f.opens, f.ends = f.opens+late, f.ends+late
		}
		list = append(list, f)
	}
	return list
}

// windows is when a plant really flowers: its kind's time, or that of what it is
// when it goes by a wrong name.
func (p plant) windows() []garden.BloomWindow {
	if p.Truth.As != nil {
		return []garden.BloomWindow{*p.Truth.As}
	}
	return p.kind.Bloom
}

func (p plant) flowersIn(year int) bool {
	season := p.season(year)
	ready := season >= 1 && float64(season) >= p.kind.YearsToFlower
	return ready && !slices.Contains(p.Truth.Blind, year) && !slices.Contains(p.Truth.NotUp, year)
}

func (g *grower) flush(p plant, year, index int, window garden.BloomWindow) flush {
	due := g.moved(window.From.In(year), p.kind.Cue) +
		stray(kindStray, "kind", p.Kind) + stray(habitStray, "habit", p.ID) + stray(yearStray, "year", p.ID, year, index)
	length := float64(window.To.In(year) - window.From.In(year))
	if length < 0 {
		length += 365
	}
	opens := due + p.Truth.Late[year]
	return flush{index: index, due: due, opens: opens, ends: opens + length*math.Exp(stray(lengthStray, "length", p.ID, year, index))}
}

// moved moves a date of the catalogue's to this garden and its year.
func (g *grower) moved(day garden.Day, cue string) float64 {
	here := float64(day) + g.SpringDays*springness(float64(day.OfYear()))
	return here + g.seasons.later(cue, garden.Day(math.Round(here)))
}

// up gives the day on which a plant shows above ground, or is in leaf; false for
// what is always there.
func (g *grower) up(p plant, year int) (garden.Day, bool) {
	if p.kind.Emerges == nil || p.Truth.Evergreen {
		return 0, false
	}
	from, to := p.kind.Emerges.From.In(year), p.kind.Emerges.To.In(year)
	if to < from {
		from = p.kind.Emerges.From.In(year - 1)
	}
	day := g.moved(from+(to-from)/2, "heat") + stray(kindStray, "up", p.Kind) + stray(habitStray, "up", p.ID, year)
	return garden.Day(math.Round(day + p.Truth.Up[year])), true
}

// ails says whether something is the matter with a plant in a year.
func (p plant) ails(year int) bool {
	t := p.Truth
	stands := t.StandsFrom != nil && year >= t.StandsFrom.Year()
	return stands || t.As != nil || t.Late[year] > 0 || slices.Contains(t.Blind, year) || slices.Contains(t.NotUp, year)
}

// A sight is what there is to see at a plant on a day.
type sight struct {
	up     string // not-up, up, in-leaf, dying-back, or "" where it goes without saying
	stage  int    // BBCH, 0 for not in flower
	near   bool   // in bud, in flower, or due to be: worth a look
	asleep bool   // nothing above ground, and rightly
}

// What people see, in days: buds before opening, petals on the ground after the
// end; a bulb's leaves go down after flower; new leaves are news for a while.
const budDays, petalDays, leavesGoDays, bulbGoneDays, newsDays, watchDays = 14, 8, 25, 60, 40, 20

func (g *grower) see(p plant, day garden.Day) sight {
	s := g.life(p, day)
	for year := day.Year() - 1; year <= day.Year(); year++ {
		for _, f := range g.flushes(p, year) {
			at := float64(day)
			s.near = s.near || at > f.due-watchDays && at < f.ends+petalDays
			if stage := f.stage(at); stage > 0 {
				s.stage = stage
			}
		}
	}
	if s.stage > 0 {
		s.asleep = false
	}
	if s.stage > 0 && (s.up == "dying-back" || s.up == "not-up") {
		s.up = "" // flower is the news, on bare wood too
	}
	return s
}

// stage is the BBCH stage that people note: 55 for bud, 61, 65 and 67 in
// flower, 69 for petals down (Meier 2001), 0 for none.
func (f flush) stage(at float64) int {
	switch gone := (at - f.opens) / (f.ends - f.opens); {
	case at < f.opens-budDays || at > f.ends+petalDays:
		return 0
	case at < f.opens:
		return 55
	case gone < 0.2:
		return 61
	case gone < 0.65:
		return 65
	case gone <= 1:
		return 67
	default:
		return 69
	}
}

// life says whether the plant is up.
func (g *grower) life(p plant, day garden.Day) sight {
	year := day.Year()
	up, emerges := g.up(p, year)
	switch {
	case slices.Contains(p.Truth.NotUp, year):
		return sight{up: "not-up", near: day > up-watchDays && day < up+newsDays}
	case !emerges:
		return sight{}
	case day < up-watchDays:
		return sight{asleep: true}
	case day < up:
		return sight{up: "not-up", near: true}
	case day < up+newsDays:
		return sight{up: inLeaf(p.kind), near: true}
	case p.kind.Habit == "bulb" && len(g.flushes(p, year)) > 0:
		return bulbLeaves(g.flushes(p, year)[0], day)
	case p.kind.Foliage == "dies-down" && day > garden.DayOf(year, 10, 5):
		return sight{up: "dying-back", asleep: day > garden.DayOf(year, 11, 20)}
	}
	return sight{}
}

func inLeaf(kind garden.Kind) string {
	if kind.Foliage == "dies-down" {
		return "up"
	}
	return "in-leaf"
}

// bulbLeaves says how a bulb stands once its leaves are no news: they go down
// after flower, and before an autumn flower there is nothing to see.
func bulbLeaves(f flush, day garden.Day) sight {
	after := float64(day) - f.ends
	switch {
	case after > bulbGoneDays || f.opens-float64(day) > bulbGoneDays:
		return sight{asleep: true}
	case after > leavesGoDays:
		return sight{up: "dying-back"}
	}
	return sight{}
}
