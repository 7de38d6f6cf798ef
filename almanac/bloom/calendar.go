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
}

// Flushes turns plantings, their looks and their kinds' windows into flushes, up
// to the day on. Looks and work after on are left aside. A planting whose kind is
// not among kinds has none. The flushes come in a fixed order, whatever the order
// of the input.
func Flushes(here Here, kinds []garden.Kind, plants []Plant, on garden.Day) []Flush {
	byID := make(map[string]*garden.Kind, len(kinds))
	for i := range kinds {
		byID[kinds[i].ID] = &kinds[i]
	}
	move, warm := moveTo(here.Garden), warmthOf(here, on)
	var flushes []Flush
	for _, same := range ofOneKind(plants) {
		if kind := byID[same[0].Kind]; kind != nil {
			flushes = move.appendFlushes(flushes, kind, move.calendar(kind, warm, on), same, on)
		}
	}
	return sortedFlushes(flushes)
}

// ofOneKind lists plantings by kind, and each kind's by id.
func ofOneKind(plants []Plant) [][]Plant {
	order := slices.Clone(plants)
	slices.SortStableFunc(order, func(a, b Plant) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.ID, b.ID))
	})
	var kinds [][]Plant
	for len(order) > 0 {
		next := slices.IndexFunc(order, func(p Plant) bool { return p.Kind != order[0].Kind })
		if next < 0 {
			next = len(order)
		}
		kinds, order = append(kinds, order[:next]), order[next:]
	}
	return kinds
}

// sortedFlushes puts flushes in canonical order; most come so.
func sortedFlushes(flushes []Flush) []Flush {
	if !slices.IsSortedFunc(flushes, canonical) {
		slices.SortStableFunc(flushes, canonical)
	}
	return flushes
}

// calendar lists when a kind's windows open here, from before what is remembered
// until after the day on, in order of opening.
func (m moved) calendar(kind *garden.Kind, warm *warmth, on garden.Day) []turn {
	turns := []turn{}
	for index, window := range kind.Bloom {
		years := m.yearsOn(window.From)
		for year := on.Year() - rememberedYears - 2; year <= on.Year()+1; year++ {
			opens, length := m.opens(window.From, year), lengthDays(window.From, window.To)
			f := Flush{Kind: kind.ID, Index: index, Year: year + years, SD: sdKind, LengthDays: length, LastsDays: length, LastsLogSD: math.Hypot(sdLogLength, sdKindLogLength)}
			f.Expected = opens - f.newYear() + 1
			f.SeasonSD = SeasonSD(f.Expected, m.southern)
			if warm.moves(kind) {
				f.HeatDays = warm.behind(&f)
			}
			turns = append(turns, turn{Flush: f, opens: opens, ends: opens + length})
		}
	}
	slices.SortStableFunc(turns, func(a, b turn) int { return cmp.Compare(a.opens, b.opens) })
	return turns
}

// until is the plant as it was known on a day, looks and work in order.
func (p Plant) until(on garden.Day) Plant {
	p.Looks = kept(p.Looks, func(l Look) (garden.Day, bool) { return l.Day, l.Day <= on && l.Day > on-rememberedYears*yearDays })
	p.Work = kept(p.Work, func(w garden.Work) (garden.Day, bool) {
		if w.Day == nil {
			return 0, false
		}
		return *w.Day, *w.Day <= on
	})
	if p.Ended != nil && *p.Ended > on {
		p.Ended = nil
	}
	return p
}

// kept lists what is to be kept in order of day. A list that is so already is
// given back as it is.
func kept[T any](list []T, dayOf func(T) (day garden.Day, keep bool)) []T {
	ordered, last := true, garden.Day(math.MinInt32)
	for _, one := range list {
		day, keep := dayOf(one)
		ordered = ordered && keep && day >= last
		last = day
	}
	if ordered {
		return list
	}
	var keeps []T
	for _, one := range list {
		if _, keep := dayOf(one); keep {
			keeps = append(keeps, one)
		}
	}
	slices.SortStableFunc(keeps, func(a, b T) int {
		first, _ := dayOf(a)
		second, _ := dayOf(b)
		return cmp.Compare(first, second)
	})
	return keeps
}

// turns takes from the kind's calendar what falls into a planting's life: from
// when it was planted, or first looked at, to soon after on.
func (p Plant) turns(calendar []turn, on garden.Day) []turn {
	from, to := p.lifetime(on)
	year, ahead := on.Year(), float64(upcomingDays)
	if p.AtLeastDays > 0 {
		ahead = yearDays // where it sleeps, nobody should dig before it comes
	}
	within := func(t turn) bool {
		soon := t.Year <= year || t.opens <= float64(on)+ahead
		return soon && t.ends >= from && t.opens <= to
	}
	first := slices.IndexFunc(calendar, within)
	if first < 0 {
		return nil
	}
	last := len(calendar)
	for !within(calendar[last-1]) {
		last--
	}
	turns := slices.Clone(calendar[first:last])
	turns = slices.DeleteFunc(turns, func(t turn) bool { return !within(t) }) // a short window within a long one
	for i := range turns {
		turns[i].Plant, turns[i].Bed, turns[i].atLeastDays = p.ID, p.Bed, p.AtLeastDays
	}
	return turns
}

// lifetime is the stretch of which flushes are reckoned, in days from 1 January
// 1970: from when the planting was first looked at, before which nothing is known
// and nothing is asked, but for what may have been in flower, or just over, then.
func (p Plant) lifetime(on garden.Day) (from, to float64) {
	from, to = float64(on)-yearDays, math.Inf(1)
	if len(p.Looks) > 0 {
		from = math.Min(from, float64(p.Looks[0].Day))
	}
	if p.Planted != nil {
		from = math.Max(from, float64(p.Planted.First))
	}
	if p.Ended != nil {
		to = float64(*p.Ended)
	}
	return from - justOverDays, to
}
