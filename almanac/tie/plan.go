package tie

import (
	"fmt"
	"math"

	"haulm/garden"
)

// The ellipsoid of WGS 84 (National Geospatial-Intelligence Agency, standard
// NGA.STND.0036, 2014): semi-major axis in metres, and flattening.
const (
	semiMajorM = 6378137.0
	flattening = 1 / 298.257223563
)

// MetresPerDegree gives the lengths of one degree of latitude and of one degree
// of longitude on the ellipsoid at a latitude in degrees: the radii of curvature
// in the meridian and in the prime vertical, M = a(1−e²)/(1−e²sin²φ)^(3/2) and
// N cos φ with N = a/√(1−e²sin²φ), times π/180 (Snyder J.P. 1987, Map
// Projections: A Working Manual, USGS Professional Paper 1395, chapter 4).
func MetresPerDegree(lat float64) (north, east float64) {
	const e2, perDegree = flattening * (2 - flattening), math.Pi / 180
	sin, cos := math.Sincos(lat * perDegree)
	w := 1 - e2*sin*sin
	north = semiMajorM * (1 - e2) / (w * math.Sqrt(w)) * perDegree
	east = semiMajorM / math.Sqrt(w) * cos * perDegree
	return north, east
}

// A Plan lays a garden's plan, in metres, on the earth: its origin, and the
// bearing of its y axis in degrees clockwise from north. Within a kilometre of
// the origin the plane it uses is right to a few centimetres.
type Plan struct {
	Origin     garden.Place
	BearingDeg float64
}

// mostPlanLat: nearer the poles a degree of longitude has no length to speak of.
const mostPlanLat = 89.0

// Check says whether a plan can be laid there. The error names the field.
func (p Plan) Check() error {
	if !(math.Abs(p.Origin.Lat) <= mostPlanLat) {
		return fmt.Errorf("planOrigin.lat %g is outside %g to %g, beyond which no plan is laid", p.Origin.Lat, -mostPlanLat, mostPlanLat)
	}
	if err := checkPlace("planOrigin", p.Origin); err != nil {
		return err
	}
	if !(math.Abs(p.BearingDeg) <= 360) {
		return fmt.Errorf("planBearingDeg %g is outside -360 to 360", p.BearingDeg)
	}
	return nil
}

func checkPlace(field string, p garden.Place) error {
	if !(math.Abs(p.Lat) <= 90) {
		return fmt.Errorf("%s.lat %g is outside -90 to 90", field, p.Lat)
	}
	if !(math.Abs(p.Lon) <= 180) {
		return fmt.Errorf("%s.lon %g is outside -180 to 180", field, p.Lon)
	}
	return nil
}

// ToPlan gives the point of the plan, in metres, at a place on the earth.
func (p Plan) ToPlan(place garden.Place) garden.Point {
	north, east := MetresPerDegree(p.Origin.Lat)
	return p.turn((math.Remainder(place.Lon-p.Origin.Lon, 360))*east, (place.Lat-p.Origin.Lat)*north, -1)
}

// ToEarth gives the place on the earth, in degrees, at a point of the plan.
func (p Plan) ToEarth(point garden.Point) garden.Place {
	north, east := MetresPerDegree(p.Origin.Lat)
	metres := p.turn(point[0], point[1], 1)
	return garden.Place{
		Lat: p.Origin.Lat + metres[1]/north,
		Lon: math.Remainder(p.Origin.Lon+metres[0]/east, 360),
	}
}

// turn turns a vector clockwise by the plan's bearing (way 1) or back (way −1).
func (p Plan) turn(x, y, way float64) garden.Point {
	sin, cos := math.Sincos(way * p.BearingDeg * math.Pi / 180)
	return garden.Point{x*cos + y*sin, y*cos - x*sin}
}
