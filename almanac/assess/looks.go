package assess

import (
	"cmp"
	"slices"
	"sort"

	"haulm/garden"
)

// A seen is an observation with its civil date worked out once.
type seen struct {
	garden.Observation
	day garden.Day
}

// A looks keeps observations by id and, for each planting, in the order in which
// they were seen, so that neither is sorted anew when one is added.
type looks struct {
	byID       map[string]*seen
	byPlanting map[string][]*seen
}

func newLooks() looks {
	return looks{byID: map[string]*seen{}, byPlanting: map[string][]*seen{}}
}

// compareSeen orders by day, then time, then id.
func compareSeen(a, b *seen) int {
	return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.Seen, b.Seen), cmp.Compare(a.ID, b.ID))
}

func (l *looks) add(s *seen) {
	l.byID[s.ID] = s
	if s.Planting == "" {
		return // a photo that waits to be told whose it is
	}
	list := l.byPlanting[s.Planting]
	at, _ := slices.BinarySearchFunc(list, s, compareSeen)
	l.byPlanting[s.Planting] = slices.Insert(list, at, s)
}

func (l *looks) remove(id string) {
	s, there := l.byID[id]
	if !there {
		return
	}
	delete(l.byID, id)
	list := l.byPlanting[s.Planting]
	if at, found := slices.BinarySearchFunc(list, s, compareSeen); found {
		l.byPlanting[s.Planting] = slices.Delete(list, at, at+1)
	}
}

// until gives a planting's observations up to a day, oldest first. The caller
// must not write into them.
func (l *looks) until(planting string, on garden.Day) []*seen {
	list := l.byPlanting[planting]
	return list[:sort.Search(len(list), func(i int) bool { return list[i].day > on })]
}
