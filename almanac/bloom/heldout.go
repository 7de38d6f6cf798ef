package bloom

import "math"

// noSite is the site of a planting-year that has none.
const noSite = -1

// heldOut gives the outlooks of a kind's rows for one of its plantings with one
// site taken out, or none, and all others held at the parabolas that they have in
// the whole fit. In a kind of very many rows or sites one more or less moves the
// others little, and a refit for each would cost the cube of the rows.
func (f *fit) heldOut(kind, plant, site int, fitted *cavity) []outlook {
	k, c := f.kinds[kind], f.curves[kind]
	habit, withRows := k.habitSpread(plant, fitted.rows, c)
	share := k.habitShare(plant, c, fitted.rows.n)
	withTogether, withSeason := fitted.together.timesVector(share), fitted.season.timesVector(share)
	predictors := func(i, j int) float64 { return fitted.rows.at(i, j) + withRows[i] + withRows[j] + habit }
	row, weight, back := 0, 0.0, 0.0
	if site != noSite {
		row = k.sites[site].row
		keep := math.Max(leastKept, 1-c.weight[site]*predictors(row, row))
		weight, back = c.weight[site]/keep, c.slope[site]/keep
	}
	looks := make([]outlook, len(k.rows))
	for i := range looks {
		across := predictors(i, row)
		variance := math.Max(0, predictors(i, i)+across*across*weight)
		looks[i] = outlook{
			mean:     fitted.rowMean[i] + k.habits[plant] - across*back,
			variance: variance,
			usual:    math.Max(0, variance+fitted.seasonVariance[i]-2*(fitted.season.at(i, i)+withSeason[i])),
			together: fitted.togetherMean[i] - (fitted.together.at(i, row)+withTogether[i])*back,
			season:   fitted.seasonMean[i] - (fitted.season.at(i, row)+withSeason[i])*back,
		}
	}
	return looks
}

// leavesOut is the one site that a planting-year leaves out, noSite where it has
// none; held says whether it is to be held out: where it has none, or one of a
// kind so large that it is not fitted again.
func (k *kindBlock) leavesOut(out plantYear) (site int, held bool) {
	site, count := noSite, 0
	for i := k.start[out.plant]; i < k.start[out.plant+1]; i++ {
		if out.holds(k.sites[i]) {
			site = i
			count++
		}
	}
	large := len(k.rows) > refitRows || len(k.sites) > refitSites
	return site, count == 0 || count == 1 && large
}
