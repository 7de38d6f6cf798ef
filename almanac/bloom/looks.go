package bloom

import (
	"math"
	"slices"

	"haulm/garden"
)

// What a look says of flower, by the BBCH scale (Meier 2001): principal stage 5
// is inflorescence emergence, 60 to 68 flowering, 69 end of flowering, and from
// 70 fruit and after.
const (
	firstBudStage, firstFlowerStage, pastFlowerStage = 50, 60, 69
)

// A sighting is what one look says of flower.
type sighting int

const (
	nothing sighting = iota // not in flower, no bud seen
	bud
	flower
	over
)

// A sight is a look that says something of flower.
type sight struct {
	day   garden.Day
	what  sighting
	stage *int
}

// sight reads a look; ok is false when it says nothing of flower. What is not up
// is not in flower.
func (l Look) sight() (s sight, ok bool) {
	s = sight{day: l.Day, stage: l.Stage}
	switch {
	case l.Stage == nil:
		return s, l.NotInFlower || l.Up == "not-up"
	case *l.Stage >= pastFlowerStage:
		s.what = over
	case *l.Stage >= firstFlowerStage:
		s.what = flower
	case *l.Stage >= firstBudStage:
		s.what = bud
	}
	return s, true
}

// opened says whether the flush has opened by then.
func (s sighting) opened() bool { return s >= flower }

// shareLooks gives each look to the flush it is about. The ground between two
// flushes is split midway between the end of one and the opening of the next;
// what was seen then moves the border: seed heads before the next opening are
// the last flush's, flower that goes on is too, and a bud after petals are down
// opens the next flush.
func (p Plant) shareLooks(turns []turn) {
	current := 0
	for _, look := range p.Looks {
		s, tells := look.sight()
		if !tells || len(turns) == 0 {
			continue
		}
		i := whose(turns, s, look.Flush, current)
		if i < 0 {
			continue
		}
		turns[i].seen = append(turns[i].seen, s)
		if s.what == bud || s.what == flower {
			current = max(current, i)
		}
	}
}

// whose is the turn that a sight is about, current being the last in which bud or
// flower was seen, and flush what the observer said; −1 when it is about none.
func whose(turns []turn, s sight, flush *int, current int) int {
	i := max(current, ground(turns, float64(s.day)))
	if flush != nil {
		i = named(turns, float64(s.day), *flush, i)
	} else {
		i = drawn(turns, s, i)
	}
	if i < 0 || turns[i].strayed(s) {
		return -1
	}
	return i
}

// ground is the turn in whose stretch of time a day falls.
func ground(turns []turn, day float64) int {
	for i := len(turns) - 1; i > 0; i-- {
		if day >= (turns[i-1].ends+turns[i].opens)/2 {
			return i
		}
	}
	return 0
}

// named is the turn with the index that the observer gave whose opening is
// nearest, or the one that time would choose where there is none.
func named(turns []turn, day float64, index, at int) int {
	nearest := math.Inf(1)
	for i := range turns {
		if away := math.Abs(turns[i].opens - day); turns[i].Index == index && away < nearest {
			at, nearest = i, away
		}
	}
	return at
}

// drawn is the turn that a sight belongs to when time says turn i; −1 when it is
// about a flush before the first.
func drawn(turns []turn, s sight, i int) int {
	t := &turns[i]
	early := float64(s.day) < t.opens && !t.has(bud) && !t.has(flower)
	switch {
	case s.what == over && early:
		return i - 1
	case s.what == flower && early && i > 0 && turns[i-1].inFlower():
		return i - 1
	case (s.what == bud || s.what == flower) && t.ended() && i+1 < len(turns) && turns[i+1].opens-float64(s.day) < nextFlushWithinDays:
		return i + 1
	}
	return i
}

// strayed says whether a bud or a flower comes so long after the flush should be
// over, with no look in between, that it is another event's: a flower out of
// season, or next year's bud. It tells neither when this flush opened nor that
// it opened at all.
func (t *turn) strayed(s sight) bool {
	if s.what != bud && s.what != flower || float64(s.day) < t.ends+strayDays {
		return false
	}
	return !slices.ContainsFunc(t.seen, func(earlier sight) bool { return float64(earlier.day) >= t.opens })
}

func (t *turn) has(what sighting) bool {
	return slices.ContainsFunc(t.seen, func(s sight) bool { return s.what == what })
}

// ended says whether the flush was seen to be over, or out of flower after it.
func (t *turn) ended() bool {
	last := len(t.seen) - 1
	return t.has(over) || t.has(flower) && t.seen[last].what == nothing
}

// inFlower says whether flower was the last thing seen.
func (t *turn) inFlower() bool {
	return len(t.seen) > 0 && t.seen[len(t.seen)-1].what == flower
}
