package growth

import (
	"math"

	"haulm/almanac/stats"
)

// A stretch is the measures of one season with no cut between them, each with the
// height that would have been usual from the first on.
type stretch struct {
	heights  []height
	expected []float64
}

// grownCm and expectedCm are from the first measure to the last.
func (s stretch) grownCm() float64    { return s.heights[len(s.heights)-1].cm - s.heights[0].cm }
func (s stretch) expectedCm() float64 { return s.expected[len(s.expected)-1] - s.expected[0] }

// stretch gives that of the season that is on, or was the last before winter; false
// without two measures in it.
func (g *grown) stretch() (stretch, bool) {
	h, fresh := g.last()
	if !fresh {
		return stretch{}, false
	}
	end := g.course.spot(h.day)
	if !g.stillOn(end) {
		return stretch{}, false
	}
	var s stretch
	for _, h := range g.heights {
		where := g.course.spot(h.day)
		begins := len(s.heights) == 0 && where.part == end.part // a segment begins with the measure that began it
		if where.season != end.season || where.part != end.part || !where.judged && !begins {
			continue
		}
		s.heights = append(s.heights, h)
	}
	if len(s.heights) < 2 {
		return s, false
	}
	s.expected = g.usualFrom(s.heights)
	return s, true
}

// stillOn says whether no growth has begun since the season of a spot.
func (g *grown) stillOn(end spot) bool {
	if _, isWoody := g.course.(*woody); isWoody {
		return seasonClock(g.today) <= float64(end.season)+1
	}
	return g.course.spot(g.today).season <= end.season
}

// usualFrom gives the heights that any plant of the kind, at the usual rate, would
// have on the days of the measures, starting from the first of them.
func (g *grown) usualFrom(heights []height) []float64 {
	likely := g.size.usual()
	expected := make([]float64, len(heights))
	switch c := g.course.(type) {
	case *woody:
		again := &woody{m: c.m, k: c.k, planted: c.planted, moves: c.moves}
		again.begin(measured(heights[0]))
		for i, h := range heights {
			expected[i] = again.at(again.spot(h.day), likely).cm
		}
	case *seasonal:
		first := c.spot(heights[0].day)
		full := first
		full.effort = math.Inf(1)
		top, begun := c.at(full, likely).cm, c.at(first, likely).cm
		for i, h := range heights {
			share := (c.at(c.spot(h.day), likely).cm - begun) / math.Max(leastCm, top-begun)
			expected[i] = heights[0].cm + share*math.Max(0, top-heights[0].cm)
		}
	}
	return expected
}

// stalled is three measures or more in a season, over which much was to be grown
// and little was, by the median of slopes and from first to last: after midsummer
// little is expected between two measures, and many such pairs make a slope of 0.
func (g *grown) stalled() (Finding, bool) {
	s, found := g.stretch()
	if !found || len(s.heights) < stalledMeasures {
		return Finding{}, false
	}
	last := s.heights[len(s.heights)-1]
	expected := stats.RoundCM(s.expectedCm())
	tape := measuringError(last.cm)
	if expected < stats.RoundCM(stalledErrors*tape) {
		return Finding{}, false
	}
	cm := make([]float64, len(s.heights))
	for i, h := range s.heights {
		cm[i] = h.cm
	}
	line, err := stats.TheilSen(s.expected, cm)
	if err != nil || stats.Round7(math.Max(line.Slope, s.grownCm()/expected)) >= stalledSlope {
		return Finding{}, false
	}
	sure := stats.NormalCDF((halfSlope*expected - s.grownCm()) / (math.Sqrt2 * tape))
	facts := append(g.grownFact(), g.measuredFact(last))
	return Finding{Stalled, stats.RoundProbability(sure), facts, []string{"water", "roots", "browsed"}}, true
}

// grownFact is how much was grown in the last measured season.
func (g *grown) grownFact() []Evidence {
	s, found := g.stretch()
	if !found {
		return nil
	}
	first, last := s.heights[0], s.heights[len(s.heights)-1]
	return []Evidence{{Say: "grown", From: day(first.date), Day: day(last.date), Measures: len(s.heights),
		Cm: rounded(s.grownCm()), GrownExpectedCm: rounded(s.expectedCm())}}
}
