package assess

import (
	"cmp"
	"slices"

	"haulm/almanac/bloom"
	"haulm/almanac/growth"
	"haulm/garden"
)

// A planting that was moved, lifted from a store or divided off another is as old as
// that one: what flowers when it is grown still does. Moved whole it is as large, too,
// and grows on after a check; a piece of it begins small again. A cutting and a
// seedling are plants of their own.

// mostForebears are followed: more moves than a plant stands, and an end to records
// that go round in a circle.
const mostForebears = 30

// forebears lists what a planting was before, the latest first: the plantings that it
// was moved or lifted from and, unless it is to be whole, divided off.
func (b *book) forebears(planting garden.Planting, whole bool) []garden.Planting {
	var list []garden.Planting
	for from := planting.From; from != nil && len(list) < mostForebears; {
		before, there := b.plantings[from.Planting]
		follows := from.How == "moved" || from.How == "lifted" || from.How == "divided" && !whole
		if !there || !follows || before.Kind != planting.Kind {
			break
		}
		list = append(list, before)
		from = before.From
	}
	return list
}

// sincePlanted is when what stands there now was first planted; nil for a plant that
// was there before anybody knows.
func (b *book) sincePlanted(planting garden.Planting) *garden.PartialDate {
	if before := b.forebears(planting, true); len(before) > 0 {
		return before[len(before)-1].Planted
	}
	return planting.Planted
}

// ageBefore is what a planting's forebears tell of its age; nil where there are none.
func (e *Engine) ageBefore(planting garden.Planting, on garden.Day) *bloom.Before {
	forebears := e.forebears(planting, false)
	if len(forebears) == 0 {
		return nil
	}
	flowered := slices.ContainsFunc(forebears, func(before garden.Planting) bool {
		return slices.ContainsFunc(e.looks.until(before.ID, on), func(s *seen) bool { return s.Stage != nil && *s.Stage >= asInFlower })
	})
	return &bloom.Before{Planted: forebears[len(forebears)-1].Planted, Flowered: flowered}
}

// moved adds to the growth of a planting what it was and how tall it stood before it
// was moved, and the days on which it was. Where only some of a group were moved, what
// stayed went its own way from then on.
func (e *Engine) moved(input *growth.Input, r *reckoned, planting garden.Planting) {
	forebears, until := e.forebears(planting, true), r.on
	for _, before := range forebears {
		if input.Planted != nil && input.Planted.Last <= until {
			until = input.Planted.Last
			input.Moves = append(input.Moves, until)
			if input.HeightCm != nil {
				input.Measures = append(input.Measures, growth.Measure{Day: until, HeightCm: input.HeightCm})
			}
		}
		input.Planted, input.Form, input.PotL, input.HeightCm = before.Planted, before.Form, before.PotL, before.HeightCm
		input.Measures = append(input.Measures, e.heights(before.ID, until)...)
		input.Work = append(input.Work, worksUntil(r.works[before.ID], until)...)
	}
	if len(forebears) > 0 {
		slices.SortStableFunc(input.Measures, func(a, b growth.Measure) int { return cmp.Compare(a.Day, b.Day) })
	}
}

// heights are a planting's measures without the counts, which are another number of
// plants'.
func (e *Engine) heights(planting string, on garden.Day) []growth.Measure {
	measures := slices.DeleteFunc(e.measures(planting, on), func(m growth.Measure) bool { return m.HeightCm == nil })
	for i := range measures {
		measures[i].Alive, measures[i].Stems = nil, nil
	}
	return measures
}

// worksUntil is what was done up to a day.
func worksUntil(works []garden.Work, until garden.Day) []growth.Work {
	return worksOf(slices.DeleteFunc(slices.Clone(works), func(work garden.Work) bool { return *work.Day > until }))
}
