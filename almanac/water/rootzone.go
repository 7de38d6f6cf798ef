package water

import (
	"math"

	"haulm/garden"
)

// A ball is what a plant came with: a cylinder as high as it is wide.
type ball struct {
	radiusM float64
	depthM  float64
	mixM3   float64 // of it, potting mix; the rest is garden soil
}

// newBall is the ball of a form, or the whole pot of a plant that lives in one.
func newBall(form string, litres float64, inPot bool) ball {
	mix := 0.0
	if inPot || potted(form) {
		mix = litres / 1000
	}
	wide := math.Cbrt(4 * max(litres, leastStoreL) / 1000 / math.Pi)
	if inPot {
		wide = math.Cbrt(4 * litres / 1000 / math.Pi)
	}
	return ball{radiusM: wide / 2, depthM: wide, mixM3: mix}
}

// potted tells forms that come in potting mix; what form is not known counts as
// the usual one.
func potted(form string) bool {
	return form == "" || form == "pot" || form == "plug" || form == "cutting"
}

// usualLitres is the ball of a form whose litres nobody wrote.
func usualLitres(form string) float64 {
	switch form {
	case "", "pot":
		return usualPotL
	case "bare-root":
		return bareRootL
	case "division":
		return divisionL
	}
	return leastStoreL // plugs, cuttings, bulbs and seed draw on the ground they were firmed into
}

// rootDepth is how deep a habit roots, metres: the low end of the rows of FAO-56
// Table 22 that are most like it, as other software quotes them. Gardens are dug
// less deep than fields.
func rootDepth(habit string) float64 {
	switch habit {
	case "tree", "climber":
		return 1.0 // apples; grapes, hops
	case "shrub":
		return 0.6 // berries (bushes)
	case "grass":
		return 0.5 // turf
	case "bulb":
		return 0.3 // onions
	}
	return 0.4 // mint, cabbages
}

// A zone is the ground that roots have reached, or a pot.
type zone struct {
	areaM2    float64
	exchange  float64 // share of the difference from the ground that evens out in a day
	leavesM2  float64 // of leaves when all are out
	capacityL float64 // TAW
	surfaceL  float64 // of it, what can dry off the surface
}

// zoneOn is the zone on a day, after so many days of growth in the ground.
func (p *plan) zoneOn(day garden.Day, growingDays float64) zone {
	radius, depth := p.ball.radiusM, p.ball.depthM+p.deeperM
	canopy := p.canopyM(p.years(day))
	if !p.plant.Container {
		rate := softRootCm
		if woody(p.plant.Kind.Habit) {
			rate = woodyRootCm
		}
		out := rate / 100 * max(0, growingDays-lagDays)
		radius = max(radius, min(p.widestM, min(canopy+rootsBeyondM, radius+out)))
		depth = max(depth, min(rootDepth(p.plant.Kind.Habit), depth+downShare*out))
	}
	area := math.Pi * radius * radius
	soil := max(0, area*depth-p.ball.mixM3)
	z := zone{areaM2: area, leavesM2: math.Pi * canopy * canopy}
	z.capacityL = 1000 * (potMixShare*p.ball.mixM3 + p.soil.available()*soil)
	z.surfaceL = min(z.capacityL, p.evaporableMm()*area)
	if !p.plant.Container {
		z.exchange = exchangeShare * p.ball.radiusM / radius // by the wall that it has for its volume
	}
	return z
}

// canopyM is the radius of a plant's leaves when they are all out, so many years
// after planting.
func (p *plan) canopyM(years float64) float64 {
	start := min(p.spreadM, soldCanopy*p.ball.radiusM)
	return start + (p.spreadM-start)*grown(&p.plant.Kind, years)
}

// evaporableMm is what can dry off the surface, TEW of Eq. 73.
func (p *plan) evaporableMm() float64 {
	if p.plant.Container {
		return 1000 * potMixShare * surfaceM
	}
	return 1000 * (p.soil.FieldCapacity - p.soil.WiltingPoint/2) * surfaceM
}

// room is the radius that a plant has to itself, infinite where nobody said.
func room(plant *Plant) float64 {
	if plant.AreaM2 == nil {
		return math.Inf(1)
	}
	return math.Sqrt(*plant.AreaM2 / float64(plants(plant)) / math.Pi)
}

// plants is the number of plants, at least one.
func plants(plant *Plant) int {
	if plant.Count == nil {
		return 1
	}
	return max(1, *plant.Count)
}

// eventualM is the radius of a kind's eventual spread.
func eventualM(kind *garden.Kind) float64 {
	if wide := (kind.SpreadCm[0] + kind.SpreadCm[1]) / 2; wide > 0 {
		return wide / 100 / 2
	}
	return usualSpreadM / 2
}
