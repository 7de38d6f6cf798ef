package growth

import "math"

// reaches says when the planting will have reachedShare of its size; nil where it has
// no such time: a plant that should be there by now, or one of unknown age that rises
// each year anew.
func (g *grown) reaches() *Reach {
	when, ok := g.course.reach(g.own.theta.own())
	if !ok {
		return nil
	}
	variance := 0.0
	for i := range when.by {
		for j := range when.by {
			variance += g.own.cov[i][j] * when.by[i] * when.by[j]
		}
	}
	off := tenth * math.Sqrt(math.Max(0, variance))
	year, from, to := g.seasonYear(when.cm), g.seasonYear(when.cm-off), g.seasonYear(when.cm+off)
	if to < g.calendar.out(g.today).Year() {
		return nil
	}
	return &Reach{Share: reachedShare, Year: year, From: from, To: to}
}

const (
	// clockSlack keeps rounding noise from moving a date to the next season.
	clockSlack = 1e-6
	// farSight seasons is the furthest that a forecast looks.
	farSight = 100
)

// seasonYear is the calendar year, in the garden, of what reach gives.
func (g *grown) seasonYear(when float64) int {
	if _, isWoody := g.course.(*woody); isWoody {
		when = seasonDay(math.Min(when, seasonClock(g.today)+farSight) - clockSlack)
	}
	return g.calendar.out(when).Year()
}
