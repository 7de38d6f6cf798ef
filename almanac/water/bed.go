package water

import "haulm/almanac/stats"

// A BedNeed is what the plantings of a bed ask for together.
type BedNeed struct {
	Litres   float64 // of all plants, as each is asked for
	Asking   int     // plantings that ask
	NotKnown int     // plantings about which nothing can be told
}

// Sum adds up the answers for the plantings of one bed.
func Sum(outputs []Output) BedNeed {
	need := BedNeed{}
	for _, out := range outputs {
		if out.Unknown != "" {
			need.NotKnown++
		}
		if out.Asks {
			need.Asking++
			need.Litres += out.LitresAll
		}
	}
	need.Litres = stats.Round7(need.Litres)
	return need
}
