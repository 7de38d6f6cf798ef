package assess

import (
	"sort"

	"haulm/almanac/bloom"
	"haulm/almanac/place"
	"haulm/almanac/water"
	"haulm/garden"
)

// A reckoned is what the models made of the book on one day.
type reckoned struct {
	on     garden.Day
	round  []garden.Planting // what stands in the ground, in walking order
	works  map[string][]garden.Work
	flower *bloom.Model

	lateness float64 // days by which the garden's usual year runs behind the catalogue's
	plots    []plot  // what of the round has a place on the plan
	plotOf   map[string]*plot
	light    *sunlight      // nil where the garden's place is not known
	air      *water.Weather // nil until somebody may be dry; see dry.go
	walls    []place.Room   // nil until then, too
	findings []Finding      // nil until somebody asks
}

// reckon works the garden out for one day, once per change of the book.
func (e *Engine) reckon(on garden.Day) *reckoned {
	if e.known != nil && e.known.on == on {
		return e.known
	}
	r := &reckoned{on: on, works: e.worksByPlanting(on)}
	var kinds []garden.Kind
	var plants []bloom.Plant
	taken := map[string]bool{}
	for _, planting := range e.book.round() {
		if stands(planting, on) {
			r.round = append(r.round, planting)
		}
		kind, known := e.kind(planting.Kind)
		if !known || !planted(planting, on) {
			continue
		}
		looks := flowerLooks(e.looks.until(planting.ID, on))
		plants = append(plants, bloom.Plant{Planting: planting, Looks: looks, Work: r.works[planting.ID], Before: e.ageBefore(planting, on)})
		if !taken[kind.ID] {
			taken[kind.ID] = true
			kinds = append(kinds, kind)
		}
	}
	r.flower = bloom.Reckon(e.here(on), kinds, plants, on)
	r.lateness = r.flower.LatenessDays()
	r.plots = e.plots(r)
	r.plotOf = make(map[string]*plot, len(r.plots))
	for i := range r.plots {
		r.plotOf[r.plots[i].planting.ID] = &r.plots[i]
	}
	r.light = e.sunlight(r)
	e.known = r
	return r
}

// here is the garden with its weather up to a day.
func (b *book) here(on garden.Day) bloom.Here {
	return bloom.Here{Garden: b.garden(), Weather: b.sky.heat(on)}
}

// stands tells whether a planting is there to be looked at: planted, and neither
// ended nor lifted into a store.
func stands(planting garden.Planting, on garden.Day) bool {
	return planted(planting, on) && !planting.Stored && (planting.Ended == nil || *planting.Ended > on)
}

// planted tells whether a planting may have been planted by a day.
func planted(planting garden.Planting, on garden.Day) bool {
	return planting.Planted == nil || planting.Planted.First <= on
}

func flowerLooks(list []*seen) []bloom.Look {
	looks := make([]bloom.Look, 0, len(list))
	for _, s := range list {
		looks = append(looks, bloom.Look{Day: s.day, Stage: s.Stage, NotInFlower: s.NotInFlower, Up: s.Up, Flush: s.Flush, Signs: s.Signs})
	}
	return looks
}

// worksByPlanting gives each planting's own work and its bed's up to a day, by
// day. Plantings with no work of their own share their bed's list: nobody may
// write into it.
func (b *book) worksByPlanting(on garden.Day) map[string][]garden.Work {
	ofBed := map[string][]garden.Work{}
	byPlanting := map[string][]garden.Work{}
	for _, id := range sortedKeys(b.works) {
		work := b.works[id]
		switch {
		case work.Day == nil || *work.Day > on:
		case work.Planting != "":
			byPlanting[work.Planting] = append(byPlanting[work.Planting], work)
		case work.Bed != "":
			ofBed[work.Bed] = append(ofBed[work.Bed], work)
		}
	}
	for _, works := range ofBed {
		sortByDay(works)
	}
	for _, id := range sortedKeys(b.plantings) {
		beds := whileThere(ofBed[b.plantings[id].Bed], b.plantings[id])
		if own := byPlanting[id]; len(own) > 0 {
			beds = append(own, beds...)
			sortByDay(beds)
		}
		byPlanting[id] = beds
	}
	return byPlanting
}

// whileThere is what was done to a bed, which is sorted by day, while a planting
// stood in it.
func whileThere(works []garden.Work, planting garden.Planting) []garden.Work {
	before := func(day garden.Day) int {
		return sort.Search(len(works), func(i int) bool { return *works[i].Day >= day })
	}
	from, to := 0, len(works)
	if planting.Planted != nil {
		from = before(planting.Planted.First)
	}
	if planting.Ended != nil {
		to = before(*planting.Ended + 1)
	}
	return works[from:max(from, to)]
}
