package bloom

import (
	"cmp"
	"slices"

	"haulm/garden"
)

// A harm is what can move a flush that has not opened.
type harm struct {
	day   garden.Day
	what  string
	cut   bool    // a cut into growth, which a second flush may have asked for
	reach float64 // how many days before its opening it still moves a flush
}

// harms lists a planting's by day, each day's once: cuts into growth, roots
// disturbed, frost and browsing.
func (p Plant) harms(here moved) []harm {
	var harms []harm
	for _, w := range p.Work {
		if h, moves := workMoves(w.What); moves && (!h.cut || here.growing(*w.Day)) {
			h.day, h.what = *w.Day, w.What
			harms = once(harms, h)
		}
	}
	works := len(harms)
	for _, l := range p.Looks {
		for _, sign := range l.Signs {
			if signMoves(sign) {
				harms = once(harms, harm{day: l.Day, what: sign, reach: harmReachDays})
			}
		}
	}
	if works > 0 && works < len(harms) {
		slices.SortStableFunc(harms, func(a, b harm) int { return cmp.Compare(a.day, b.day) })
	}
	return harms
}

// once adds a harm to those of no later day, unless that day has it already.
func once(harms []harm, h harm) []harm {
	for i := len(harms) - 1; i >= 0 && harms[i].day == h.day; i-- {
		if harms[i] == h {
			return harms
		}
	}
	return append(harms, h)
}

// workMoves says whether a work moves the next flower, by what it takes (common
// practice). Deadheading takes what is over, thinning leaves the best to flower on
// their day, what is lifted to be stored sleeps meanwhile; old leaves, ties,
// stakes, food, mulch and water move no bud.
func workMoves(what string) (h harm, moves bool) {
	switch what {
	case "cut-back", "prune", "pruned":
		// It takes shoots that were to flower, and those that come after are later.
		return harm{cut: true, reach: harmReachDays}, true
	case "divide", "divided", "move", "moved":
		// It takes roots, and the next season goes into new ones.
		return harm{reach: rootReachDays}, true
	}
	return harm{}, false
}

// signMoves says whether a sign of trouble moves flower: buds frosted, or shoots
// eaten that were to carry them.
func signMoves(sign string) bool {
	return sign == "frost" || sign == "deer" || sign == "rabbit"
}

// harmed: a harm before it opened moved a flush. The cut that a later flush
// needs is no harm to it.
func harmed(harms []harm, t *turn) *Standing {
	until := t.ends
	switch {
	case t.Seen.FirstFlower != nil:
		until = float64(*t.Seen.FirstFlower)
	case t.By != nil:
		until = float64(t.dayOf(*t.By))
	}
	first, _ := slices.BinarySearchFunc(harms, t.opens-rootReachDays, func(h harm, day float64) int { return cmp.Compare(float64(h.day), day) })
	for _, h := range harms[first:] {
		if float64(h.day) >= until {
			break
		}
		if float64(h.day) > t.opens-h.reach && !(h.cut && t.Index > 0) {
			return &Standing{Kind: Suspended, Day: &h.day, What: h.what}
		}
	}
	return nil
}

// growing says whether a cut on a day takes growth, and not dead tops.
func (here moved) growing(day garden.Day) bool {
	ofYear := float64(day.OfYear())
	if here.southern {
		ofYear = wrapYear(ofYear - halfYearDays)
	}
	return ofYear >= growthStartsAt && ofYear < growthEndsAt
}
