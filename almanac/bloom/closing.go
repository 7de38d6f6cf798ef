package bloom

import (
	"math"

	"haulm/almanac/stats"
)

// closesBy is the chance that a flush is over by a day: P(F + D ≤ day), with F
// forecast and D log-normal about the window's length. The normal is met at
// slices of equal chance.
func (f forecast) closesBy(day, lengthDays float64) float64 {
	sum := 0.0
	for i := range closingSlices {
		opens := f.mean + f.sd*stats.NormalQuantile((float64(i)+0.5)/closingSlices)
		if lasts := day - opens; lasts > 0 {
			sum += stats.NormalCDF(math.Log(lasts/lengthDays) / sdLogLength)
		}
	}
	return sum / closingSlices
}

// closes is the day by which it is over with chance p, by halving.
func (f forecast) closes(p, lengthDays float64) float64 {
	lo, hi := f.mean-10*f.sd, f.mean+10*f.sd+20*lengthDays
	for hi-lo > closingDays {
		if middle := (lo + hi) / 2; f.closesBy(middle, lengthDays) < p {
			lo = middle
		} else {
			hi = middle
		}
	}
	return (lo + hi) / 2
}

// closing is the band of days on which it ends, not rounded.
func (f forecast) closing(lengthDays float64) Band {
	at := func(p float64) float64 { return f.closes(p, lengthDays) }
	return Band{at(0.05), at(0.10), at(0.50), at(0.90), at(0.95)}
}
