package bloom

import (
	"cmp"
	"math"
	"slices"

	"haulm/garden"
)

// A turn is one flush as the calendar expects it of a planting, with the looks
// that fell to it.
type turn struct {
	Flush
	opens, ends float64 // expected, days from 1 January 1970
	seen        []sight
}

// Flushes turns plantings, their looks and their kinds' windows into flushes, up
// to the day on. Looks and work after on are left aside. A planting whose kind is
// not among kinds has none. The flushes come in a fixed order, whatever the order
// of the input.
func Flushes(g garden.Garden, kinds []garden.Kind, plants []Plant, on garden.Day) []Flush {
	byID := make(map[string]*garden.Kind, len(kinds))
	for i := range kinds {
		byID[kinds[i].ID] = &kinds[i]
	}
	here := moveTo(g)
	var flushes []Flush
	for _, p := range plants {
		if kind := byID[p.Kind]; kind != nil {
			flushes = append(flushes, flushesOf(here, kind, p.until(on), on)...)
		}
	}
	slices.SortStableFunc(flushes, canonical)
	return flushes
}

// until is the plant as it was known on a day, looks and work in order.
func (p Plant) until(on garden.Day) Plant {
	looks := make([]Look, 0, len(p.Looks))
	for _, l := range p.Looks {
		if l.Day <= on && l.Day > on-rememberedYears*yearDays {
			looks = append(looks, l)
		}
	}
	slices.SortStableFunc(looks, func(a, b Look) int { return cmp.Compare(a.Day, b.Day) })
	work := make([]garden.Work, 0, len(p.Work))
	for _, w := range p.Work {
		if w.Day != nil && *w.Day <= on {
			work = append(work, w)
		}
	}
	slices.SortStableFunc(work, func(a, b garden.Work) int { return cmp.Compare(*a.Day, *b.Day) })
	if p.Ended != nil && *p.Ended > on {
		p.Ended = nil
	}
	p.Looks, p.Work = looks, work
	return p
}

func flushesOf(here moved, kind *garden.Kind, p Plant, on garden.Day) []Flush {
	turns := p.turns(here, kind, on)
	p.shareLooks(turns)
	flushes := make([]Flush, 0, len(turns))
	for i := range turns {
		turns[i].readSights()
	}
	for i := range turns {
		p.settle(here, kind, turns, i)
		flushes = append(flushes, turns[i].Flush)
	}
	return flushes
}

// turns lists the flushes that the calendar expects of a planting from when it
// was planted, or first looked at, to soon after on, in order of opening.
func (p Plant) turns(here moved, kind *garden.Kind, on garden.Day) []turn {
	from, to := p.lifetime(on)
	var turns []turn
	for year := garden.Day(from).Year() - 2; year <= on.Year()+1; year++ {
		for index, window := range kind.Bloom {
			t := p.turn(here, kind, index, window, year)
			soon := t.Year <= on.Year() || t.opens <= float64(on)+upcomingDays
			if soon && t.ends >= from && t.opens <= to {
				turns = append(turns, t)
			}
		}
	}
	slices.SortStableFunc(turns, func(a, b turn) int { return cmp.Compare(a.opens, b.opens) })
	return turns
}

func (p Plant) turn(here moved, kind *garden.Kind, index int, window garden.BloomWindow, year int) turn {
	opens, length := here.opens(window.From, year), lengthDays(window.From, window.To)
	f := Flush{Plant: p.ID, Kind: kind.ID, Index: index, Year: year + here.yearsOn(window.From), SD: sdKind, LengthDays: length}
	f.Expected = opens - f.newYear() + 1
	f.SeasonSD = SeasonSD(f.Expected, here.southern)
	return turn{Flush: f, opens: opens, ends: opens + length}
}

// lifetime is the stretch in which the planting may flower, in days from
// 1 January 1970. It starts with what may have been in flower, or just over,
// when the planting came or was first looked at.
func (p Plant) lifetime(on garden.Day) (from, to float64) {
	from, to = float64(on)-yearDays, math.Inf(1)
	if len(p.Looks) > 0 {
		from = float64(p.Looks[0].Day)
	}
	if p.Planted != nil {
		from = math.Max(float64(p.Planted.First), float64(on)-rememberedYears*yearDays)
	}
	if p.Ended != nil {
		to = float64(*p.Ended)
	}
	return from - justOverDays, to
}
