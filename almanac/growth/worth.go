package growth

import (
	"math"
	"slices"

	"haulm/almanac/stats"
)

// Worth is what measuring a planting's height today would settle of whether it is
// small for its age, in bits: how much less unsure of that one is afterwards, on
// average (Lindley 1956, Annals of Mathematical Statistics 27:986), rounded to 0.001.
// It is 0 where no height that is at all likely changes what is found, where nothing
// is measured, and in the seasons that are not judged. It fails as Judge does.
func Worth(in Input) (float64, error) {
	if err := in.check(); err != nil {
		return 0, err
	}
	_, g := judge(&in, in.On)
	if g == nil || g.way == bulb || g.firstSeason() || len(g.heights) == 0 || g.heights[len(g.heights)-1].date == in.On {
		return 0, nil
	}
	where := g.course.spot(g.today)
	if !where.known || !where.judged {
		return 0, nil
	}
	before := g.rateBefore(where)
	after := g.rateAfter(&in, where)
	return stats.RoundProbability(before.settledBy(after)), nil
}

// A belief is what is thought of the logarithm of a rate: normal.
type belief struct{ mean, variance float64 }

// small is the chance, rounded, of a rate that is small for the age.
func (b belief) small() float64 {
	return stats.RoundProbability(stats.NormalCDF((math.Log(smallRate) - b.mean) / math.Sqrt(b.variance)))
}

// rateBefore is what is thought of the rate before measuring at a spot. What rises
// each year anew is judged by its last season alone.
func (g *grown) rateBefore(where spot) belief {
	if _, rises := g.course.(*seasonal); rises && where.season != g.own.season {
		return belief{0, rateSD * rateSD}
	}
	return belief{g.own.theta[ofRate], g.own.cov[ofRate][ofRate]}
}

// rateAfter is how sure of the rate a measure there leaves one: that of a plant which
// is as tall as is thought.
func (g *grown) rateAfter(in *Input, where spot) (variance float64) {
	post := g.own.at(where.season, g.fitter)
	post.theta[ofRate] = g.rateBefore(where).mean
	cm := stats.RoundCM(g.course.at(where, g.size.own(post.theta)).cm)
	with := *in
	with.Measures = append(slices.Clone(in.Measures), Measure{Day: in.On, HeightCm: &cm})
	_, measured := judge(&with, in.On)
	return measured.own.cov[ofRate][ofRate]
}

// The heights that may be measured are met at worthSteps steps of worthStep standard
// deviations; those likelySDs from the middle, one in seven hundred, are the last that
// count as likely.
const worthSteps, worthStep, likelySDs = 17, 0.5, 3.0

// settledBy is how much less unsure of being small a smaller variance leaves one: the
// mean then lies about where it did, by as much as the variance became less.
func (b belief) settledBy(variance float64) (bits float64) {
	moves := math.Sqrt(math.Max(0, b.variance-variance))
	at := func(z float64) belief { return belief{b.mean + z*moves, variance} }
	if (at(-likelySDs).small() >= smallSure) == (at(likelySDs).small() >= smallSure) {
		return 0
	}
	bits = stats.Unsure(b.small())
	for i := range worthSteps {
		z := worthStep * float64(i-worthSteps/2)
		bits -= worthStep * math.Exp(stats.LogNormalPDF(z)) * stats.Unsure(at(z).small())
	}
	return math.Max(0, bits)
}
