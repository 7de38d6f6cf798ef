package tie

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haulm/garden"
)

// The usual series for the length of a degree on WGS 84, in metres, as published
// by the US National Geospatial-Intelligence Agency's calculator and quoted in
// many places; it is said to hold to a few centimetres.
func seriesMetresPerDegree(lat float64) (north, east float64) {
	cos := func(n float64) float64 { return math.Cos(n * lat * math.Pi / 180) }
	north = 111132.92 - 559.82*cos(2) + 1.175*cos(4) - 0.0023*cos(6)
	east = 111412.84*cos(1) - 93.5*cos(3) + 0.118*cos(5)
	return north, east
}

func TestADegreeIsAsLongAsTheSeriesSays(t *testing.T) {
	const centimetres = 0.07
	for lat := -85.0; lat <= 85; lat += 2.5 {
		north, east := MetresPerDegree(lat)
		wantNorth, wantEast := seriesMetresPerDegree(lat)
		if math.Abs(north-wantNorth) > centimetres || math.Abs(east-wantEast) > centimetres {
			t.Errorf("at %g: %.3f and %.3f m, the series has %.3f and %.3f", lat, north, east, wantNorth, wantEast)
		}
	}
}

// The table of lengths of a degree on WGS 84, in kilometres, in the Wikipedia
// article "Latitude", section "Length of a degree of latitude".
func TestADegreeIsAsLongAsPrinted(t *testing.T) {
	const digit = 0.001 // the last that is printed, km; 107.551 is also printed as 107.550
	for lat, want := range map[float64][2]float64{
		0:  {110.574, 111.320},
		15: {110.649, 107.551},
		30: {110.852, 96.486},
		45: {111.132, 78.847},
		60: {111.412, 55.800},
		75: {111.618, 28.902},
		90: {111.694, 0},
	} {
		for _, sign := range []float64{1, -1} {
			north, east := MetresPerDegree(sign * lat)
			if math.Abs(north/1000-want[0]) > digit || math.Abs(east/1000-want[1]) > digit {
				t.Errorf("at %g: %.4f and %.4f km, the table has %v", sign*lat, north/1000, east/1000, want)
			}
		}
	}
}

func TestWhichWayThePlanLies(t *testing.T) {
	origin := garden.Place{Lat: 47.6, Lon: -122.3}
	north, east := MetresPerDegree(origin.Lat)
	cases := map[string]struct {
		bearing float64
		point   garden.Point
		north   float64 // metres from the origin
		east    float64
	}{
		"y is north":            {0, garden.Point{0, 10}, 10, 0},
		"x is east":             {0, garden.Point{10, 0}, 0, 10},
		"y turned to the east":  {90, garden.Point{0, 10}, 0, 10},
		"x then points south":   {90, garden.Point{10, 0}, -10, 0},
		"y turned to the south": {180, garden.Point{0, 10}, -10, 0},
		"a little to the west":  {-30, garden.Point{0, 10}, 10 * math.Cos(math.Pi/6), -5},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			place := Plan{origin, c.bearing}.ToEarth(c.point)
			gotNorth, gotEast := (place.Lat-origin.Lat)*north, (place.Lon-origin.Lon)*east
			if math.Abs(gotNorth-c.north) > 1e-6 || math.Abs(gotEast-c.east) > 1e-6 {
				t.Errorf("%.3f m north and %.3f m east, want %g and %g", gotNorth, gotEast, c.north, c.east)
			}
		})
	}
}

func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := Plan{
			Origin:     garden.Place{Lat: rapid.Float64Range(-mostPlanLat, mostPlanLat).Draw(t, "lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "lon")},
			BearingDeg: rapid.Float64Range(-360, 360).Draw(t, "bearing"),
		}
		point := garden.Point{rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y")}
		place := plan.ToEarth(point)
		back := plan.ToPlan(place)
		if d := math.Hypot(back[0]-point[0], back[1]-point[1]); d > 1e-3 {
			t.Fatalf("%v came back as %v", point, back)
		}
		if math.Abs(place.Lon) > 180 {
			t.Fatalf("longitude %v", place.Lon)
		}
		turned := Plan{plan.Origin, plan.BearingDeg + 360}
		if plan.Check() == nil && math.Abs(turned.ToPlan(place)[0]-point[0]) > 1e-3 {
			t.Fatalf("a full turn changes %v", point)
		}
	})
}

func TestADateLineInTheGarden(t *testing.T) {
	plan := Plan{Origin: garden.Place{Lat: -16.8, Lon: 179.99999}}
	over := plan.ToEarth(garden.Point{10, 0})
	if over.Lon > -179.9 {
		t.Fatalf("ten metres further east is %v", over)
	}
	if back := plan.ToPlan(over); math.Abs(back[0]-10) > 1e-3 || math.Abs(back[1]) > 1e-3 {
		t.Errorf("came back as %v", back)
	}
}
