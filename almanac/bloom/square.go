package bloom

import "math"

// A square is a small dense matrix, row-major. A kind has a handful of rows and
// is refitted for each of its plantings: at that size a library's workspace and
// estimates of condition cost several times the arithmetic.
type square struct {
	n int
	a []float64
}

func newSquare(n int) square { return square{n, make([]float64, n*n)} }

func (s square) at(i, j int) float64 { return s.a[i*s.n+j] }

func (s square) row(i int) []float64 { return s.a[i*s.n : (i+1)*s.n] }

// timesInto sets to to s·t.
func (s square) timesInto(t, to square) {
	clear(to.a)
	for i := range s.n {
		out := to.row(i)
		for k, v := range s.row(i) {
			if v == 0 {
				continue
			}
			for j, w := range t.row(k) {
				out[j] += v * w
			}
		}
	}
}

func (s square) times(t square) square {
	to := newSquare(s.n)
	s.timesInto(t, to)
	return to
}

// timesVector is s·v.
func (s square) timesVector(v []float64) []float64 {
	out := make([]float64, s.n)
	for i := range out {
		for j, w := range s.row(i) {
			out[i] += w * v[j]
		}
	}
	return out
}

// addIdentity adds 1 along the diagonal, in place.
func (s square) addIdentity() {
	for i := range s.n {
		s.a[i*s.n+i]++
	}
}

// solve overwrites columns with s⁻¹·columns, and s with what is left of it, by
// elimination with the largest pivot of each column. columns has width values in
// each of its n rows.
func (s square) solve(columns []float64, width int) {
	for p := range s.n {
		s.pivot(p, columns, width)
		for i := range s.n {
			if i != p {
				s.eliminate(i, p, columns, width)
			}
		}
	}
	for i := range s.n {
		for j := range width {
			columns[i*width+j] /= s.at(i, i)
		}
	}
}

// pivot brings the largest value at or below the diagonal onto it.
func (s square) pivot(p int, columns []float64, width int) {
	best := p
	for i := p + 1; i < s.n; i++ {
		if math.Abs(s.at(i, p)) > math.Abs(s.at(best, p)) {
			best = i
		}
	}
	if best == p {
		return
	}
	for j, v := range s.row(p) {
		s.row(p)[j], s.row(best)[j] = s.row(best)[j], v
	}
	for j := range width {
		columns[p*width+j], columns[best*width+j] = columns[best*width+j], columns[p*width+j]
	}
}

func (s square) eliminate(i, p int, columns []float64, width int) {
	share := s.at(i, p) / s.at(p, p)
	if share == 0 {
		return
	}
	from, to := s.row(p)[p:], s.row(i)[p:]
	for j, v := range from {
		to[j] -= share * v
	}
	for j := range width {
		columns[i*width+j] -= share * columns[p*width+j]
	}
}

// inverse is s⁻¹; s is lost.
func (s square) inverse() square {
	out := newSquare(s.n)
	out.addIdentity()
	s.solve(out.a, s.n)
	return out
}
