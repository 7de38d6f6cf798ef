package bloom

import (
	"math"
	"slices"
)

// heldOut gives the outlooks of a kind's rows for one of its plantings with its
// sites of a year taken out one after the other, or none, and all others held at
// the parabolas that they have in the whole fit. In a kind of very many rows or
// sites a few more or less move the others little, and a refit for each planting
// would cost the cube of the rows.
func (f *fit) heldOut(kind, plant int, sites []int, fitted *cavity) []outlook {
	k, c := f.kinds[kind], f.curves[kind]
	h := k.holding(plant, fitted, c)
	for _, i := range sites {
		row := k.sites[i].row
		h.takeOut(row, c.weight[i], c.slope[i]-c.weight[i]*h.moved[row])
	}
	looks := make([]outlook, len(k.rows))
	for i := range looks {
		variance := math.Max(0, h.predictors.at(i, i))
		looks[i] = outlook{
			mean:     fitted.rowMean[i] + k.habits[plant] + h.moved[i],
			variance: variance,
			usual:    math.Max(0, variance+fitted.seasonVariance[i]-2*h.season.at(i, i)),
			together: fitted.togetherMean[i] + h.togetherMoved[i],
			season:   fitted.seasonMean[i] + h.seasonMoved[i],
		}
	}
	return looks
}

// A holding is what the fit says of a planting's predictors at the rows, each the
// row with the habit, while sites are taken out: covariances, each with the
// predictors, and how far the means have moved.
type holding struct {
	predictors, together, season      square
	moved, togetherMoved, seasonMoved []float64
}

func (k *kindBlock) holding(plant int, fitted *cavity, c *kindCurve) *holding {
	n := len(k.rows)
	habit, withRows := k.habitSpread(plant, fitted.rows, c)
	share := k.habitShare(plant, c, n)
	withTogether, withSeason := fitted.together.timesVector(share), fitted.season.timesVector(share)
	h := &holding{square{n, slices.Clone(fitted.rows.a)}, square{n, slices.Clone(fitted.together.a)}, square{n, slices.Clone(fitted.season.a)},
		make([]float64, n), make([]float64, n), make([]float64, n)}
	for i := range n {
		for j := range n {
			h.predictors.a[i*n+j] += withRows[i] + withRows[j] + habit
			h.together.a[i*n+j] += withTogether[i]
			h.season.a[i*n+j] += withSeason[i]
		}
	}
	return h
}

// takeOut takes a site's weight and slope at a row out.
func (h *holding) takeOut(row int, weight, slope float64) {
	keep := math.Max(leastKept, 1-weight*h.predictors.at(row, row))
	with := slices.Clone(h.predictors.row(row))
	for _, of := range []struct {
		covariance square
		moved      []float64
	}{{h.together, h.togetherMoved}, {h.season, h.seasonMoved}, {h.predictors, h.moved}} {
		for i := range with {
			across := of.covariance.at(i, row)
			of.moved[i] -= across * slope / keep
			for j, w := range with {
				of.covariance.a[i*len(with)+j] += across * w * weight / keep
			}
		}
	}
}

// leavesOut are the sites that a planting-year leaves out; held says whether they
// are to be held out: where there are none, or of a kind so large that it is not
// fitted again.
func (k *kindBlock) leavesOut(out plantYear) (sites []int, held bool) {
	for i := k.start[out.plant]; i < k.start[out.plant+1]; i++ {
		if out.holds(k.sites[i]) {
			sites = append(sites, i)
		}
	}
	return sites, len(sites) == 0 || len(k.rows) > refitRows || len(k.sites) > refitSites
}
