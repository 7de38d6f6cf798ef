package growth

import (
	"math"

	"haulm/almanac/stats"
)

// weigh sets what measuring and chance do to each row at an own, and how far off
// each row is.
func (f *fitter) weigh(t theta) {
	o := f.size.own(t)
	_, isWoody := f.course.(*woody)
	for i := range f.rows {
		r := &f.rows[i]
		p := f.course.at(r.where, o)
		r.sd = measuringError(math.Max(r.cm, p.cm))
		r.off = (p.cm - r.cm) / r.sd
		if isWoody {
			r.common = math.Hypot(seasonSD/math.Sqrt(r.where.seasons)*p.by[ofRate], p.startErr) / r.sd
		}
	}
	f.eachPart(doubt)
}

// doubt weighs down each row that is far off from the middle of its part. One or
// two rows alone are believed: nothing tells which is wrong.
func doubt(rows []row) {
	offs := make([]float64, len(rows))
	for i := range rows {
		offs[i], rows[i].weight = rows[i].off, 1
	}
	if len(rows) < fewestToDoubt {
		return
	}
	middle := stats.Median(offs)
	spread := math.Max(1, stats.ConsistentMAD*stats.MAD(offs))
	for i := range rows {
		rows[i].weight = math.Min(1, farOff*spread/math.Abs(rows[i].off-middle))
	}
}

// eachPart calls a function with the rows of each part.
func (f *fitter) eachPart(do func([]row)) {
	for from := 0; from < len(f.rows); {
		to := from
		for to < len(f.rows) && f.rows[to].where.part == f.rows[from].where.part {
			to++
		}
		do(f.rows[from:to])
		from = to
	}
}

// whiten takes the chance that rows of a part share, covariance I + zzᵀ, out of
// residuals and Jacobian: u becomes u − z·(zᵀu)·(1 − 1/√(1+zᵀz))/zᵀz.
func (f *fitter) whiten(r, jacobian []float64, p int) {
	for from := 0; from < len(f.rows); {
		to, square := from, 0.0
		for ; to < len(f.rows) && f.rows[to].where.part == f.rows[from].where.part; to++ {
			square += f.rows[to].common * f.rows[to].common * f.rows[to].weight
		}
		if square > 0 {
			factor := (1 - 1/math.Sqrt(1+square)) / square
			f.deflate(from, to, factor, r, 1, 0)
			for j := range p {
				f.deflate(from, to, factor, jacobian, p, j)
			}
		}
		from = to
	}
}

// deflate does that to one column of a matrix with so many columns.
func (f *fitter) deflate(from, to int, factor float64, matrix []float64, columns, column int) {
	along := 0.0
	for i := from; i < to; i++ {
		along += f.rows[i].common * math.Sqrt(f.rows[i].weight) * matrix[i*columns+column]
	}
	for i := from; i < to; i++ {
		matrix[i*columns+column] -= factor * along * f.rows[i].common * math.Sqrt(f.rows[i].weight)
	}
}
