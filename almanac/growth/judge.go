package growth

import (
	"fmt"
	"math"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// Judge gives what is thought of one planting, without its bands: rate, eventual
// size, findings and when it has its size. It fails, naming the field, on a
// length that is not a plausible number.
func Judge(in Input) (Result, error) {
	if err := in.check(); err != nil {
		return Result{}, err
	}
	result, _ := judge(&in, in.On)
	return result, nil
}

// Grow answers the verb "growth": what Judge gives, and the bands. It fails as
// Judge does, and when From is after To or the bands would be longer than 40 years.
func Grow(in Input) (Result, error) {
	if err := in.check(); err != nil {
		return Result{}, err
	}
	from, to, err := in.span()
	if err != nil {
		return Result{}, err
	}
	result, g := judge(&in, to)
	if g == nil {
		return result, nil
	}
	result.Band = g.band(g.fitter.prior(), true, from, to)
	if g.own.measured {
		result.Own = g.band(g.own, true, from, to)
	}
	return result, nil
}

// A grown is one planting's course and what was found of it.
type grown struct {
	*planner
	course course
	fitter *fitter
	own    posterior
}

// judge gives the result without bands, and what it rests on; nil when there is no
// expectation.
func judge(in *Input, until garden.Day) (Result, *grown) {
	result := Result{Band: []BandDay{}, Own: []BandDay{}, Findings: []Finding{}}
	p := newPlanner(in, until)
	if in.Kind.HeightCm[1] <= 0 {
		result.Unknown = "kind-height"
		return result, nil
	}
	c, known := p.course()
	if !known {
		result.Unknown = "start"
		return result, nil
	}
	g := &grown{planner: p, course: c, fitter: p.newFitter(c)}
	evidence := g.addHints(in)
	g.own = g.fitter.fit()
	if g.own.measured {
		rate := spreadOf(g.own.theta[ofRate], g.own.cov[ofRate][ofRate])
		result.Rate = &Spread{stats.Round7(rate.P10), stats.Round7(rate.P50), stats.Round7(rate.P90)}
	}
	if p.way != bulb {
		size := p.size.spread(g.own.theta[ofSize], g.own.cov[ofSize][ofSize])
		result.EventualCm = &Spread{stats.RoundCM(size.P10), stats.RoundCM(size.P50), stats.RoundCM(size.P90)}
		result.Reaches = g.reaches()
	}
	result.Findings = g.findings(evidence)
	if slices.ContainsFunc(result.Findings, func(f Finding) bool { return f.Finding == Stalled }) {
		result.Reaches = nil // not at that pace
	}
	return result, g
}

// spreadOf gives the percentiles of a quantity whose logarithm is normal.
func spreadOf(mean, variance float64) Spread {
	off := tenth * math.Sqrt(variance)
	return Spread{math.Exp(mean - off), math.Exp(mean), math.Exp(mean + off)}
}

// Lengths outside these are not plants of a garden.
const tallestCm, largestPotL, longestLateness = 15_000, 5000, 366

// mostMeasures, one each day for 27 years, and mostWork, two a month for 80 years,
// keep an answer under a second.
// So do mostMoves, which no plant stands.
const mostMeasures, mostWork, mostMoves = 10_000, 2000, 100

func (in *Input) check() error {
	if err := in.checkSize(); err != nil {
		return err
	}
	if err := in.checkYears(); err != nil {
		return err
	}
	if !plausible(in.HeightCm) {
		return lengthError("heightCm", *in.HeightCm)
	}
	if in.PotL != nil && !(*in.PotL >= 0 && *in.PotL <= largestPotL) {
		return fmt.Errorf("potL %v is outside 0 to %d litres", *in.PotL, largestPotL)
	}
	for i, m := range in.Measures {
		if !plausible(m.HeightCm) {
			return lengthError(fmt.Sprintf("measures[%d].heightCm", i), *m.HeightCm)
		}
		if !plausible(m.SpreadCm) {
			return lengthError(fmt.Sprintf("measures[%d].spreadCm", i), *m.SpreadCm)
		}
	}
	for i, w := range in.Work {
		if !plausible(w.HeightLeftCm) {
			return lengthError(fmt.Sprintf("work[%d].heightLeftCm", i), *w.HeightLeftCm)
		}
	}
	if !(math.Abs(in.LatenessDays) <= longestLateness) {
		return fmt.Errorf("latenessDays %v is outside %d to %d", in.LatenessDays, -longestLateness, longestLateness)
	}
	return in.checkKind()
}

func (in *Input) checkSize() error {
	if len(in.Measures) > mostMeasures {
		return fmt.Errorf("measures has %d, more than the %d that a planting is judged by: leave out the oldest", len(in.Measures), mostMeasures)
	}
	if len(in.Work) > mostWork {
		return fmt.Errorf("work has %d, more than the %d that a planting is judged by: leave out the oldest", len(in.Work), mostWork)
	}
	if len(in.Moves) > mostMoves {
		return fmt.Errorf("moves has %d, more than the %d that a planting is judged by: leave out the oldest", len(in.Moves), mostMoves)
	}
	return nil
}

// checkYears keeps a mistyped year from laying out millennia of seasons.
func (in *Input) checkYears() error {
	if !garden.InYears(in.On) {
		return yearError("on", in.On)
	}
	if in.Planted != nil && !garden.InYears(in.Planted.First) {
		return yearError("planted", in.Planted.First)
	}
	for i, day := range in.Moves {
		if !garden.InYears(day) {
			return yearError(fmt.Sprintf("moves[%d]", i), day)
		}
	}
	for i, m := range in.Measures {
		if !garden.InYears(m.Day) {
			return yearError(fmt.Sprintf("measures[%d].day", i), m.Day)
		}
	}
	return nil
}

func yearError(field string, day garden.Day) error {
	return fmt.Errorf("%s %s is outside the years %d to %d", field, day, garden.FirstYear, garden.LastYear)
}

func (in *Input) checkKind() error {
	for _, r := range []struct {
		name string
		cm   garden.Range
	}{{"heightCm", in.Kind.HeightCm}, {"spreadCm", in.Kind.SpreadCm}} {
		if !(r.cm[0] >= 0 && r.cm[1] <= tallestCm && r.cm[0] <= r.cm[1]) {
			return fmt.Errorf("kind.%s %v must be two lengths in order, within 0 to %d cm", r.name, r.cm, tallestCm)
		}
	}
	if !(in.Kind.YearsToSize >= 0 && in.Kind.YearsToSize <= 200) {
		return fmt.Errorf("kind.yearsToSize %v is outside 0 to 200", in.Kind.YearsToSize)
	}
	return nil
}

func plausible(cm *float64) bool { return cm == nil || *cm >= 0 && *cm <= tallestCm }

func lengthError(field string, cm float64) error {
	return fmt.Errorf("%s %v is outside 0 to %d cm", field, cm, tallestCm)
}

// span is the stretch of the bands.
func (in *Input) span() (from, to garden.Day, err error) {
	from, to = in.On-bandBack, in.On+bandAhead
	if in.From != nil {
		from = *in.From
	}
	if in.To != nil {
		to = *in.To
	}
	if from > to || to-from > longestDay {
		return 0, 0, fmt.Errorf("a band from %s to %s must run forwards and for at most 40 years", from, to)
	}
	return from, to, nil
}
