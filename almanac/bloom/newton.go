package bloom

import "gonum.org/v1/gonum/mat"

// A windowCut is a kind seen from its rows with habits and the windows' shifts
// profiled out: what the globals feel of the kind.
type windowCut struct {
	weight   *mat.Dense    // between rows
	reduced  []float64     // slope in each row
	stiffInv *mat.SymDense // inverse weight of the shifts
	across   *mat.Dense    // rows × windows: weight of rows on shifts
	pull     *mat.VecDense
}

// cutWindows profiles out the shifts of a kind's windows: a Schur complement of
// the size of its windows. ok is false where the curve does not bend down.
func cutWindows(k *kindBlock, c *kindCurve) (cut *windowCut, ok bool) {
	rows, windows := len(k.rows), len(k.windows)
	cut = &windowCut{weight: mat.NewDense(rows, rows, append([]float64(nil), c.m...)), across: mat.NewDense(rows, windows, nil),
		stiffInv: mat.NewSymDense(windows, nil), pull: mat.NewVecDense(windows, nil)}
	stiff := mat.NewSymDense(windows, nil)
	for w, sd := range k.windowSD {
		stiff.SetSym(w, w, 1/(sd*sd))
		cut.pull.SetVec(w, -k.shift[w]/(sd*sd))
	}
	for i, r := range k.rows {
		cut.pull.SetVec(r.window, cut.pull.AtVec(r.window)+c.reduced[i])
		for j, s := range k.rows {
			m := c.m[i*rows+j]
			cut.across.Set(i, s.window, cut.across.At(i, s.window)+m)
			if r.window <= s.window {
				stiff.SetSym(r.window, s.window, stiff.At(r.window, s.window)+m)
			}
		}
	}
	var cholesky mat.Cholesky
	if !cholesky.Factorize(stiff) {
		return nil, false
	}
	mustHold(cholesky.InverseTo(cut.stiffInv))
	cut.profile(c)
	return cut, true
}

// profile takes out what the shifts would give way.
func (cut *windowCut) profile(c *kindCurve) {
	var give, back mat.Dense
	give.Mul(cut.across, cut.stiffInv)
	back.Mul(&give, cut.across.T())
	cut.weight.Sub(cut.weight, &back)
	var lost mat.VecDense
	lost.MulVec(&give, cut.pull)
	cut.reduced = make([]float64, len(c.reduced))
	for i, g := range c.reduced {
		cut.reduced[i] = g - lost.AtVec(i)
	}
}

// newtonStep is the step to the summit of the present parabola: globals first,
// with everything else following, then shifts, then habits.
func (f *fit) newtonStep(odds float64) state {
	cuts, slope := f.assembleBent(odds)
	var u mat.VecDense
	mustHold(f.hessian.SolveVecTo(&u, slope))
	step := state{globals: u.RawVector().Data}
	for i, k := range f.kinds {
		shifts, moves := f.follow(k, cuts[i], step.globals)
		habits := make([]float64, len(k.plants))
		f.curves[i].follow(k, moves, habits)
		step.shifts, step.habits = append(step.shifts, shifts), append(step.habits, habits)
	}
	return step
}

// follow gives how the shifts, and with them the rows, move with the globals.
func (f *fit) follow(k *kindBlock, cut *windowCut, globals []float64) (shifts, rows []float64) {
	moves := mat.NewVecDense(len(k.rows), nil)
	for i := range k.rows {
		moves.SetVec(i, k.rows[i].move(globals))
	}
	var taken, shift mat.VecDense
	taken.MulVec(cut.across.T(), moves)
	taken.SubVec(cut.pull, &taken)
	shift.MulVec(cut.stiffInv, &taken)
	for i, r := range k.rows {
		moves.SetVec(i, moves.AtVec(i)+shift.AtVec(r.window))
	}
	return shift.RawVector().Data, moves.RawVector().Data
}

// move is how far a row goes when the globals go by step.
func (r *row) move(step []float64) float64 {
	return step[0] + step[1+r.knots.left]*r.knots.leftWeight + step[1+r.knots.right]*r.knots.rightWeight
}

// terms are the globals that a row touches and by how much.
func (r *row) terms() [3]term {
	return [3]term{{0, 1}, {1 + r.knots.left, r.knots.leftWeight}, {1 + r.knots.right, r.knots.rightWeight}}
}

type term struct {
	at     int
	weight float64
}

// assemble factors the globals' weight, everything else following, and gives
// the slope in them and each kind's cut. ok is false where the log posterior
// does not bend down.
func (f *fit) assemble() (cuts []*windowCut, slope *mat.VecDense, ok bool) {
	n := len(f.globals)
	weight := mat.NewSymDense(n, nil)
	weight.CopySym(f.precision)
	slope = mat.NewVecDense(n, nil)
	slope.MulVec(f.precision, mat.NewVecDense(n, f.globals))
	slope.ScaleVec(-1, slope)
	for i, k := range f.kinds {
		cut, ok := cutWindows(k, f.curves[i])
		if !ok {
			return nil, nil, false
		}
		cuts = append(cuts, cut)
		addKind(k, cut, weight, slope)
	}
	return cuts, slope, f.hessian.Factorize(weight)
}

// assembleBent assembles where the fit stands; where the log posterior does not
// bend down there, without the weights below 0.
func (f *fit) assembleBent(odds float64) ([]*windowCut, *mat.VecDense) {
	if cuts, slope, ok := f.assemble(); ok {
		return cuts, slope
	}
	f.beCareful(true)
	f.refresh(odds)
	cuts, slope, ok := f.assemble()
	if !ok {
		panic("bloom: weights that are not negative gave no summit")
	}
	return cuts, slope
}

func (f *fit) beCareful(careful bool) {
	for _, c := range f.curves {
		c.careful = careful
	}
}

// addKind adds what the globals feel of one kind.
func addKind(k *kindBlock, cut *windowCut, weight *mat.SymDense, slope *mat.VecDense) {
	for i := range k.rows {
		for _, a := range k.rows[i].terms() {
			slope.SetVec(a.at, slope.AtVec(a.at)+a.weight*cut.reduced[i])
		}
		for j := range k.rows {
			if m := cut.weight.At(i, j); m != 0 {
				addPair(&k.rows[i], &k.rows[j], m, weight)
			}
		}
	}
}

// addPair adds the weight between two rows to the upper half of the globals'.
func addPair(a, b *row, m float64, weight *mat.SymDense) {
	raw := weight.RawSymmetric()
	for _, s := range a.terms() {
		for _, t := range b.terms() {
			if s.at <= t.at {
				raw.Data[s.at*raw.Stride+t.at] += s.weight * m * t.weight
			}
		}
	}
}
