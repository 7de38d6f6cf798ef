package bloom

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// A cavity is what all other kinds, and the garden's and season's prior, say
// about the rows of one kind: a normal on what season and garden's difference
// come to there, found by taking the kind's own weight out of the fit again.
type cavity struct {
	mean       []float64  // of each row
	together   *mat.Dense // covariance of season and garden together
	withShift  *mat.Dense // the same with the windows' shifts added
	season     *mat.Dense // covariance of the season alone with the two together
	seasonMean []float64
}

// cavityOf takes one kind out. With T the fitted covariance of its rows, M its
// own weight on them and G its slope, the rest of the garden says covariance
// T(I−MT)⁻¹ and a mean lower by that times G.
func (f *fit) cavityOf(kind int) *cavity {
	k, cut := f.kinds[kind], f.cuts[kind]
	together, season := f.rowCovariance(k)
	var keep, without mat.Dense
	keep.Mul(cut.weight, together)
	keep.Apply(func(i, j int, v float64) float64 { return identity(i, j) - v }, &keep)
	mustHold(without.Inverse(&keep))
	c := &cavity{together: new(mat.Dense), season: new(mat.Dense)}
	c.together.Mul(together, &without)
	c.season.Mul(season, &without)
	c.withShift = addShifts(k, c.together)
	c.mean, c.seasonMean = f.cavityMeans(kind, c)
	return c
}

func (f *fit) cavityMeans(kind int, c *cavity) (together, season []float64) {
	k := f.kinds[kind]
	gradient := mat.NewVecDense(len(k.rows), f.curves[kind].gradient)
	var lost, lostSeason mat.VecDense
	lost.MulVec(c.together, gradient)
	lostSeason.MulVec(c.season, gradient)
	for i := range k.rows {
		together = append(together, f.rowValue(&k.rows[i])-lost.AtVec(i))
		season = append(season, f.seasonAt(&k.rows[i])-lostSeason.AtVec(i))
	}
	return together, season
}

// rowCovariance is the fitted covariance of season and garden's difference
// between a kind's rows, and of the season alone with the two.
func (f *fit) rowCovariance(k *kindBlock) (together, season *mat.Dense) {
	n := len(k.rows)
	together, season = mat.NewDense(n, n, nil), mat.NewDense(n, n, nil)
	for i := range k.rows {
		for j := range k.rows {
			both, alone := f.covariance(&k.rows[i], &k.rows[j])
			together.Set(i, j, both)
			season.Set(i, j, alone)
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

func addShifts(k *kindBlock, rows *mat.Dense) *mat.Dense {
	var with mat.Dense
	with.Apply(func(i, j int, v float64) float64 {
		if w := k.rows[i].window; w == k.rows[j].window {
			v += k.windowSD[w] * k.windowSD[w]
		}
		return v
	}, rows)
	return &with
}

func identity(i, j int) float64 {
	if i == j {
		return 1
	}
	return 0
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
	r := &refit{kindBlock: k, cavity: c, out: out, curve: newKindCurve(k)}
	r.pull = append(r.pull, f.curves[kind].gradient...)
	r.habits = append(r.habits, k.habits...)
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
	var moved mat.VecDense
	moved.MulVec(r.withShift, mat.NewVecDense(len(pull), pull))
	rows := make([]float64, len(pull))
	for i := range rows {
		rows[i] = r.mean[i] + moved.AtVec(i)
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
	fromPull, fromDelta, fromHabits := r.pull, r.delta, r.habits
	step := make([]float64, len(fromPull))
	for i, d := range r.rowsAt(goal) {
		step[i] = d - fromDelta[i]
	}
	moves := make([]float64, len(fromHabits))
	r.curve.follow(r.kindBlock, step, moves)
	for scale, try := 1.0, 0; try < halvings; scale, try = scale/2, try+1 {
		r.pull, r.habits = blendOf(fromPull, goal, scale), make([]float64, len(fromHabits))
		r.delta = make([]float64, len(fromDelta))
		longest = moveAll(r.delta, fromDelta, step, scale)
		longest = math.Max(longest, moveAll(r.habits, fromHabits, moves, scale))
		if climbed = r.height(odds); climbed >= height-flat(height) {
			return climbed, longest
		}
	}
	r.pull, r.delta, r.habits = fromPull, fromDelta, fromHabits
	return r.height(odds), 0
}

func blendOf(from, to []float64, share float64) []float64 {
	out := make([]float64, len(from))
	for i := range out {
		out[i] = from[i] + share*(to[i]-from[i])
	}
	return out
}

// goal is the pull at the summit of the present parabola.
func (r *refit) goal() []float64 {
	n := len(r.rows)
	weight := mat.NewDense(n, n, r.curve.m)
	b := mat.NewVecDense(n, nil)
	for i := range n {
		b.SetVec(i, r.delta[i]-r.mean[i])
	}
	b.MulVec(weight, b)
	for i := range n {
		b.SetVec(i, b.AtVec(i)+r.curve.reduced[i])
	}
	var lu mat.LU
	lu.Factorize(r.stiffness())
	goal := mat.NewVecDense(n, nil)
	mustHold(lu.SolveVecTo(goal, false, b))
	return goal.RawVector().Data
}

// stiffness is I + MK.
func (r *refit) stiffness() *mat.Dense {
	n := len(r.rows)
	var stiff mat.Dense
	stiff.Mul(mat.NewDense(n, n, r.curve.m), r.withShift)
	for i := range n {
		stiff.Set(i, i, stiff.At(i, i)+1)
	}
	return &stiff
}

// outlooks gives what the refit says of the left-out planting at each row.
func (r *refit) outlooks() []outlook {
	n := len(r.rows)
	covariance := r.rowSpread()
	var together, season mat.VecDense
	pull := mat.NewVecDense(n, r.pull)
	together.MulVec(r.cavity.together, pull)
	season.MulVec(r.season, pull)
	habitVariance, withHabit := r.habitSpread(r.out.plant, covariance)
	looks := make([]outlook, n)
	for i := range looks {
		variance := covariance.At(i, i) + habitVariance + 2*withHabit[i]
		looks[i] = outlook{r.delta[i] + r.habits[r.out.plant], math.Max(0, variance),
			r.mean[i] + together.AtVec(i), r.seasonMean[i] + season.AtVec(i)}
	}
	return looks
}

// rowSpread is the covariance of the rows: K(I+MK)⁻¹.
func (r *refit) rowSpread() *mat.Dense {
	var inverse, covariance mat.Dense
	mustHold(inverse.Inverse(r.stiffness()))
	covariance.Mul(r.withShift, &inverse)
	return &covariance
}

// habitSpread is the variance of a planting's habit, and its covariance with
// each row: the habit gives way to the rows by its sites' share.
func (r *refit) habitSpread(plant int, rows *mat.Dense) (variance float64, withRows []float64) {
	share := mat.NewVecDense(len(r.rows), nil)
	for i := r.start[plant]; i < r.start[plant+1]; i++ {
		row := r.sites[i].row
		share.SetVec(row, share.AtVec(row)-r.curve.weight[i]/r.curve.stiff[plant])
	}
	var with mat.VecDense
	with.MulVec(rows, share)
	return 1/r.curve.stiff[plant] + mat.Dot(share, &with), with.RawVector().Data
}
