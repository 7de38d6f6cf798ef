package assess

import (
	"cmp"
	"slices"

	"haulm/garden"
)

// urgency says which verdicts come first in a list that is read in the rain:
// what may be dying, then what is late or failing, then what only needs a look,
// then the rest.
var urgency = map[string]int{
	"not-up": 0, "stalled": 1, "late": 2, "no-flower-seen": 3, "small-for-age": 4,
	"later-than-the-book": 5, "needs-a-look": 6, "outgrown": 7,
}

const leastUrgent = 8

func rank(f Finding) int {
	if !f.WorthALook {
		return leastUrgent
	}
	if place, there := urgency[f.Verdict]; there {
		return place
	}
	return leastUrgent
}

// sortFindings puts what is worth a look first, by urgency and then by how
// little luck explains it; the rest stay in round order.
func sortFindings(findings []Finding) {
	slices.SortStableFunc(findings, func(a, b Finding) int {
		if by := cmp.Compare(rank(a), rank(b)); by != 0 || !a.WorthALook {
			return by
		}
		return cmp.Compare(luck(a), luck(b))
	})
}

func luck(f Finding) float64 {
	if f.Probability == nil {
		return 1
	}
	return *f.Probability
}

func sortByDay(works []garden.Work) {
	slices.SortStableFunc(works, func(a, b garden.Work) int { return cmp.Compare(*a.Day, *b.Day) })
}
