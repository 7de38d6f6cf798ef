package suit

import (
	"fmt"
	"slices"
	"strings"

	"haulm/garden"
)

// have adds up what flowers already. Kinds are looked up among those of the input
// and in the catalogue.
func (in Input) have(kinds []candidate, catalogue []garden.Kind) (flowering, error) {
	var f flowering
	if in.Have == nil {
		return f, nil
	}
	if err := in.haveKinds(&f, kinds, catalogue); err != nil {
		return f, err
	}
	for i, window := range in.Have.Windows {
		if _, err := parseColours(fmt.Sprintf("have.windows[%d].colours", i), window.Colours); err != nil {
			return f, err
		}
		var c calendar
		c.add(dayOfYear(window.From), lengthDays(window.From, window.To), 1, window.Colours)
		f = f.plus(&c, 1)
	}
	for week, plantings := range in.Have.Weeks {
		f.all[week] += plantings
	}
	return f, nil
}

func (in Input) haveKinds(f *flowering, kinds []candidate, catalogue []garden.Kind) error {
	names := slices.Clone(in.Have.Kinds)
	slices.Sort(names)
	for len(names) > 0 {
		id, many := names[0], 1
		for many < len(names) && names[many] == id {
			many++
		}
		names = names[many:]
		kind, known := kindNamed(kinds, catalogue, id)
		if !known {
			return fmt.Errorf("have.kinds has %q, which is neither among kinds nor in the catalogue", id)
		}
		flower := in.Spot.flowerOf(kind)
		*f = f.plus(&flower, float64(many))
	}
	return nil
}

func kindNamed(kinds []candidate, catalogue []garden.Kind, id string) (garden.Kind, bool) {
	i, found := slices.BinarySearchFunc(kinds, id, func(c candidate, id string) int { return strings.Compare(c.kind.ID, id) })
	if found {
		return kinds[i].kind, true
	}
	return inCatalogue(catalogue, id)
}
