package skill

import (
	"slices"

	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// Haulm is the reckoning, as a garden's people get it: everything that was seen up
// to a day, and the verdicts of that day.
type Haulm struct {
	book     *book
	on       garden.Day
	model    *bloom.Model
	verdicts map[string]bloom.Judgement // of the last year
}

var _ Judge = (*Haulm)(nil)

// naming are the verdicts that count as naming a plant late.
func naming(v bloom.Verdict) bool {
	return slices.Contains([]bloom.Verdict{bloom.Late, bloom.LaterThanTheBook, bloom.NoFlowerSeen}, v)
}

// at reckons the garden for a day.
func (h *Haulm) at(on garden.Day) {
	plants := slices.Clone(h.book.plants)
	for i := range plants {
		plants[i].Looks = until(plants[i].Looks, on)
	}
	h.on, h.model, h.verdicts = on, bloom.Reckon(h.book.here, h.book.kinds, plants, on), map[string]bloom.Judgement{}
	for _, j := range h.model.Judgements() {
		if j.Year == simulate.LastYear {
			h.verdicts[j.Plant] = j
		}
	}
}

// Names implements Judge, for the day that was reckoned last.
func (h *Haulm) Names(f *simulate.Flush, _ []bloom.Look, _ garden.Day) (string, bool) {
	j, judged := h.verdicts[f.Planting]
	return string(j.Verdict), judged && naming(j.Verdict)
}
