package sun

import (
	"math"
	"testing"

	"haulm/garden"
)

// box is an opaque prism over a rectangle of the plan.
func box(x0, y0, x1, y1, base, top float64) Prism {
	return Prism{Outline: [][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, BaseM: base, TopM: top, Density: 1}
}

func siteOf(t testing.TB, here Place, prisms ...Prism) *Site {
	t.Helper()
	site, err := NewSite(here, prisms)
	if err != nil {
		t.Fatal(err)
	}
	return site
}

// towards is a direction by azimuth and elevation on a plan that lies to north.
func towards(azimuthDeg, elevationDeg float64) ray {
	sinA, cosA := math.Sincos(azimuthDeg * degree)
	sinE, cosE := math.Sincos(elevationDeg * degree)
	return newRay(cosE*sinA, cosE*cosA, sinE)
}

// hides says whether a point's only prisms, all opaque, hide a direction.
func hides(p *Point, r ray) bool {
	passing := make([]float64, len(p.site.prisms))
	return p.passes(r, passing) == 0
}

const far = 20_000 // as good as endless beside a few metres

// A wall of height h along the south at distance d hides what is lower than
// atan(h/d·cos(azimuth − 180°)).
func TestLongWallDueSouth(t *testing.T) {
	const h, d = 3.0, 4.0
	point := siteOf(t, Place{Lat: 51.5}, box(-far, -d-0.3, far, -d, 0, h)).Point([2]float64{0, 0}, 0)
	for azimuth := 100.0; azimuth <= 260; azimuth += 5 {
		edge := math.Atan(h/d*-math.Cos(azimuth*degree)) / degree
		if !hides(point, towards(azimuth, edge-0.001)) || hides(point, towards(azimuth, edge+0.001)) {
			t.Errorf("at azimuth %g the wall must end at %.4f°", azimuth, edge)
		}
	}
	for _, azimuth := range []float64{0, 45, 80, 280, 359} {
		if hides(point, towards(azimuth, 0.01)) {
			t.Errorf("the wall in the south hides azimuth %g", azimuth)
		}
	}
}

// Behind an endless wall along the south that reaches the angle w, the sun shines
// when it would be up w farther north: up·cos w > south·sin w is sin δ sin(φ+w) +
// cos δ cos(φ+w) cos H > 0, the rule of sunrise at latitude φ+w. At the solstices δ
// stands still at the obliquity of the ecliptic, 23.436° in 2026. In the southern
// hemisphere the wall is along the north.
func TestBehindAWallOnTheDayOfASolstice(t *testing.T) {
	const obliquity = 23.436
	semiDay := func(lat, declination float64) float64 { // hours from noon to sunset
		return math.Acos(math.Max(-1, math.Min(1, -math.Tan(lat*degree)*math.Tan(declination*degree)))) / degree / 15
	}
	for _, lat := range []float64{10, 30, 40, 51.5, 60} {
		for _, wall := range []float64{5, 15, 25, 35, 55, 75} {
			height := math.Tan(wall * degree)
			north := siteOf(t, Place{Lat: lat}, box(-far, -1.001, far, -1, 0, height)).Point([2]float64{0, 0}, 0)
			south := siteOf(t, Place{Lat: -lat}, box(-far, 1, far, 1.001, 0, height)).Point([2]float64{0, 0}, 0)
			winter := 2 * semiDay(lat+wall, -obliquity)
			summer := 2 * semiDay(lat, obliquity)
			if lat+wall > 90 { // the sun looks over neither at noon, but past it from the north
				winter, summer = 0, 2*(semiDay(lat, obliquity)-semiDay(lat+wall, obliquity))
			}
			june, december := garden.DayOf(2026, 6, 21), garden.DayOf(2026, 12, 21)
			near(t, "winter in the north", north.Day(december).Total, winter, 0.02)
			near(t, "summer in the north", north.Day(june).Total, summer, 0.02)
			near(t, "winter in the south", south.Day(june).Total, winter, 0.02)
			near(t, "summer in the south", south.Day(december).Total, summer, 0.02)
		}
	}
}

// On the equator at the equinox the sun climbs 15° an hour straight from east to
// west. Between two walls as high as they are away it shines from 45° to 45°.
func TestBetweenTwoWalls(t *testing.T) {
	site := siteOf(t, Place{}, box(2, -far, 2.2, far, 0, 2), box(-2.2, -far, -2, far, 0, 2))
	hours := site.Point([2]float64{0, 0}, 0).Day(garden.DayOf(2026, 3, 20))
	near(t, "hours", hours.Total, 6, 0.011)
	near(t, "before noon", hours.Before, 3, 0.011)
	near(t, "after noon", hours.After, 3, 0.011)
	higher := site.Point([2]float64{0, 0}, 2-2*math.Tan(30*degree)).Day(garden.DayOf(2026, 3, 20))
	near(t, "hours where the walls reach 30°", higher.Total, 8, 0.011)
	left := site.Point([2]float64{-2 + 2*math.Tan(30*degree), 0}, 0).Day(garden.DayOf(2026, 3, 20))
	near(t, "after noon by the western wall at 60°", left.After, 2, 0.011)
}

// Under a crown that covers the sky the sun comes through by its density, in leaf
// and bare, on the dates given.
func TestTreeInLeafAndBare(t *testing.T) {
	tree := box(-far, -far, far, far, 0.5, 20)
	tree.Density, tree.Leaf = 0.8, Deciduous
	tree.LeafOut, tree.LeafFall = &garden.MonthDay{Month: 5, Day: 10}, &garden.MonthDay{Month: 10, Day: 20}
	under := siteOf(t, Place{Lat: 51.5}, tree).Point([2]float64{0, 0}, 0)
	open := siteOf(t, Place{Lat: 51.5}).Point([2]float64{0, 0}, 0)
	for day, passes := range map[string]float64{
		"2026-05-09": 1 - 0.8*bareShare, "2026-05-10": 1 - 0.8,
		"2026-10-19": 1 - 0.8, "2026-10-20": 1 - 0.8*bareShare, "2026-01-15": 1 - 0.8*bareShare,
	} {
		d := dayOf(t, day)
		near(t, "hours on "+day, under.Day(d).Total, open.Day(d).Total*passes, 0.02)
	}
	tree.Leaf = Evergreen
	evergreen := siteOf(t, Place{Lat: 51.5}, tree).Point([2]float64{0, 0}, 0)
	d := dayOf(t, "2026-01-15")
	near(t, "hours under an evergreen", evergreen.Day(d).Total, open.Day(d).Total*0.2, 0.02)
	tree.Leaf, tree.LeafOut, tree.LeafFall = Deciduous, &garden.MonthDay{Month: 10, Day: 1}, &garden.MonthDay{Month: 4, Day: 30}
	southern := siteOf(t, Place{Lat: -40}, tree).Point([2]float64{0, 0}, 0)
	noTree := siteOf(t, Place{Lat: -40}).Point([2]float64{0, 0}, 0)
	near(t, "hours in leaf over the new year", southern.Day(d).Total, noTree.Day(d).Total*0.2, 0.02)
}

// Under a canopy on posts the low sun comes in beneath the far edge; from beside
// it the gap under it and the sky over it are free.
func TestCanopyWithRaisedBase(t *testing.T) {
	site := siteOf(t, Place{Lat: 51.5}, box(-1.5, -1.5, 1.5, 1.5, 2.2, 2.5))
	for _, c := range []struct {
		name     string
		at       [2]float64
		height   float64
		azimuth  float64
		from, to float64 // elevations hidden
	}{
		{"in the middle to the south", [2]float64{0, 0}, 0, 180, math.Atan(2.2/1.5) / degree, 90},
		{"in the middle to a corner", [2]float64{0, 0}, 0, 135, math.Atan(2.2/math.Hypot(1.5, 1.5)) / degree, 90},
		{"off the middle to the east", [2]float64{0.5, 0.2}, 0.7, 90, math.Atan(1.5/1.0) / degree, 90},
		{"beside it", [2]float64{-3.5, 0}, 0, 90, math.Atan(2.2/5) / degree, math.Atan(2.5/2) / degree},
		{"beside it, higher than the base", [2]float64{-3.5, 0}, 2.3, 90, 0, math.Atan(0.2/2) / degree},
		{"inside it", [2]float64{0, 0}, 2.3, 180, 0, 90},
	} {
		point := site.Point(c.at, c.height)
		for elevation := 0.05; elevation < 90; elevation += 0.1 {
			want := elevation >= c.from && elevation <= c.to
			nearEdge := math.Abs(elevation-c.from) < 1e-6 || math.Abs(elevation-c.to) < 1e-6
			if is := hides(point, towards(c.azimuth, elevation)); is != want && !nearEdge {
				t.Fatalf("%s: elevation %.2f° hidden: %v; want from %.2f° to %.2f°", c.name, elevation, is, c.from, c.to)
			}
		}
	}
	if hides(site.Point([2]float64{0, 0}, 2.5), towards(180, 45)) {
		t.Error("a roof hides the sun from its own top")
	}
}

// A plant against a wall sees past it on its own side and nothing through it,
// whether drawn a hair before the face, on it, or behind it.
func TestAgainstAWall(t *testing.T) {
	site := siteOf(t, Place{Lat: 51.5}, box(-10, 0, 10, 0.3, 0, 2))
	for _, y := range []float64{-1e-4, -1e-17, 0, 1e-17, 1e-4} {
		point := site.Point([2]float64{0, y}, 0.5)
		for _, elevation := range []float64{0.1, 30, 80} {
			if hides(point, towards(135, elevation)) || hides(point, towards(265, elevation)) {
				t.Errorf("%g m before the face the wall hides the sun in the south at %g°", -y, elevation)
			}
			if !hides(point, towards(45, elevation)) || !hides(point, towards(275, elevation)) {
				t.Errorf("%g m before the face the wall lets the sun in the north through at %g°", -y, elevation)
			}
		}
	}
	if !hides(site.Point([2]float64{0, 0.15}, 0.5), towards(180, 60)) {
		t.Error("inside a wall the sun shines")
	}
}

// The circle has no seam: a direction a hair before a full turn, which rounds up
// to one, is behind the wall on either side of it.
func TestTheCircleHasNoSeam(t *testing.T) {
	point := siteOf(t, Place{Lat: 51.5}, box(2, -1, 3, 1, 0, 2)).Point([2]float64{0, 0}, 0)
	for _, y := range []float64{-1e-3, -1e-17, -1e-300, 0, 1e-300, 1e-17, 1e-3} {
		if r := newRay(1, y, 0.5); !hides(point, r) {
			t.Errorf("the wall lets the sun at y %g, turn %v, through", y, r.turn)
		}
	}
}

// In the arms of a U the far arm counts too, and its court is open to the sky.
func TestOutlineWithACourt(t *testing.T) {
	u := Prism{Outline: [][2]float64{{-3, -3}, {3, -3}, {3, 3}, {2, 3}, {2, -2}, {-2, -2}, {-2, 3}, {-3, 3}}, TopM: 2, Density: 1}
	point := siteOf(t, Place{Lat: 51.5}, u).Point([2]float64{0, 0}, 0)
	for azimuth, edge := range map[float64]float64{180: math.Atan(2.0/2) / degree, 90: math.Atan(2.0/2) / degree, 270: math.Atan(2.0/2) / degree, 0: 0} {
		if edge > 0 && !hides(point, towards(azimuth, edge-0.01)) || hides(point, towards(azimuth, edge+0.01)) {
			t.Errorf("at azimuth %g the sky must begin at %.2f°", azimuth, edge)
		}
	}
	raised := u
	raised.BaseM, raised.TopM = 1, 1.5
	beside := siteOf(t, Place{Lat: 51.5}, raised).Point([2]float64{-5, 0}, 0)
	for elevation, want := range map[float64]bool{
		math.Atan(1/8.0)/degree - 0.1:   false, // beneath the far arm
		math.Atan(1/8.0)/degree + 0.1:   true,  // through the far arm
		math.Atan(1.5/7.0)/degree + 0.1: false, // over the far arm, beneath the near
		math.Atan(1/3.0)/degree + 0.1:   true,  // through the near arm
		math.Atan(1.5/2.0)/degree + 0.1: false, // over it
	} {
		if is := hides(beside, towards(90, elevation)); is != want {
			t.Errorf("at %.2f° the arms hide the sun: %v, want %v", elevation, is, want)
		}
	}
}

// The plan's y axis bears 90°: what is ahead on the plan stands in the east.
func TestPlanBearing(t *testing.T) {
	ahead := siteOf(t, Place{Lat: 51.5, PlanBearingDeg: 90}, box(-far, 1, far, 2, 0, 100)).Point([2]float64{0, 0}, 0)
	hours := ahead.Day(garden.DayOf(2026, 3, 20))
	if hours.Before > 0.2 || hours.After < 5.8 {
		t.Errorf("behind a wall in the east there are %v hours before noon and %v after", hours.Before, hours.After)
	}
}

// Hours above elevations and over two invented skylines, which astropy and ephem
// counted: the skylines are built here as rings about the point.
func TestHoursAboveSkylines(t *testing.T) {
	worst := 0.0
	for _, r := range rowsOf(t, "sun_hours_above.csv", 12) {
		here := Place{Lat: r.Float("lat_deg"), Lon: r.Float("lon_deg_east")}
		equatorward := 180.0
		if here.Lat < 0 {
			equatorward = 0
		}
		for column, skyline := range map[string][]Prism{
			"hours_elev_gt_0": nil,
			"hours_gt_10":     {ring(0, 180, 10), ring(180, 360, 10)},
			"hours_gt_20":     {ring(0, 180, 20), ring(180, 360, 20)},
			"hours_gt_30":     {ring(0, 180, 30), ring(180, 360, 30)},
			"hours_profile_A": {ring(equatorward-45, equatorward+45, 25)},
			"hours_profile_B": {ring(45, 135, 30), ring(240, 280, 50)},
		} {
			is := siteOf(t, here, skyline...).Point([2]float64{0, 0}, 0).Day(r.Day("local_date")).Total
			off := math.Abs(is - r.Float(column))
			if off > 0.05 {
				t.Errorf("%s %s %s: %.3f h, want %.3f", r.Text("place"), r.Text("local_date"), column, is, r.Float(column))
			}
			worst = max(worst, off)
		}
	}
	t.Logf("worst %.3f h", worst)
}

// ring is a wall round the origin between two azimuths that reaches an elevation.
func ring(fromDeg, toDeg, elevationDeg float64) Prism {
	p := Prism{TopM: 100 * math.Tan(elevationDeg*degree), Density: 1}
	corner := func(azimuth, radius float64) {
		sin, cos := math.Sincos(azimuth * degree)
		p.Outline = append(p.Outline, [2]float64{radius * sin, radius * cos})
	}
	for azimuth := fromDeg; azimuth <= toDeg; azimuth += 2 {
		corner(azimuth, 100)
	}
	for azimuth := toDeg; azimuth >= fromDeg; azimuth -= 2 {
		corner(azimuth, 101)
	}
	return p
}

// Where the sun does not rise or set the hours are none or all.
func TestShadeAtThePoles(t *testing.T) {
	for _, c := range []struct {
		lat   float64
		day   string
		hours float64
	}{{90, "2026-06-21", 24}, {90, "2026-12-21", 0}, {-90, "2026-12-21", 24}, {69.65, "2026-12-21", 0}, {69.65, "2026-06-21", 24}} {
		hours := siteOf(t, Place{Lat: c.lat}).Point([2]float64{0, 0}, 0).Day(dayOf(t, c.day))
		near(t, c.day, hours.Total, c.hours, 0)
		near(t, c.day+" before noon", hours.Before, c.hours/2, 0)
	}
}
