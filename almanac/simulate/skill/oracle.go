package skill

import (
	"math"

	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/almanac/stats"
	"haulm/garden"
)

// Oracle knows every parameter, and so each plant's own expected day; it does not
// know this year's chance. It names a plant once a look without flower is past
// the day by which oracleSure of plants like it have opened.
type Oracle struct{ sureDays float64 }

var _ Judge = Oracle{}

// oracleSure is the point of its own distribution at which the oracle speaks.
const oracleSure = 0.97

// NewOracle knows the chance of a garden.
func NewOracle(truth simulate.Truth) Oracle {
	if truth.HeavyTails {
		return Oracle{simulate.HeavyQuantile(oracleSure, truth.ChanceSD)}
	}
	return Oracle{truth.ChanceSD * stats.NormalQuantile(oracleSure)}
}

// Names implements Judge.
func (o Oracle) Names(f *simulate.Flush, looks []bloom.Look, on garden.Day) (string, bool) {
	if _, flowered := noted(f, looks); flowered {
		return "", false
	}
	shut := math.Inf(-1)
	for _, l := range looks {
		if notInFlower(l) {
			shut = ofYear(l.Day, f.Year)
		}
	}
	return "beyond the 97 % point", shut > f.ExpectedDay+o.sureDays
}
