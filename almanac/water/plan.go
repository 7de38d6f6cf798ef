package water

import (
	"math"
	"slices"

	"haulm/garden"
)

// A plan is a planting laid out for the balance: what does not change from day to
// day.
type plan struct {
	plant   *Plant
	seasons seasons
	soil    Soil
	ball    ball
	deeperM float64 // that it was planted under the surface
	spreadM float64 // radius of its eventual leaves
	widestM float64 // radius that its roots reach at most
	leaf    foliage
	kcb     float64
	p       float64
	rain    float64 // share that reaches the ground
	planted garden.Day
	known   bool // when it was planted
	given   []Given
	mulch   []Mulch

	wateredIn, unsaidAmount, unsaidMulch bool
}

func newPlan(plant *Plant, southern bool) (*plan, error) {
	texture := plant.Soil
	if texture == "" {
		texture = usualSoil
	}
	soil, err := SoilOf(texture)
	if err != nil {
		return nil, err
	}
	p := &plan{plant: plant, seasons: newSeasons(southern, plant.LatenessDays), soil: soil, rain: 1,
		leaf: newFoliage(&plant.Kind, plant.LatenessDays),
		kcb:  leafCoefficient(&plant.Kind), p: depletionFraction(plant.Kind.Moisture)}
	if plant.RainShare != nil {
		p.rain = *plant.RainShare
	}
	if plant.Planted != nil {
		p.planted, p.known = plant.Planted.Middle(), true
	}
	p.layOut()
	p.takeWork()
	return p, nil
}

// takeWork keeps the waterings and mulches that can still matter, in order.
func (p *plan) takeWork() {
	on := p.plant.On
	p.given = within(p.plant.Given, on-backDays-longestGap, on, func(g Given) garden.Day { return g.Day })
	p.mulch = within(p.plant.Mulch, on-backDays-longestGap-mulchLastsDays, on, func(m Mulch) garden.Day { return m.Day })
	p.unsaidAmount = slices.ContainsFunc(p.given, func(g Given) bool { return g.Litres == nil })
	p.unsaidMulch = slices.ContainsFunc(p.mulch, func(m Mulch) bool { return m.DepthCm == nil })
}

// layOut sets the sizes that roots and leaves start from and reach.
func (p *plan) layOut() {
	litres := usualLitres(p.plant.Form)
	if p.plant.Container {
		litres = usualContainerL
	}
	if p.plant.PotL != nil && *p.plant.PotL > 0 {
		litres = max(leastPotL, *p.plant.PotL)
	}
	p.ball = newBall(p.plant.Form, litres, p.plant.Container)
	p.spreadM = min(eventualM(&p.plant.Kind), room(p.plant))
	p.widestM = p.spreadM
	if p.plant.Container {
		p.spreadM = min(p.spreadM, potCanopy*p.ball.radiusM)
		return
	}
	if p.plant.DepthCm != nil {
		p.deeperM = max(0, *p.plant.DepthCm/100)
	}
}

// within gives what happened from one day to another, in order.
func within[T any](list []T, from, to garden.Day, day func(T) garden.Day) []T {
	var kept []T
	for _, one := range list {
		if day(one) >= from && day(one) <= to {
			kept = append(kept, one)
		}
	}
	slices.SortStableFunc(kept, func(a, b T) int { return int(day(a)) - int(day(b)) })
	return kept
}

// years is how long ago it was planted; long enough where nobody knows.
func (p *plan) years(day garden.Day) float64 {
	if !p.known {
		return math.Inf(1)
	}
	return float64(max(0, day-p.planted)) / 365.25
}

// growingDays is how many days its roots have grown up to a day: those since
// planting that are not winter.
func (p *plan) growingDays(day garden.Day) float64 {
	if !p.known {
		return math.Inf(1)
	}
	whole := (day - p.planted) / yearDays
	days := float64(whole) * growingShare() * yearDays
	for d := p.planted + whole*yearDays; d < day; d++ {
		if !p.seasons.winter(p.seasons.ofYear(d)) {
			days++
		}
	}
	return days
}

// establishing tells whether a planting still needs a can in dry weather: pots
// always, the others in their first summers.
func (p *plan) establishing() bool {
	if p.plant.Container {
		return true
	}
	summers := softSummers
	if woody(p.plant.Kind.Habit) {
		summers = woodySummers
	}
	return p.known && p.seasons.northern(p.plant.On) <= p.seasons.lastOfSummers(p.planted, summers)
}

// dormant tells whether nothing is asked for at this time of year.
func (p *plan) dormant() bool {
	ofYear := p.seasons.ofYear(p.plant.On)
	return p.seasons.winter(ofYear) || p.leaf.share(ofYear) < leafless
}

// mulchCover is the share of the ground that mulch covers on a day: by the depth
// last laid, less what has rotted since.
func (p *plan) mulchCover(day garden.Day) float64 {
	cover := 0.0
	for _, m := range p.mulch {
		if m.Day > day {
			break
		}
		depth := float64(fullMulchCm)
		if m.DepthCm != nil {
			depth = *m.DepthCm
		}
		left := 1 - float64(day-m.Day)/mulchLastsDays
		cover = max(cover, min(1, depth/fullMulchCm)*max(0, left))
	}
	return cover
}
