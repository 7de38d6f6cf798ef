package bloom

import "gonum.org/v1/gonum/mat"

// A windowCut is a kind seen from its rows with habits and the windows' shifts
// profiled out: what the globals feel of the kind. The shifts are taken out one
// after the other, so that each is one number's Schur complement.
type windowCut struct {
	weight  []float64   // between rows; row-major
	reduced []float64   // slope in each row
	stiff   []float64   // weight of each shift when its turn came
	pull    []float64   // slope in it then
	across  [][]float64 // weight of each row on it then
	rows    []float64   // how the rows move in a step
}

func newWindowCut(k *kindBlock) *windowCut {
	rows, windows := len(k.rows), len(k.windows)
	cut := &windowCut{weight: make([]float64, rows*rows), reduced: make([]float64, rows),
		stiff: make([]float64, windows), pull: make([]float64, windows), rows: make([]float64, rows)}
	for range windows {
		cut.across = append(cut.across, make([]float64, rows))
	}
	return cut
}

// at profiles the shifts out of a curve.
func (cut *windowCut) at(k *kindBlock, c *kindCurve) {
	copy(cut.weight, c.m)
	copy(cut.reduced, c.reduced)
	for w := range k.windows {
		cut.takeOut(k, w)
	}
}

// takeOut profiles one window's shift out.
func (cut *windowCut) takeOut(k *kindBlock, w int) {
	n, prior, across := len(k.rows), 1/(k.windowSD[w]*k.windowSD[w]), cut.across[w]
	stiff, pull := prior, -k.shift[w]*prior
	clear(across)
	for j, r := range k.rows {
		if r.window != w {
			continue
		}
		pull += cut.reduced[j]
		for i := range n {
			across[i] += cut.weight[i*n+j]
		}
	}
	for i, r := range k.rows {
		if r.window == w {
			stiff += across[i]
		}
	}
	cut.stiff[w], cut.pull[w] = stiff, pull
	for i := range n {
		cut.reduced[i] -= across[i] / stiff * pull
		for j := range n {
			cut.weight[i*n+j] -= across[i] / stiff * across[j]
		}
	}
}

// follow gives how the shifts move with the globals, in shifts, and with both
// the rows, last shift taken out first.
func (cut *windowCut) follow(k *kindBlock, globals, shifts []float64) (rows []float64) {
	for i := range k.rows {
		cut.rows[i] = k.rows[i].move(globals)
	}
	for w := len(k.windows) - 1; w >= 0; w-- {
		pull := cut.pull[w]
		for i, a := range cut.across[w] {
			pull -= a * cut.rows[i]
		}
		shifts[w] = pull / cut.stiff[w]
		for i, r := range k.rows {
			if r.window == w {
				cut.rows[i] += shifts[w]
			}
		}
	}
	return cut.rows
}

// newtonStep is the step to the summit of the present parabola, laid out as the
// fit's values: globals first, with everything else following, then each kind's
// shifts, then its habits.
func (f *fit) newtonStep() []float64 {
	slope := f.assemble()
	step := make([]float64, len(f.values))
	globals := mat.NewVecDense(len(f.globals), step[:len(f.globals)])
	mustHold(f.hessian.SolveVecTo(globals, slope))
	for i, k := range f.kinds {
		rows := f.cuts[i].follow(k, step[:len(f.globals)], step[k.at:k.at+len(k.windows)])
		f.curves[i].follow(k, rows, step[k.at+len(k.windows):k.at+len(k.windows)+len(k.plants)])
	}
	return step
}

// move is how far a row goes when the globals go by step.
func (r *row) move(step []float64) (days float64) {
	for _, t := range r.terms {
		days += step[t.at] * t.weight
	}
	return days
}

// assemble factors the globals' weight, everything else following, and gives
// the slope in them.
func (f *fit) assemble() (slope *mat.VecDense) {
	n := len(f.globals)
	weight := mat.NewSymDense(n, nil)
	weight.CopySym(f.precision)
	slope = mat.NewVecDense(n, nil)
	slope.MulVec(f.precision, mat.NewVecDense(n, f.globals))
	slope.ScaleVec(-1, slope)
	for i, k := range f.kinds {
		f.cuts[i].at(k, f.curves[i])
		addKind(k, f.cuts[i], weight, slope)
	}
	if !f.hessian.Factorize(weight) {
		panic("bloom: a prior's precision and weights that are not negative gave no summit")
	}
	return slope
}

// addKind adds what the globals feel of one kind.
func addKind(k *kindBlock, cut *windowCut, weight *mat.SymDense, slope *mat.VecDense) {
	for i := range k.rows {
		for _, a := range k.rows[i].terms {
			slope.SetVec(a.at, slope.AtVec(a.at)+a.weight*cut.reduced[i])
		}
		for j := range k.rows {
			if m := cut.weight[i*len(k.rows)+j]; m != 0 {
				addPair(&k.rows[i], &k.rows[j], m, weight)
			}
		}
	}
}

// addPair adds the weight between two rows to the upper half of the globals'.
func addPair(a, b *row, m float64, weight *mat.SymDense) {
	raw := weight.RawSymmetric()
	for _, s := range a.terms {
		for _, t := range b.terms {
			if s.at <= t.at {
				raw.Data[s.at*raw.Stride+t.at] += s.weight * m * t.weight
			}
		}
	}
}
