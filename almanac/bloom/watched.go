package bloom

import (
	"slices"

	"haulm/garden"
)

// A watched is a planting with its flushes and the looks that fell to each.
type watched struct {
	Plant
	turns []turn
}

// watch reads a planting's looks by the lengths that the catalogue gives.
func (m moved) watch(kind *garden.Kind, calendar []turn, p Plant, on garden.Day) watched {
	w := watched{Plant: p, turns: p.turns(calendar, on)}
	p.shareLooks(w.turns)
	for i := range w.turns {
		w.turns[i].readSights()
	}
	w.settleAll(m, kind)
	return w
}

func (w *watched) settleAll(m moved, kind *garden.Kind) {
	for i := range w.turns {
		w.settle(m, kind, w.turns, i)
	}
}

// readAgain reads the looks at the flushes that were never seen in flower again,
// now that it is known how long they should last: whether they may have come and
// gone between two looks hangs on that.
func (w *watched) readAgain(m moved, kind *garden.Kind) {
	again := false
	for i := range w.turns {
		if t := &w.turns[i]; len(t.seen) > 0 && t.last(flower) < 0 {
			t.readAfresh()
			again = true
		}
	}
	if again {
		w.settleAll(m, kind)
	}
}

// appendFlushes adds the flushes of one kind's plantings.
func (m moved) appendFlushes(flushes []Flush, kind *garden.Kind, calendar []turn, plants []Plant, on garden.Day) []Flush {
	all := make([]watched, 0, len(plants))
	turns := 0
	for _, p := range plants {
		all = append(all, m.watch(kind, calendar, p.until(on), on))
		turns += len(all[len(all)-1].turns)
	}
	for window := range kind.Bloom {
		learnLengths(ofWindow(all, window, turns))
	}
	flushes = slices.Grow(flushes, turns)
	for i := range all {
		all[i].readAgain(m, kind)
		for t := range all[i].turns {
			flushes = append(flushes, all[i].turns[t].Flush)
		}
	}
	return flushes
}

// ofWindow lists the flushes of one window, of which there are so many at most.
func ofWindow(all []watched, window, most int) []*Flush {
	flushes := make([]*Flush, 0, most)
	for i := range all {
		for t := range all[i].turns {
			if f := &all[i].turns[t].Flush; f.Index == window {
				flushes = append(flushes, f)
			}
		}
	}
	return flushes
}
