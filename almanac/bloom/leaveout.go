package bloom

import (
	"math"
	"slices"
)

// A cavity is what all other kinds, and the garden's and season's prior, say
// about the rows of one kind: a normal on what season and garden's difference
// come to there, found by taking the kind's own weight out of the fit again.
type cavity struct {
	mean       []float64 // of each row
	together   square    // covariance of season and garden together
	withShift  square    // the same with the windows' shifts added
	season     square    // covariance of the season alone with the two together
	seasonMean []float64
	scratch    *kindCurve // for the refits, one after the other
}

// cavityOf takes one kind out. With T the fitted covariance of its rows, M its
// own weight on them and G its slope, the rest of the garden says covariance
// T(I−MT)⁻¹ and a mean lower by that times G.
func (f *fit) cavityOf(kind int) *cavity {
	k, n := f.kinds[kind], len(f.kinds[kind].rows)
	together, season := f.rowCovariance(k)
	keep := square{n, f.cuts[kind].weight}.times(together)
	for i := range keep.a {
		keep.a[i] = -keep.a[i]
	}
	keep.addIdentity()
	without := keep.inverse()
	c := &cavity{together: together.times(without), season: season.times(without), scratch: newKindCurve(k)}
	c.withShift = addShifts(k, c.together)
	lost, lostSeason := c.together.timesVector(f.curves[kind].gradient), c.season.timesVector(f.curves[kind].gradient)
	for i := range k.rows {
		c.mean = append(c.mean, f.rowValue(&k.rows[i])-lost[i])
		c.seasonMean = append(c.seasonMean, f.seasonAt(&k.rows[i])-lostSeason[i])
	}
	return c
}

// rowCovariance is the fitted covariance of season and garden's difference
// between a kind's rows, and of the season alone with the two.
func (f *fit) rowCovariance(k *kindBlock) (together, season square) {
	n := len(k.rows)
	together, season = newSquare(n), newSquare(n)
	for i := range k.rows {
		for j := range k.rows {
			together.a[i*n+j], season.a[i*n+j] = f.covariance(&k.rows[i], &k.rows[j])
		}
	}
	return together, season
}

// covariance is that of season and garden together at a with the same at b, and
// of the season alone at a with the two at b.
func (f *fit) covariance(a, b *row) (together, season float64) {
	for i, ta := range a.terms() {
		part := 0.0
		for _, tb := range b.terms() {
			part += ta.weight * tb.weight * f.spread.At(ta.at, tb.at)
		}
		if together += part; i > 0 {
			season += part
		}
	}
	return together, season
}

func addShifts(k *kindBlock, rows square) square {
	with := square{rows.n, slices.Clone(rows.a)}
	for i, r := range k.rows {
		for j, s := range k.rows {
			if r.window == s.window {
				with.a[i*rows.n+j] += k.windowSD[r.window] * k.windowSD[r.window]
			}
		}
	}
	return with
}

// An outlook is what the model, one planting's own season left out, says about
// one of that planting's flushes of that season, in days from the row's
// expectation: the linear predictor, and the shares of garden and season in it.
type outlook struct {
	mean, variance float64
	together       float64 // season and garden's difference
	season         float64
}

// A refit is one kind fitted again with one planting's season left out, the
// rest of the garden entering as its cavity. The rows are at mean + K·pull with
// K the cavity's covariance (Rasmussen & Williams 2006, section 3.4).
type refit struct {
	*kindBlock
	*cavity
	out    plantYear
	curve  *kindCurve
	pull   []float64
	delta  []float64
	habits []float64
}

// leaveOut refits a kind, starting from where the whole garden's fit stands.
func (f *fit) leaveOut(kind int, c *cavity, out plantYear) *refit {
	k := f.kinds[kind]
	c.scratch.careful = false
	r := &refit{kindBlock: k, cavity: c, out: out, curve: c.scratch,
		pull: slices.Clone(f.curves[kind].gradient), habits: slices.Clone(k.habits)}
	r.delta = r.rowsAt(r.pull)
	if slices.ContainsFunc(k.sites, out.holds) {
		r.climb(0, startDays)
	}
	r.climb(blindOdds, refitStopDays)
	return r
}

// climb takes Newton steps to the summit; as in the whole fit, first as if no
// look were misread. A step that finds no way up is taken again without weights
// below 0.
func (r *refit) climb(odds, stop float64) {
	height := r.height(odds)
	for range mostSteps {
		climbed, longest := r.step(height, odds)
		height = climbed
		switch {
		case longest == 0 && !r.curve.careful:
			r.curve.careful = true
			height = r.height(odds)
		case longest < stop:
			return
		}
	}
}

// rowsAt gives the rows for a pull.
func (r *refit) rowsAt(pull []float64) []float64 {
	rows := r.withShift.timesVector(pull)
	for i := range rows {
		rows[i] += r.mean[i]
	}
	return rows
}

// height reckons the curve where the refit stands and gives the log posterior.
func (r *refit) height(odds float64) float64 {
	r.curve.at(r.kindBlock, r.delta, r.habits, odds, r.out)
	height := r.curve.logL
	for i, a := range r.pull {
		height -= a * (r.delta[i] - r.mean[i]) / 2
	}
	return height
}

// step takes one Newton step, halved until it climbs.
func (r *refit) step(height, odds float64) (climbed, longest float64) {
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
			return climbed, longest
		}
	}
	r.pull, r.delta, r.habits = fromPull, fromDelta, fromHabits
	return r.height(odds), 0
}

// goal is the pull at the summit of the present parabola.
func (r *refit) goal() []float64 {
	above := make([]float64, len(r.rows))
	for i := range above {
		above[i] = r.delta[i] - r.mean[i]
	}
	goal := square{len(r.rows), r.curve.m}.timesVector(above)
	for i := range goal {
		goal[i] += r.curve.reduced[i]
	}
	r.stiffness().solve(goal, 1)
	return goal
}

// stiffness is I + MK.
func (r *refit) stiffness() square {
	stiff := square{len(r.rows), r.curve.m}.times(r.withShift)
	stiff.addIdentity()
	return stiff
}

// outlooks gives what the refit says of the left-out planting at each row.
func (r *refit) outlooks() []outlook {
	covariance := r.rowSpread()
	together, season := r.cavity.together.timesVector(r.pull), r.season.timesVector(r.pull)
	habitVariance, withHabit := r.habitSpread(r.out.plant, covariance)
	looks := make([]outlook, len(r.rows))
	for i := range looks {
		variance := covariance.at(i, i) + habitVariance + 2*withHabit[i]
		looks[i] = outlook{r.delta[i] + r.habits[r.out.plant], math.Max(0, variance),
			r.mean[i] + together[i], r.seasonMean[i] + season[i]}
	}
	return looks
}

// rowSpread is the covariance of the rows: K(I+MK)⁻¹.
func (r *refit) rowSpread() square { return r.withShift.times(r.stiffness().inverse()) }

// habitSpread is the variance of a planting's habit, and its covariance with
// each row: the habit gives way to the rows by its sites' share.
func (r *refit) habitSpread(plant int, rows square) (variance float64, withRows []float64) {
	share := make([]float64, len(r.rows))
	for i := r.start[plant]; i < r.start[plant+1]; i++ {
		share[r.sites[i].row] -= r.curve.weight[i] / r.curve.stiff[plant]
	}
	withRows = rows.timesVector(share)
	variance = 1 / r.curve.stiff[plant]
	for i, s := range share {
		variance += s * withRows[i]
	}
	return variance, withRows
}
