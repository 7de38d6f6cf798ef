package growth

import (
	"math"

	"haulm/almanac/stats"
)

// A row is one measure as the fit sees it. Rows that share a group share its
// chance: what that season, or that stretch of growth, did.
type row struct {
	where  spot
	cm     float64
	sd     float64 // of measuring
	group  int
	common float64 // what the group's chance does to this row, in units of sd
	off    float64 // from the last fit, in units of sd
	weight float64 // of a row far off, less than 1
}

// A fitter finds the planting's own rate, size and beginning by maximum a
// posteriori: least squares of measures and priors together.
type fitter struct {
	course course
	size   prior
	free   bool // the beginning is fitted too
	rows   []row
	ratios []ratio
}

// A ratio is a measure that tells of the rate alone: log is what its logarithm
// would be at the usual rate less what it is, in units of sd.
type ratio struct{ off, sd float64 }

// A posterior is what is thought of own after measuring.
type posterior struct {
	theta    [3]float64
	cov      [3][3]float64
	measured bool
}

func (p *planner) newFitter(c course) *fitter {
	f := &fitter{course: c, size: p.size}
	if w, isWoody := c.(*woody); isWoody {
		f.free = w.segments[0].free
	}
	for _, h := range p.heights {
		where := c.spot(h.day)
		if !where.judged {
			continue
		}
		group := where.season
		if p.way == woodyGrowth {
			group = where.part
		}
		f.rows = append(f.rows, row{where: where, cm: h.cm, group: group, weight: 1})
	}
	return f
}

// prior is own before measuring.
func (f *fitter) prior() posterior {
	post := posterior{theta: [3]float64{0, f.size.mean, 0}}
	post.cov[0][0], post.cov[1][1] = rateSD*rateSD, f.size.sd*f.size.sd
	if f.free {
		post.cov[2][2] = startSD * startSD
	}
	return post
}

const (
	mostPasses = 12   // of reweighting; each is a step or two once the first is done
	sameTheta  = 1e-9 // change of a logarithm that no rounding shows
)

// fit finds own. What chance does to a measure depends on own itself, so the fit
// is repeated with it reckoned anew until own stays (iteratively reweighted least
// squares). Without measures, or when they do not settle, it is the prior.
func (f *fitter) fit() posterior {
	post := f.prior()
	if len(f.rows)+len(f.ratios) == 0 {
		return post
	}
	p := f.parameters()
	theta := append([]float64(nil), post.theta[:p]...)
	for range mostPasses {
		f.weigh(theta)
		least, err := stats.LeastSquares(theta, len(f.rows)+len(f.ratios)+p, f.residuals)
		if err != nil && least.Inverse == nil {
			return f.prior()
		}
		moved := 0.0
		for j := range p {
			moved = math.Max(moved, math.Abs(least.Theta[j]-theta[j]))
			post.theta[j] = least.Theta[j]
			copy(post.cov[j][:], least.Inverse[j*p:(j+1)*p])
		}
		theta = least.Theta
		if moved < sameTheta {
			break
		}
	}
	post.measured = true
	return post
}

func (f *fitter) parameters() int {
	if f.free {
		return 3
	}
	return 2
}

// weigh sets what measuring and chance do to each row at an own, and how far off
// each row is.
func (f *fitter) weigh(theta []float64) {
	season := f.lastSeason()
	o := ownOf([3]float64{theta[0], theta[1], f.start(theta)})
	for i := range f.rows {
		r := &f.rows[i]
		p := f.course.at(r.where, o)
		stray := seasonSD / math.Sqrt(r.where.seasons)
		if _, rises := f.course.(*seasonal); rises { // the rate is that of the last season
			stray = driftSD * math.Sqrt(float64(season-r.where.season))
		}
		r.sd = measuringError(math.Max(r.cm, p.cm))
		r.common = math.Hypot(math.Hypot(stray*p.by[0], timingSD*p.byDay), p.startErr) / r.sd
		r.off = (p.cm - r.cm) / r.sd
	}
	f.eachGroup(doubt)
}

func (f *fitter) lastSeason() int {
	last := 0
	for _, r := range f.rows {
		last = max(last, r.where.season)
	}
	return last
}

// doubt weighs down each row that is far off from the middle of its group. One or
// two rows alone are believed: nothing tells which is wrong.
func doubt(rows []row) {
	if len(rows) < fewestToDoubt {
		return
	}
	offs := make([]float64, len(rows))
	for i, r := range rows {
		offs[i] = r.off
	}
	middle := stats.Median(offs)
	for i := range rows {
		rows[i].weight = math.Min(1, farOff/math.Abs(rows[i].off-middle))
	}
}

// eachGroup calls a function with the rows of each group.
func (f *fitter) eachGroup(do func([]row)) {
	for from := 0; from < len(f.rows); {
		to := from
		for to < len(f.rows) && f.rows[to].group == f.rows[from].group {
			to++
		}
		do(f.rows[from:to])
		from = to
	}
}

func (f *fitter) start(theta []float64) float64 {
	if f.free {
		return theta[2]
	}
	return 0
}

// residuals is what stats.LeastSquares minimises: rows whitened group by group,
// ratios, and the priors.
func (f *fitter) residuals(theta, r, jacobian []float64) {
	p := len(theta)
	o := ownOf([3]float64{theta[0], theta[1], f.start(theta)})
	for i, row := range f.rows {
		at := f.course.at(row.where, o)
		scale := math.Sqrt(row.weight) / row.sd
		r[i] = (at.cm - row.cm) * scale
		for j := range p {
			jacobian[i*p+j] = at.by[j] * scale
		}
	}
	f.whiten(r, jacobian, p)
	n := len(f.rows)
	clear(jacobian[n*p:])
	for _, one := range f.ratios {
		r[n] = (theta[0] + one.off) / one.sd
		jacobian[n*p] = 1 / one.sd
		n++
	}
	means := [3]float64{0, f.size.mean, 0}
	sds := [3]float64{rateSD, f.size.sd, startSD}
	for j := range p {
		r[n+j] = (theta[j] - means[j]) / sds[j]
		jacobian[(n+j)*p+j] = 1 / sds[j]
	}
}

// whiten takes the chance that rows of a group share, covariance I + zzᵀ, out of
// residuals and Jacobian: u becomes u − z·(zᵀu)·(1 − 1/√(1+zᵀz))/zᵀz.
func (f *fitter) whiten(r, jacobian []float64, p int) {
	for from := 0; from < len(f.rows); {
		to, square := from, 0.0
		for ; to < len(f.rows) && f.rows[to].group == f.rows[from].group; to++ {
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
