package simulate

import (
	"math"

	"haulm/almanac/stats"
)

// A Luck is how this year's chance is spread: normal, or, with heavy tails,
// Student's t with 4 degrees of freedom scaled to the same standard deviation.
type Luck struct {
	SD         float64 `json:"sd"` // days
	HeavyTails bool    `json:"heavyTails"`
}

func (in Input) luck() Luck { return Luck{sdChance, in.with(HeavyTails)} }

// at is the day before which a share of chance falls, to a thousandth, the share
// strictly between 0 and 1. For t it is Shaw's closed form for 4 degrees (2006,
// Journal of Computational Finance 9:37).
func (l Luck) at(share float64) float64 {
	if !l.HeavyTails {
		return thousandth(l.SD * stats.NormalQuantile(share))
	}
	root := math.Min(1, math.Sqrt(4*share*(1-share)))
	t := 2 * math.Sqrt(math.Max(0, math.Cos(math.Acos(root)/3)/root-1))
	return thousandth(math.Copysign(t*l.SD/math.Sqrt2, share-0.5))
}

// Before is the chance of less than so many days.
func (l Luck) Before(days float64) float64 {
	if !l.HeavyTails {
		return stats.NormalCDF(days / l.SD)
	}
	t := days / l.SD * math.Sqrt2
	wide := 1 + t*t/4
	return 0.5 + 3.0/8*t/math.Sqrt(wide)*(1-t*t/wide/12)
}
