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
	usual          float64 // variance of all but season
}

// A refit is one kind fitted again with one planting's year left out. All other
// kinds enter as the kind's cavity: normals taken where the whole fit stands. The
// rows are at mean + K·pull with K the cavity's covariance (Rasmussen & Williams
// 2006, section 3.4).
type refit struct {
	*kindBlock
	*cavity
	out    plantYear
	curve  *kindCurve
	pull   []float64
	delta  []float64
	habits []float64
}

// refit fits one kind again without a planting's year.
func (f *fit) refit(kind int, out plantYear, c *cavity) *refit {
	k := f.kinds[kind]
	r := &refit{kindBlock: k, cavity: c, out: out, curve: newKindCurve(k),
		pull: slices.Clone(f.curves[kind].gradient), habits: slices.Clone(k.habits)}
	r.delta = r.rowsAt(r.pull)
	r.climb()
	return r
}

// climb takes Newton steps to the summit.
func (r *refit) climb() {
	height := r.height()
	for range mostSteps {
		climbed, longest := r.step(height)
		if height = climbed; longest < refitStopDays {
			return
		}
	}
}

// rowsAt gives the rows for a pull.
func (r *refit) rowsAt(pull []float64) []float64 {
	return movedBy(r.rowMean, r.cavity.rows.timesVector(pull), 1)
}

// height reckons the curve where the refit stands and gives the log posterior.
func (r *refit) height() float64 {
	r.curve.at(r.kindBlock, r.delta, r.habits, r.out)
	height := r.curve.logL
	for i, a := range r.pull {
		height -= a * (r.delta[i] - r.rowMean[i]) / 2
	}
	return height
}

// step takes one Newton step, halved until it climbs, and gives the height reached
// and the longest move: 0 at the summit.
func (r *refit) step(height float64) (climbed, longest float64) {
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
		if climbed = r.height(); climbed >= height-flat(height) {
			return climbed, longest
		}
	}
	r.pull, r.delta, r.habits = fromPull, fromDelta, fromHabits
	return r.height(), 0
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
	after := r.stiffness(r.curve.m).inverse() // K(I+MK)⁻¹ is the rows' covariance with the kind's looks
	covariance, seasons := r.cavity.rows.times(after), r.season.times(after)
	together, season := r.together.timesVector(r.pull), r.season.timesVector(r.pull)
	plant := r.out.plant
	habitVariance, withHabit := r.habitSpread(plant, covariance, r.curve)
	seasonWithHabit := seasons.timesVector(r.habitShare(plant, r.curve, covariance.n))
	looks := make([]outlook, len(r.delta))
	for i := range looks {
		variance := math.Max(0, covariance.at(i, i)+habitVariance+2*withHabit[i])
		looks[i] = outlook{mean: r.delta[i] + r.habits[plant], variance: variance,
			together: r.togetherMean[i] + together[i], season: r.seasonMean[i] + season[i],
			usual: math.Max(0, variance+r.seasonVariance[i]-2*(seasons.at(i, i)+seasonWithHabit[i]))}
	}
	return looks
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
