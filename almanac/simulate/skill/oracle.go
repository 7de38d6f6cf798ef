package skill

import (
	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/almanac/stats"
	"haulm/garden"
)

// Oracle knows every parameter, and so each plant's own expected day, how chance
// is spread and how long the plant's flower lasts; it does not know this year's
// chance. It names a plant once all but one in oracleUnsure of plants like it
// would have been met in flower by the looks so far.
type Oracle struct{ luck simulate.Luck }

var _ Judge = Oracle{}

// oracleUnsure leaves the 97 % point.
const oracleUnsure = 0.03

// Names implements Judge.
func (o Oracle) Names(f *simulate.Flush, looks []bloom.Look, _ garden.Day) (string, bool) {
	_, flowered := noted(f, looks)
	return "beyond the 97 % point", !flowered && stats.RoundProbability(o.unmet(f, looks)) <= oracleUnsure
}

// unmet is the chance that the plant, were it healthy, would have been in flower
// at none of the looks: it opens after the last, or came and went between two.
func (o Oracle) unmet(f *simulate.Flush, looks []bloom.Look) float64 {
	chance, met := 1.0, 0.0 // met: the chance of having opened by the last look
	for _, l := range looks {
		if !notInFlower(l) {
			continue
		}
		at := ofYear(l.Day, f.Year) - f.ExpectedDay
		by := o.luck.Before(at)
		chance -= by - max(met, o.luck.Before(at-f.LastsDays))
		met = by
	}
	return chance
}
