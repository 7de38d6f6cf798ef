package bloom

import (
	"math"
	"slices"
)

// heldOut gives the outlooks of a kind's rows with one site of a planting taken
// out and all others held at the parabolas that they have in the whole fit. In a
// kind of very many rows, one site more or less moves the others little, and a
// refit for each would cost the cube of the rows.
func (f *fit) heldOut(kind, site int, fitted *cavity) []outlook {
	k, c := f.kinds[kind], f.curves[kind]
	s := k.sites[site]
	habit, withRows := k.habitSpread(s.plant, fitted.rows, c)
	share := k.habitShare(s.plant, c, fitted.rows.n)
	withTogether, withSeason := fitted.together.timesVector(share), fitted.season.timesVector(share)
	predictors := func(i, j int) float64 { return fitted.rows.at(i, j) + withRows[i] + withRows[j] + habit }
	keep := math.Max(leastKept, 1-c.weight[site]*predictors(s.row, s.row))
	back := c.slope[site] / keep
	looks := make([]outlook, len(k.rows))
	for i := range looks {
		across := predictors(i, s.row)
		variance := math.Max(0, predictors(i, i)+across*across*c.weight[site]/keep)
		looks[i] = outlook{
			mean:     fitted.rowMean[i] + k.habits[s.plant] - across*back,
			variance: variance,
			usual:    math.Max(0, variance+fitted.seasonVariance[i]-2*(fitted.season.at(i, i)+withSeason[i])),
			together: fitted.togetherMean[i] - (fitted.together.at(i, s.row)+withTogether[i])*back,
			season:   fitted.seasonMean[i] - (fitted.season.at(i, s.row)+withSeason[i])*back,
		}
	}
	return looks
}

// onlySite is the one site that is left out, if the kind is so large that it is
// to be held out.
func (k *kindBlock) onlySite(out plantYear) (site int, held bool) {
	if len(k.rows) <= refitRows && len(k.sites) <= refitSites {
		return 0, false
	}
	site = slices.IndexFunc(k.sites, out.holds)
	next := slices.IndexFunc(k.sites[site+1:], out.holds)
	return site, site >= 0 && next < 0
}
