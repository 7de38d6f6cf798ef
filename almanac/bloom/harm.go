package bloom

import (
	"cmp"
	"slices"

	"haulm/garden"
)

// A reach is how far what was done or befell moves a flush that has not opened.
type reach struct {
	days float64 // before its opening
	cut  bool    // a cut into growth, which a second flush may have asked for
}

// workReach says whether a work moves the next flower, by what it takes (common
// practice). Deadheading takes what is over, thinning leaves the best to flower on
// their day, what is lifted to be stored sleeps meanwhile; old leaves, ties,
// stakes, food, mulch and water move no bud.
func workReach(what string) (r reach, moves bool) {
	switch what {
	case "cut-back", "prune", "pruned":
		// It takes shoots that were to flower, and those that come after are later.
		return reach{harmReachDays, true}, true
	case "divide", "divided", "move", "moved":
		// It takes roots, and the next season goes into new ones.
		return reach{rootReachDays, false}, true
	}
	return reach{}, false
}

// signMoves says whether a sign of trouble moves flower: buds frosted, or shoots
// eaten that were to carry them.
func signMoves(sign string) bool {
	return sign == "frost" || sign == "deer" || sign == "rabbit"
}

// harmed: a harm before it opened moved a flush. The first is named.
func (p Plant) harmed(here moved, t *turn) *Standing {
	done, befell := p.moving(here, t), p.spoiling(t)
	if done == nil || befell != nil && *befell.Day < *done.Day {
		return befell
	}
	return done
}

// moving is the first work that moved a flush. The cut that a later flush needs is
// no harm to it.
func (p Plant) moving(here moved, t *turn) *Standing {
	until := t.movable()
	first, _ := slices.BinarySearchFunc(p.Work, t.opens-rootReachDays, func(w garden.Work, day float64) int { return cmp.Compare(float64(*w.Day), day) })
	for _, w := range p.Work[first:] {
		if float64(*w.Day) >= until {
			break
		}
		r, moves := workReach(w.What)
		if !moves || float64(*w.Day) <= t.opens-r.days || r.cut && (t.Index > 0 || !here.growing(*w.Day)) {
			continue
		}
		return &Standing{Kind: Suspended, Day: w.Day, What: w.What}
	}
	return nil
}

// spoiling is the first sign of something that moved a flush.
func (p Plant) spoiling(t *turn) *Standing {
	until := t.movable()
	first, _ := slices.BinarySearchFunc(p.Looks, t.opens-harmReachDays, func(l Look, day float64) int { return cmp.Compare(float64(l.Day), day) })
	for i := first; i < len(p.Looks) && float64(p.Looks[i].Day) < until; i++ {
		look := &p.Looks[i]
		if at := slices.IndexFunc(look.Signs, signMoves); at >= 0 && float64(look.Day) > t.opens-harmReachDays {
			return &Standing{Kind: Suspended, Day: &look.Day, What: look.Signs[at]}
		}
	}
	return nil
}

// movable is until when something can move a flush: until it was seen open, or is
// over.
func (t *turn) movable() float64 {
	switch {
	case t.Seen.FirstFlower != nil:
		return float64(*t.Seen.FirstFlower)
	case t.By != nil:
		return float64(t.dayOf(*t.By))
	}
	return t.ends
}

// growing says whether a cut on a day takes growth, and not dead tops.
func (here moved) growing(day garden.Day) bool {
	ofYear := float64(day.OfYear())
	if here.southern {
		ofYear = wrapYear(ofYear - halfYearDays)
	}
	return ofYear >= growthStartsAt && ofYear < growthEndsAt
}
