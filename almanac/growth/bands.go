package growth

import (
	"math"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// band gives the heights of a posterior day by day. With chance, the band is that
// of any such plant, each with its seasons and its own timing.
func (g *grown) band(post posterior, chance bool, from, to garden.Day) []BandDay {
	band := []BandDay{}
	for _, day := range g.bandDays(from, to) {
		where := g.course.spot(g.calendar.in(day))
		if !where.known {
			continue
		}
		lo, mid, hi := g.percentiles(post, where, chance)
		band = append(band, BandDay{day, stats.RoundCM(lo), stats.RoundCM(mid), stats.RoundCM(hi)})
	}
	return band
}

// bandDays is every week, and the days on both sides of each step.
func (g *grown) bandDays(from, to garden.Day) []garden.Day {
	days := []garden.Day{}
	add := func(day garden.Day) {
		if day >= from && day <= to {
			days = append(days, day)
		}
	}
	for day := from; day <= to; day += bandStep {
		add(day)
	}
	add(to)
	switch c := g.course.(type) {
	case *woody:
		for _, s := range c.segments {
			add(g.calendar.out(s.from) - 1)
			add(g.calendar.out(math.Ceil(s.from+g.calendar.later) - g.calendar.later))
		}
	case *seasonal:
		for _, r := range c.rises {
			add(g.calendar.firstFrom(r.from) - 1)
			add(g.calendar.firstFrom(r.from))
			add(g.calendar.firstFrom(r.end+1) - 1)
			add(g.calendar.firstFrom(r.end + 1))
		}
	}
	slices.Sort(days)
	return slices.Compact(days)
}

// percentiles gives the 10th, 50th and 90th percentile of the height at a spot: the
// courses of the likeliest own on each side (Hasofer & Lind 1974), which, unlike
// an error added to a height, cannot leave what a course allows.
func (g *grown) percentiles(post posterior, where spot, chance bool) (lo, mid, hi float64) {
	post = post.at(where.season, g.fitter)
	middle := g.course.at(where, g.size.own(post.theta))
	if middle.cm <= 0 {
		return 0, 0, 0
	}
	toward, variance := post.along(middle)
	other := middle.startErr * middle.startErr
	if _, isWoody := g.course.(*woody); isWoody && chance {
		other += math.Pow(seasonSD/math.Sqrt(where.seasons)*middle.by[ofRate], 2)
	}
	other /= middle.cm * middle.cm
	sd := math.Sqrt(variance + other)
	if sd == 0 {
		return middle.cm, middle.cm, middle.cm
	}
	side := func(z float64) float64 {
		t := post.theta
		for j := range t {
			t[j] += z * toward[j] / sd
		}
		return g.course.at(where, g.size.own(t)).cm * math.Exp(z*other/sd)
	}
	lo, hi = side(-tenth), side(tenth)
	return math.Min(lo, middle.cm), middle.cm, math.Max(hi, middle.cm)
}

// at is the posterior for a season: the timing found for one says nothing of
// another.
func (p posterior) at(season int, f *fitter) posterior {
	if season == p.season || f.sds[ofLate] == 0 {
		return p
	}
	p.theta[ofLate] = 0
	for j := range p.cov {
		p.cov[j][ofLate], p.cov[ofLate][j] = 0, 0
	}
	p.cov[ofLate][ofLate] = f.sds[ofLate] * f.sds[ofLate]
	return p
}

// along gives covariance times gradient of the logarithm of a height, and the
// variance of that logarithm.
func (p posterior) along(at point) (toward theta, variance float64) {
	for i := range toward {
		for j := range at.by {
			toward[i] += p.cov[i][j] * at.by[j] / at.cm
		}
	}
	for i := range toward {
		variance += toward[i] * at.by[i] / at.cm
	}
	return toward, math.Max(0, variance)
}
