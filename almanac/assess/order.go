package assess

import (
	"cmp"
	"slices"

	"haulm/garden"
)

// byUrgency says which verdicts come first in a list that is read in the rain:
// what may be dying, then what is late or failing, then what only needs a look,
// then what its place does to it, then the rest.
func byUrgency() []string {
	return []string{"dry", "frost-below-minimum", "not-up", "troubled", "stalled", "late", "no-flower-seen", "small-for-age",
		"later-than-the-book", "needs-a-look", "crowded", "shaded", "scorched", "outgrown"}
}

func rank(f Finding, order []string) int {
	if place := slices.Index(order, f.Verdict); f.WorthALook && place >= 0 {
		return place
	}
	return len(order)
}

// sortFindings puts what is worth a look first, by urgency and then by how
// little luck explains it; the rest stay in round order.
func sortFindings(findings []Finding) {
	order := byUrgency()
	slices.SortStableFunc(findings, func(a, b Finding) int {
		if by := cmp.Compare(rank(a, order), rank(b, order)); by != 0 || !a.WorthALook {
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
