package verbs

import (
	"cmp"
	"slices"
)

// All lists every verb, by name. Each area has a file of its own, and each verb
// a line for the list, an example, and a line a field.
func All() []Verb {
	all := slices.Concat(gardenVerbs(), flowerVerbs(), growthVerbs(), sunVerbs(), waterVerbs(), materialVerbs(),
		planningVerbs(), photoVerbs(), numberVerbs())
	slices.SortFunc(all, func(a, b Verb) int { return cmp.Compare(a.Name, b.Name) })
	return all
}
