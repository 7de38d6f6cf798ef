package bloom

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// A fit is the model at its most probable values: the garden's difference and
// the season's knots (the globals, shared by all kinds), and each kind's shift
// and plantings' habits (kept in its kindBlock).
type fit struct {
	*layout
	spreads   spreads
	precision *mat.SymDense // of the globals beforehand
	values    []float64     // all that is fitted: the globals, then each kind's shifts and habits
	globals   []float64     // the garden's difference, each knot in sds of the season, the response to heat
	hessian   mat.Cholesky  // of the globals, everything else following
	spread    *mat.SymDense // its inverse: the globals' covariance
	stated    *mat.SymDense // the knots' part of it, with the stated spreads
	halves    [2]half       // of the year, for learning the season's spreads
	curves    []*kindCurve
	cuts      []*windowCut
	deltas    [][]float64 // each kind's rows: season, garden and kind together
}

// newFit fits the layout's flushes: all of them, then without those that chance
// does not explain, then with the spreads that the garden teaches. Likelihood and
// prior are log-concave, so each has one summit, and where a climb starts does
// not matter.
func newFit(l *layout) *fit {
	f := &fit{layout: l, spreads: statedSpreads(), values: make([]float64, l.place())}
	f.setPrior()
	f.globals = f.values[:l.globalsInAll()]
	for _, k := range l.kinds {
		k.shift = f.values[k.at : k.at+len(k.windows)]
		k.habits = f.values[k.at+len(k.windows) : k.at+len(k.windows)+len(k.plants)]
		f.curves = append(f.curves, newKindCurve(k))
		f.cuts = append(f.cuts, newWindowCut(k))
		f.deltas = append(f.deltas, make([]float64, len(k.rows)))
	}
	f.climb(startDays)
	if f.setAside() {
		f.climb(startDays)
	}
	if l.seasons() >= learnFromSeasons {
		f.learnSpreads()
	}
	f.climb(stopDays)
	return f
}

// place gives each kind its place among all values, and their number.
func (l *layout) place() int {
	at := l.globalsInAll()
	for _, k := range l.kinds {
		k.at = at
		at += len(k.windows) + len(k.plants)
	}
	return at
}

// setPrior makes the inverse covariance of the globals before any look.
func (f *fit) setPrior() {
	all := make([]int, len(f.knots))
	for i := range all {
		all[i] = i
	}
	f.stated = f.knotPrecision(all)
	f.precision = mat.NewSymDense(f.globalsInAll(), nil)
	f.precision.SetSym(theGarden, theGarden, 1/(sdGarden*sdGarden))
	for i := range all {
		for j := i; j < len(all); j++ {
			f.precision.SetSym(firstKnot+i, firstKnot+j, f.stated.At(i, j))
		}
	}
	for i := firstKnot + len(all); i < f.globalsInAll(); i++ {
		f.precision.SetSym(i, i, 1)
	}
}

// knotPrecision is the inverse of the correlation between some of the knots.
// The little that is added to its diagonal keeps the inverse sound.
func (l *layout) knotPrecision(which []int) *mat.SymDense {
	if len(which) == 0 {
		return &mat.SymDense{}
	}
	correlation := mat.NewSymDense(len(which), nil)
	for i, a := range which {
		for j := i; j < len(which); j++ {
			correlation.SetSym(i, j, seasonCorrelation(float64(l.knots[which[j]]-l.knots[a])*knotSpacingDays))
		}
		correlation.SetSym(i, i, 1+1e-9)
	}
	var cholesky mat.Cholesky
	cholesky.Factorize(correlation)
	var precision mat.SymDense
	mustHold(cholesky.InverseTo(&precision))
	return &precision
}

// informedKnots are the knots that the rows of any site touch.
func (l *layout) informedKnots() []int {
	var knots []int
	for _, k := range l.kinds {
		for _, r := range k.rows {
			if r.opened > 0 {
				knots = append(knots, r.knots.left, r.knots.right)
			}
		}
	}
	slices.Sort(knots)
	return slices.Compact(knots)
}

// mustHold turns gonum's warning of a badly conditioned matrix, which its
// results survive, into nothing: every matrix here is a prior's precision plus
// weights that are not negative.
func mustHold(err error) {
	if _, warning := err.(mat.Condition); err != nil && !warning {
		panic("bloom: " + err.Error())
	}
}

// climb takes Newton steps, halved until they climb, until no value moves by
// more than stop days.
func (f *fit) climb(stop float64) {
	height := f.refresh()
	for range mostSteps {
		step := f.newtonStep()
		climbed, longest := f.take(step, height)
		if height = climbed; longest < stop {
			break
		}
	}
	f.assemble()
	f.spread = mat.NewSymDense(len(f.globals), nil)
	mustHold(f.hessian.InverseTo(f.spread))
}

// refresh reckons rows and curves at the present values and gives the log
// posterior there.
func (f *fit) refresh() float64 {
	height := f.priorHeight()
	for i, k := range f.kinds {
		for r := range k.rows {
			f.deltas[i][r] = f.rowValue(&k.rows[r]) + k.shift[k.rows[r].window]
		}
		f.curves[i].at(k, f.deltas[i], k.habits, noOne)
		height += f.curves[i].logL
		for w, m := range k.shift {
			height -= m * m / (2 * k.windowSD[w] * k.windowSD[w])
		}
	}
	return height
}

func (f *fit) priorHeight() float64 {
	u := mat.NewVecDense(len(f.globals), f.globals)
	return -mat.Inner(u, f.precision, u) / 2
}

// rowValue is the season and the garden's difference together at a row.
func (f *fit) rowValue(r *row) float64 { return r.mean + r.move(f.globals) }

// seasonAt is the season at a row.
func (f *fit) seasonAt(r *row) float64 {
	return f.rowValue(r) - f.globals[theGarden]
}

// take moves by as much of the step as climbs, and gives the height reached and
// the longest move.
func (f *fit) take(step []float64, height float64) (climbed, longest float64) {
	from := slices.Clone(f.values)
	for scale, try := 1.0, 0; try < halvings; scale, try = scale/2, try+1 {
		longest = moveAll(f.values, from, step, scale)
		if climbed = f.refresh(); climbed >= height-flat(height) {
			return climbed, longest
		}
	}
	copy(f.values, from)
	return f.refresh(), 0
}

// flat is how far rounding may take a log posterior down where it is level.
func flat(height float64) float64 { return roundingShare * math.Abs(height) }

// moveAll sets values to from + scale·step and gives the longest move of any.
func moveAll(to, from, step []float64, scale float64) (longest float64) {
	for i := range to {
		to[i] = from[i] + scale*step[i]
		longest = math.Max(longest, math.Abs(scale*step[i]))
	}
	return longest
}
