package bloom

import (
	"fmt"
	"math"
	"testing"

	"haulm/garden"
)

// twoFlushes is a kind that flowers twice a year, with so many plantings, each
// seen to open both times within a week of the others, and a few of another kind.
func twoFlushes(plantings int) *Model {
	kinds := []garden.Kind{kindOf("k", window("05-01", "05-31", ""), window("08-01", "08-31", "")), kindOf("l", window("05-10", "05-31", ""))}
	var plants []Plant
	for i := range plantings {
		later := garden.Day(i % 7)
		plants = append(plants, plantOf(fmt.Sprintf("k%02d", i), "k", notYet(day(2025, 4, 20)+later), staged(day(2025, 4, 27)+later, 65),
			staged(day(2025, 6, 20), 75), notYet(day(2025, 7, 30)), staged(day(2025, 8, 5)+later, 65)))
	}
	for i := range 5 {
		plants = append(plants, plantOf(fmt.Sprintf("l%02d", i), "l", notYet(day(2025, 4, 20)), staged(day(2025, 4, 27)+garden.Day(i), 65)))
	}
	return Reckon(referenceGarden(), kinds, plants, day(2025, 9, 1))
}

// In a kind of many plantings, taking out one of them with both its flushes of a
// year is to fit the kind again without it, to a hundredth of a day.
func TestHoldingOutIsFittingAgainWithout(t *testing.T) {
	m := twoFlushes(40)
	for i, f := range m.flushes {
		p := m.places[i]
		out := plantYear{p.plant, f.Year}
		sites, _ := m.kinds[p.kind].leavesOut(out)
		held := m.heldOut(p.kind, out.plant, sites, m.fittedRows(p.kind))[p.row]
		again := m.refit(p.kind, out, m.cavityOf(p.kind)).outlooks()[p.row]
		for _, pair := range [][2]float64{{held.mean, again.mean}, {math.Sqrt(held.variance), math.Sqrt(again.variance)},
			{held.season, again.season}, {held.together, again.together}, {math.Sqrt(held.usual), math.Sqrt(again.usual)}} {
			if math.Abs(pair[0]-pair[1]) > 0.01 {
				t.Errorf("%s %d flush %d: %+v held out, %+v fitted again", f.Plant, f.Year, f.Index, held, again)
				break
			}
		}
	}
}

// A kind of very many plantings is never fitted again for each of them.
func TestALargeKindIsHeldOut(t *testing.T) {
	m := twoFlushes(refitSites/2 + 1)
	for plant := range m.kinds[0].plants {
		if sites, held := m.kinds[0].leavesOut(plantYear{plant, 2025}); len(sites) != 2 || !held {
			t.Fatalf("plant %d leaves out %d sites, held out: %v", plant, len(sites), held)
		}
	}
}
