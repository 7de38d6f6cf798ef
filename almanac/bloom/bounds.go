package bloom

import (
	"slices"

	"haulm/garden"
)

// readSights turns the sights of a flush into bounds on its opening and end, and
// notes them for evidence.
func (t *turn) readSights() {
	if len(t.seen) == 0 {
		return
	}
	t.boundOpening()
	t.boundEnd()
	last := t.seen[len(t.seen)-1]
	t.Seen.LastLook, t.Seen.LastStage = &last.day, last.stage
	t.Seen.LastWas = [...]string{"not-in-flower", "bud", "flower", "over"}[last.what]
	for i := range t.seen {
		s := &t.seen[i]
		t.Seen.Days = append(t.Seen.Days, s.day)
		if s.what == bud {
			t.Seen.LastBud = &s.day
		}
		if s.what == flower && t.Seen.FirstFlower == nil {
			t.Seen.FirstFlower = &s.day
		}
		if s.what == flower {
			t.Seen.LastFlower = &s.day
		}
	}
}

// readAfresh reads the sights of a flush as if none had been read before.
func (t *turn) readAfresh() {
	t.After, t.By, t.EndAfter, t.EndBy, t.Seen = nil, nil, nil, nil, Seen{}
	t.readSights()
}

// boundOpening finds where the looks change from before to after opening with
// the fewest of them misread. Where several changes are as good, the bounds
// reach over all of them.
func (t *turn) boundOpening() {
	seen := t.seen[:t.openingEnds()]
	first, last := fewestMisread(seen)
	missed := t.missedBy()
	for _, s := range seen[:first] {
		if !s.what.opened() && !(s.what == nothing && missed(s.day)) {
			t.After = t.day(s.day)
		}
	}
	for _, s := range slices.Backward(seen[last:]) {
		if s.what.opened() {
			t.By = t.day(s.day)
		}
	}
	t.backFromOver()
	t.mendOneDay()
}

// backFromOver brings the bound of a flush first seen when it was over back by
// as long as all but the briefest last, unless it was seen not open then.
func (t *turn) backFromOver() {
	if t.By == nil || t.last(flower) >= 0 {
		return
	}
	by := *t.By - t.briefest()
	if t.After == nil || by > *t.After {
		t.By = &by
	}
}

// fewestMisread gives the first and the last place to part the sights, those
// before opening from those after, that calls the fewest of them misread.
func fewestMisread(seen []sight) (first, last int) {
	wrong := 0
	for _, s := range seen {
		if !s.what.opened() {
			wrong++
		}
	}
	best := wrong
	for i, s := range seen {
		if s.what.opened() {
			wrong++
		} else {
			wrong--
		}
		if wrong < best {
			best, first = wrong, i+1
		}
		if wrong == best {
			last = i + 1
		}
	}
	return first, last
}

// openingEnds is how many of the sights speak of opening. What is seen after the
// last flower is its end and no longer does, unless it is a bud: then the flower
// before it may have been misread. Where only its being over was seen, the first
// such sight is the last to speak.
func (t *turn) openingEnds() int {
	if at := t.last(flower); at >= 0 {
		return max(at, t.last(bud)) + 1
	}
	if at := slices.IndexFunc(t.seen, func(s sight) bool { return s.what == over }); at >= 0 {
		return at + 1
	}
	return len(t.seen)
}

// last is the place of the last sight of a sort, −1 for none.
func (t *turn) last(what sighting) int {
	for i := len(t.seen) - 1; i >= 0; i-- {
		if t.seen[i].what == what {
			return i
		}
	}
	return -1
}

// mendOneDay makes bounds that meet, a morning and an evening look, that day.
func (t *turn) mendOneDay() {
	if t.After != nil && t.By != nil && *t.After >= *t.By {
		before := *t.By - 1
		t.After = &before
	}
}

func (t *turn) day(d garden.Day) *float64 {
	day := t.ofYear(d)
	return &day
}

// boundEnd bounds the end: after the last flower, by the first look after it
// that saw none. A flower before the flush had opened was misread.
func (t *turn) boundEnd() {
	if t.By == nil {
		return
	}
	from := t.last(flower)
	if from >= 0 && t.ofYear(t.seen[from].day) >= *t.By {
		t.EndAfter = t.day(t.seen[from].day)
	}
	for i := from + 1; i < len(t.seen); i++ {
		if what := t.seen[i].what; t.ofYear(t.seen[i].day) >= *t.By && (what == over || t.EndAfter != nil && what == nothing) {
			t.EndBy, t.Seen.Over = t.day(t.seen[i].day), &t.seen[i].day
			return
		}
	}
}
