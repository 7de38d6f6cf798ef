package bloom

import (
	"math"
	"slices"
)

// An outlook is what the model, one planting's own season left out, says about
// one of that planting's flushes of that season, in days from the row's
// expectation: the linear predictor, and the shares of garden and season in it.
type outlook struct {
	mean, variance float64
	together       float64 // season and garden's difference
	season         float64
}

// A refit is one planting fitted again with one of its years left out. All else
// enters as the planting's cavity: normals taken where the whole fit stands. The
// rows are at mean + K·pull with K the cavity's covariance (Rasmussen & Williams
// 2006, section 3.4).
type refit struct {
	*kindBlock // of the one planting
	*cavity
	year   plantYear
	curve  *kindCurve
	pull   []float64
	delta  []float64
	habits []float64
}

// refit fits one planting again without a year.
func (f *fit) refit(kind, plant, year int, c *cavity) *refit {
	k := f.kinds[kind].only(plant)
	curve := newKindCurve(k)
	r := &refit{kindBlock: k, cavity: c, year: plantYear{0, year}, curve: curve,
		pull: make([]float64, len(k.rows)), habits: slices.Clone(k.habits)}
	for i, s := range k.sites {
		r.pull[s.row] += f.curves[kind].slope[f.kinds[kind].start[plant]+i]
	}
	r.delta = r.rowsAt(r.pull)
	if slices.ContainsFunc(k.sites, r.year.holds) {
		r.climb(0, startDays)
	}
	r.climb(blindOdds, refitStopDays)
	return r
}

// only is the kind with one of its plantings.
func (k *kindBlock) only(plant int) *kindBlock {
	one := &kindBlock{id: k.id, rows: k.rows, plants: k.plants[plant : plant+1], habits: k.habits[plant : plant+1],
		sites: slices.Clone(k.sites[k.start[plant]:k.start[plant+1]]), habitSD: k.habitSD}
	for i := range one.sites {
		one.sites[i].plant = 0
	}
	one.start = []int{0, len(one.sites)}
	return one
}

// climb takes Newton steps to the summit; as in the whole fit, first as if no
// look were misread. Where a step finds no way up it is taken again without
// weights below 0.
func (r *refit) climb(odds, stop float64) {
	height := r.height(odds)
	for range mostSteps {
		climbed, longest, up := r.step(height, odds)
		height = climbed
		switch {
		case !up && r.curve.careful, up && longest < stop:
			return
		case !up:
			r.curve.careful = true
			height = r.height(odds)
		}
	}
}

// rowsAt gives the rows for a pull.
func (r *refit) rowsAt(pull []float64) []float64 {
	return movedBy(r.rowMean, r.cavity.rows.timesVector(pull), 1)
}

// height reckons the curve where the refit stands and gives the log posterior.
func (r *refit) height(odds float64) float64 {
	r.curve.at(r.kindBlock, r.delta, r.habits, odds, r.year)
	height := r.curve.logL
	for i, a := range r.pull {
		height -= a * (r.delta[i] - r.rowMean[i]) / 2
	}
	return height
}

// step takes one Newton step, halved until it climbs; up is false, and nothing
// moved, where it does not.
func (r *refit) step(height, odds float64) (climbed, longest float64, up bool) {
	goal := r.goal()
	fromPull, fromDelta, fromHabits := slices.Clone(r.pull), slices.Clone(r.delta), slices.Clone(r.habits)
	step := r.rowsAt(goal)
	for i := range step {
		step[i] -= fromDelta[i]
		goal[i] -= fromPull[i]
	}
	moves := make([]float64, len(fromHabits))
	r.curve.follow(r.kindBlock, step, moves)
	for scale, try := 1.0, 0; try < halvings; scale, try = scale/2, try+1 {
		moveAll(r.pull, fromPull, goal, scale)
		longest = math.Max(moveAll(r.delta, fromDelta, step, scale), moveAll(r.habits, fromHabits, moves, scale))
		if climbed = r.height(odds); climbed >= height-flat(height) {
			return climbed, longest, true
		}
	}
	r.pull, r.delta, r.habits = fromPull, fromDelta, fromHabits
	return r.height(odds), 0, false
}

// goal is the pull at the summit of the present parabola.
func (r *refit) goal() []float64 {
	n := len(r.delta)
	goal := square{n, r.curve.m}.timesVector(movedBy(r.delta, r.rowMean, -1))
	for i := range goal {
		goal[i] += r.curve.reduced[i]
	}
	r.stiffness(r.curve.m).solve(goal, 1)
	return goal
}

// outlooks gives what the refit says of the planting at each row.
func (r *refit) outlooks() []outlook {
	covariance := r.rowSpread()
	together, season := r.together.timesVector(r.pull), r.season.timesVector(r.pull)
	habitVariance, withHabit := r.habitSpread(0, covariance, r.curve)
	looks := make([]outlook, len(r.delta))
	for i := range looks {
		variance := covariance.at(i, i) + habitVariance + 2*withHabit[i]
		looks[i] = outlook{r.delta[i] + r.habits[0], math.Max(0, variance), r.togetherMean[i] + together[i], r.seasonMean[i] + season[i]}
	}
	return looks
}

// rowSpread is the covariance of the rows: K(I+MK)⁻¹.
func (r *refit) rowSpread() square {
	return r.cavity.rows.times(r.stiffness(r.curve.m).inverse())
}

// habitSpread is the variance of a planting's habit, and its covariance with
// each row: the habit gives way to the rows by its sites' share.
func (k *kindBlock) habitSpread(plant int, rows square, c *kindCurve) (variance float64, withRows []float64) {
	share := k.habitShare(plant, c, rows.n)
	withRows = rows.timesVector(share)
	variance = 1 / c.stiff[plant]
	for i, s := range share {
		variance += s * withRows[i]
	}
	return variance, withRows
}

// habitShare is how far a habit goes when each row goes by a day.
func (k *kindBlock) habitShare(plant int, c *kindCurve, rows int) []float64 {
	share := make([]float64, rows)
	for i := k.start[plant]; i < k.start[plant+1]; i++ {
		share[k.sites[i].row] -= c.weight[i] / c.stiff[plant]
	}
	return share
}
