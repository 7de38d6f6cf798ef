package growth

import "math"

// reaches says when the planting will have reachedShare of its size; nil where it has
// no such time: a plant that should be there by now, or one of unknown age that rises
// each year anew.
func (g *grown) reaches() *Reach {
	var reach *Reach
	switch c := g.course.(type) {
	case *woody:
		reach = g.woodReaches(c)
	case *seasonal:
		reach = g.seasonReaches(c)
	}
	if reach == nil || reach.To < g.calendar.out(g.today).Year() {
		return nil
	}
	return reach
}

func (g *grown) woodReaches(c *woody) *Reach {
	when, ok := c.reach(g.size.own(g.own.theta))
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
	year := func(clock float64) int {
		day := seasonDay(math.Min(clock, seasonClock(g.today)+farSight) - clockSlack)
		return g.calendar.out(day).Year()
	}
	return &Reach{Share: reachedShare, Year: year(when.cm), From: year(when.cm - off), To: year(when.cm + off)}
}

// seasonReaches is the first season whose share is enough: the rate of such a kind
// makes it smaller, not later.
func (g *grown) seasonReaches(c *seasonal) *Reach {
	for _, r := range c.rises {
		if r.age == 0 {
			continue
		}
		for years := range farSight {
			if g.over(r.age + years) {
				return nil
			}
			if g.seasonShare(r.age+years) >= reachedShare {
				year := g.calendar.out(r.full).Year() + years
				return &Reach{Share: reachedShare, Year: year, From: year, To: year}
			}
		}
	}
	return nil
}
