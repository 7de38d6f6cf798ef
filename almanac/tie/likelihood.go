package tie

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A view is where a photograph was taken, on the plan.
type view struct {
	lacking  Lacking
	camera   garden.Point // metres
	subject  garden.Point // metres; where what is in view is likeliest to stand
	sigmaM   float64      // along each axis, of subject
	anywhere float64      // per m²; density of photographs that are of no planting
}

func newView(in Input) view {
	switch {
	case len(in.Plantings) == 0:
		return view{lacking: LacksPlantings}
	case in.Photo.Lat == nil:
		return view{lacking: LacksPosition}
	case in.Garden.PlanOrigin == nil:
		return view{lacking: LacksOrigin}
	}
	plan := Plan{*in.Garden.PlanOrigin, in.Garden.PlanBearingDeg}
	camera := plan.ToPlan(garden.Place{Lat: *in.Photo.Lat, Lon: *in.Photo.Lon})
	v := view{camera: camera, subject: camera}
	variance := square(accuracy(in.Photo)/accuracyPerSigma) + square(planErrorM) + square(standoffSpreadM)
	if in.Photo.BearingDeg != nil {
		ahead := (*in.Photo.BearingDeg - plan.BearingDeg) * math.Pi / 180
		v.subject = garden.Point{camera[0] + standoffM*math.Sin(ahead), camera[1] + standoffM*math.Cos(ahead)}
	} else {
		variance += square(standoffM) / 2 // in some direction: half of it along each axis
	}
	v.sigmaM = math.Sqrt(variance)
	v.anywhere = 1 / (groundM2(in.Plantings) + 2*math.Pi*variance)
	return v
}

func accuracy(p Photo) float64 {
	if p.AccuracyM == nil {
		return unknownAccuracyM
	}
	return math.Max(*p.AccuracyM, bestAccuracyM)
}

func square(x float64) float64 { return x * x }

// groundM2 is the ground about the plantings that are on the plan.
func groundM2(plantings []Planting) float64 {
	bound := orb.Bound{Min: orb.Point{math.Inf(1), math.Inf(1)}, Max: orb.Point{math.Inf(-1), math.Inf(-1)}}
	for _, p := range plantings {
		for _, at := range p.points() {
			bound = bound.Extend(orb.Point(at))
		}
	}
	if bound.IsEmpty() {
		return square(2 * marginM)
	}
	return (bound.Max[0] - bound.Min[0] + 2*marginM) * (bound.Max[1] - bound.Min[1] + 2*marginM)
}

// likelihood is the density, per m², of photographs of a planting at the view's
// place: a circular normal about the planting, or the mean of such over its area.
// Of one that nobody placed on the plan the place says nothing.
func (v view) likelihood(p Planting) float64 {
	points := p.points()
	if len(points) == 0 {
		return v.anywhere
	}
	density := 0.0
	for _, at := range points {
		d2 := square(at[0]-v.subject[0]) + square(at[1]-v.subject[1])
		density += math.Exp(-d2 / (2 * square(v.sigmaM)))
	}
	return density / float64(len(points)) / (2 * math.Pi * square(v.sigmaM))
}

// points stand for a planting: points spread evenly over its area, or its middle.
func (p Planting) points() []garden.Point {
	ring := p.ring()
	if ring == nil {
		if p.At == nil {
			return nil
		}
		return []garden.Point{*p.At}
	}
	bound := ring.Bound()
	var inside []garden.Point
	for i := range areaSteps * areaSteps {
		across, down := (float64(i%areaSteps)+0.5)/areaSteps, (float64(i/areaSteps)+0.5)/areaSteps
		at := orb.Point{
			bound.Min[0] + across*(bound.Max[0]-bound.Min[0]),
			bound.Min[1] + down*(bound.Max[1]-bound.Min[1]),
		}
		if planar.RingContains(ring, at) {
			inside = append(inside, garden.Point(at))
		}
	}
	if inside == nil { // a sliver: its corners
		inside = p.Area
	}
	return inside
}

// ring is the planting's area as a closed ring, nil where it has none.
func (p Planting) ring() orb.Ring {
	if len(p.Area) == 0 {
		return nil
	}
	ring := make(orb.Ring, 0, len(p.Area)+1)
	for _, corner := range p.Area {
		ring = append(ring, orb.Point(corner))
	}
	return append(ring, ring[0])
}

// distance is from the camera to the planting's nearest edge, 0 within it; nil
// where either is not known.
func (v view) distance(p Planting) *float64 {
	if v.lacking != LacksNothing || p.At == nil && len(p.Area) == 0 {
		return nil
	}
	metres := 0.0
	if ring := p.ring(); ring == nil {
		metres = math.Hypot(p.At[0]-v.camera[0], p.At[1]-v.camera[1])
	} else if !planar.RingContains(ring, orb.Point(v.camera)) {
		metres = planar.DistanceFrom(ring, orb.Point(v.camera))
	}
	metres = stats.Round7(metres)
	return &metres
}
