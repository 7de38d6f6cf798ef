package growth

import (
	"math"

	"haulm/almanac/stats"
)

// A row is one measured height as the fit sees it. Rows of a woody plant that share
// a part share its chance: what the seasons of that stretch of growth did.
type row struct {
	where  spot
	cm     float64
	sd     float64 // of measuring
	common float64 // what the part's chance does to this row, in units of sd
	off    float64 // from the course, in units of sd
	weight float64 // of a row far off, less than 1
}

// A hint is what else tells of rate or size: the logarithm would be so much, give or
// take sd.
type hint struct {
	of      int
	log, sd float64
}

// A fitter finds the planting's own rate, size, beginning and timing by maximum a
// posteriori: least squares of measures and priors together.
type fitter struct {
	course course
	size   sizeRange
	sds    theta // of the priors, whose means are 0; 0 is known
	free   []int // those of own that are fitted
	rows   []row
	hints  []hint
	season int // the last one measured
}

// A posterior is what is thought of own after measuring.
type posterior struct {
	theta    theta
	cov      [ownCount][ownCount]float64
	measured bool
	season   int // whose timing it is
}

func (p *planner) newFitter(c course) *fitter {
	f := &fitter{course: c, size: p.size}
	f.sds[ofRate], f.sds[ofSize] = rateSD, 1
	f.free = []int{ofRate, ofSize}
	switch c := c.(type) {
	case *woody:
		if c.segments[0].free {
			f.sds[ofStart] = startSD
			f.free = append(f.free, ofStart)
		}
		f.addWood(p.heights)
	case *seasonal:
		f.sds[ofLate] = timingSD
		f.free = append(f.free, ofLate)
		f.addSeasons(c, p.heights)
	}
	return f
}

func (f *fitter) addWood(heights []height) {
	for _, h := range heights {
		if where := f.course.spot(h.day); where.judged {
			f.rows = append(f.rows, row{where: where, cm: h.cm})
		}
	}
}

// addSeasons takes the last measured season for the rate of a kind that rises each
// year anew: last year's good height must not hide this year's failure. Earlier
// seasons tell, by their highest, what size it can have.
func (f *fitter) addSeasons(c *seasonal, heights []height) {
	highest := 0.0
	var of spot
	flush := func() {
		if highest > 0 {
			f.hints = append(f.hints, hint{ofSize, math.Log(highest / c.rises[of.part].share), pastSizeSD})
		}
		highest = 0
	}
	for _, h := range heights {
		where := c.spot(h.day)
		if !where.judged {
			continue
		}
		if where.season != of.season {
			flush()
			f.rows, of = f.rows[:0], where
		}
		f.rows = append(f.rows, row{where: where, cm: h.cm})
		if where.effort >= 1 && c.rises[where.part].lost == 0 {
			highest = math.Max(highest, h.cm)
		}
	}
	f.season = of.season
}

// prior is own before measuring.
func (f *fitter) prior() posterior {
	post := posterior{}
	for _, j := range f.free {
		post.cov[j][j] = f.sds[j] * f.sds[j]
	}
	return post
}

// roughly and finely are how far each pass of a fit goes, by the offset of
// stats.LeastSquares: the first only sets the weights for the second, whose result
// is good to a hundred-millionth of its error.
const roughly, finely = 1e-2, 1e-8

// fit finds own. What chance does to a measure depends on own itself, so the fit
// is repeated with it reckoned anew (iteratively reweighted least squares).
// Without measures it is the prior.
func (f *fitter) fit() posterior {
	post := f.prior()
	if len(f.rows)+len(f.hints) == 0 {
		return post
	}
	p := len(f.free)
	vector := make([]float64, p) // from the prior means
	for _, settled := range []float64{roughly, finely} {
		f.weigh(f.thetaOf(vector))
		least, err := stats.LeastSquares(vector, len(f.rows)+len(f.hints)+p, settled, f.residuals)
		if err != nil && least.Inverse == nil {
			return f.prior()
		}
		vector = least.Theta
		for j, of := range f.free {
			post.theta[of] = vector[j]
			for k, with := range f.free {
				post.cov[of][with] = least.Inverse[j*p+k]
			}
		}
	}
	post.measured, post.season = true, f.season
	return post
}

func (f *fitter) thetaOf(vector []float64) theta {
	t := theta{}
	for j, of := range f.free {
		t[of] = vector[j]
	}
	return t
}

// residuals is what stats.LeastSquares minimises: rows whitened part by part,
// hints, and the priors.
func (f *fitter) residuals(vector, r, jacobian []float64) {
	p := len(vector)
	o := f.size.own(f.thetaOf(vector))
	for i, row := range f.rows {
		at := f.course.at(row.where, o)
		scale := math.Sqrt(row.weight) / row.sd
		r[i] = (at.cm - row.cm) * scale
		for j, of := range f.free {
			jacobian[i*p+j] = at.by[of] * scale
		}
	}
	f.whiten(r, jacobian, p)
	n := len(f.rows)
	clear(jacobian[n*p:])
	for j, of := range f.free {
		for i, hint := range f.hints {
			if hint.of == of {
				log, slope := vector[j], 1.0
				if of == ofSize {
					log, slope = o.logSize, o.sizeSlope
				}
				r[n+i] = (log - hint.log) / hint.sd
				jacobian[(n+i)*p+j] = slope / hint.sd
			}
		}
		prior := n + len(f.hints) + j
		r[prior] = vector[j] / f.sds[of]
		jacobian[prior*p+j] = 1 / f.sds[of]
	}
}
