package sun

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haulm/garden"
)

// half a minute, as a share of an hour: what halving may leave of each of a few
// edges that the sun passes.
const edgeHours = 0.03

type scene struct {
	here   Place
	prisms []Prism
	spot   [2]float64
	height float64
	day    garden.Day
}

func (s scene) hours(t rapidOrTest) Hours {
	site, err := NewSite(s.here, s.prisms)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return site.Point(s.spot, s.height).Day(s.day)
}

type rapidOrTest interface{ Fatalf(string, ...any) }

func drawPrism(t *rapid.T) Prism {
	base := rapid.Float64Range(-1, 4).Draw(t, "base")
	x, y := rapid.Float64Range(-15, 15).Draw(t, "x"), rapid.Float64Range(-15, 15).Draw(t, "y")
	outline := star([2]float64{x, y}, rapid.IntRange(2, 8).Draw(t, "points"), rapid.Float64Range(0.2, 8).Draw(t, "radius"), rapid.Float64Range(0.3, 1).Draw(t, "share"))
	return Prism{Outline: outline, BaseM: base, TopM: base + rapid.Float64Range(0.1, 9).Draw(t, "tall"),
		Density: rapid.SampledFrom([]float64{1, 0.8, 0.4, 0}).Draw(t, "density"),
		Leaf:    rapid.SampledFrom([]Leaf{NoLeaf, Deciduous, Evergreen}).Draw(t, "leaf")}
}

func drawScene(t *rapid.T) scene {
	s := scene{
		here:   Place{rapid.Float64Range(-90, 90).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon"), rapid.Float64Range(0, 360).Draw(t, "bearing")},
		spot:   [2]float64{rapid.Float64Range(-5, 5).Draw(t, "spotX"), rapid.Float64Range(-5, 5).Draw(t, "spotY")},
		height: rapid.Float64Range(0, 5).Draw(t, "height"),
		day:    garden.DayOf(2024, 1, 1) + garden.Day(rapid.IntRange(0, 1500).Draw(t, "day")),
	}
	for range rapid.IntRange(1, 6).Draw(t, "prisms") {
		s.prisms = append(s.prisms, drawPrism(t))
	}
	return s
}

func noMore(t *rapid.T, what string, is, than Hours) {
	if is.Total > than.Total+edgeHours || is.Before > than.Before+edgeHours || is.After > than.After+edgeHours {
		t.Fatalf("%s: %v, before %v", what, is, than)
	}
}

func same(t *rapid.T, what string, is, want Hours) {
	if math.Abs(is.Before-want.Before) > edgeHours || math.Abs(is.After-want.After) > edgeHours {
		t.Fatalf("%s: %v, before %v", what, is, want)
	}
}

// In every direction, exactly: what passes never grows by a structure more.
func TestNoDirectionGainsByMoreInTheWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScene(t)
		fewer, err := NewSite(s.here, s.prisms)
		if err != nil {
			t.Fatalf("%v", err)
		}
		more, err := NewSite(s.here, append([]Prism{drawPrism(t)}, s.prisms...))
		if err != nil {
			t.Fatalf("%v", err)
		}
		a, b := fewer.Point(s.spot, s.height), more.Point(s.spot, s.height)
		for azimuth := 0.0; azimuth < 360; azimuth += 7 {
			for elevation := 1.0; elevation < 90; elevation += 11 {
				r := towards(azimuth, elevation)
				if less, was := b.passes(r, more.passes(s.day)), a.passes(r, fewer.passes(s.day)); less > was {
					t.Fatalf("%g° %g°: %g of the sun passes, %g without the one more", azimuth, elevation, less, was)
				}
			}
		}
	})
}

func TestMoreInTheWayIsNeverMoreSun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScene(t)
		first := s.hours(t)
		i := rapid.IntRange(0, len(s.prisms)-1).Draw(t, "which")
		change := func(what string, alter func(p *Prism)) {
			other := s
			other.prisms = append([]Prism(nil), s.prisms...)
			alter(&other.prisms[i])
			noMore(t, what, other.hours(t), first)
		}
		change("taller", func(p *Prism) { p.TopM += rapid.Float64Range(0, 10).Draw(t, "more") })
		change("lower base", func(p *Prism) { p.BaseM -= rapid.Float64Range(0, 10).Draw(t, "lower") })
		change("denser", func(p *Prism) { p.Density += (1 - p.Density) * rapid.Float64Range(0, 1).Draw(t, "denser") })
		change("evergreen", func(p *Prism) { p.Leaf = Evergreen })
		s.prisms = append(s.prisms, drawPrism(t))
		noMore(t, "one more", s.hours(t), first)
	})
}

// Turning the plan about its origin with all that is on it, and its bearing the
// other way, or moving it all, leaves the garden as it was.
func TestThePlanIsOnlyPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScene(t)
		first := s.hours(t)
		turned := s
		by := rapid.Float64Range(0, 360).Draw(t, "turn")
		sin, cos := math.Sincos(by * degree)
		turned.here.PlanBearingDeg = math.Mod(s.here.PlanBearingDeg+by, 360)
		same(t, "turned", turned.mapped(func(x, y float64) [2]float64 { return [2]float64{x*cos - y*sin, x*sin + y*cos} }).hours(t), first)
		dx, dy := rapid.Float64Range(-500, 500).Draw(t, "dx"), rapid.Float64Range(-500, 500).Draw(t, "dy")
		same(t, "moved", s.mapped(func(x, y float64) [2]float64 { return [2]float64{x + dx, y + dy} }).hours(t), first)
	})
}

// Seen in a mirror along the meridian, morning is afternoon, but for how far the
// declination moves in a day.
func TestMirroredMorningIsAfternoon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScene(t)
		s.here.PlanBearingDeg, s.here.Lat, s.day = 0, rapid.Float64Range(-55, 55).Draw(t, "lat"), garden.DayOf(2026, 6, 21)
		first := s.hours(t)
		mirrored := s.mapped(func(x, y float64) [2]float64 { return [2]float64{-x, y} }).hours(t)
		same(t, "mirrored", Hours{mirrored.Total, mirrored.After, mirrored.Before}, first)
	})
}

// Raised as a whole, plan, structures and point, nothing changes.
func TestHeightsAreRelative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScene(t)
		first := s.hours(t)
		up := rapid.Float64Range(-40, 40).Draw(t, "up")
		raised := s.mapped(func(x, y float64) [2]float64 { return [2]float64{x, y} })
		raised.height += up
		for i := range raised.prisms {
			raised.prisms[i].BaseM += up
			raised.prisms[i].TopM += up
		}
		same(t, "raised", raised.hours(t), first)
	})
}

// Hours are within the day, and their parts are halves of the whole.
func TestHoursAreHours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScene(t)
		h := s.hours(t)
		s.prisms = nil
		open := s.hours(t)
		if !(h.Before >= 0 && h.After >= 0 && h.Before <= 12 && h.After <= 12 && math.Abs(h.Before+h.After-h.Total) <= 0.0101) {
			t.Fatalf("hours %v", h)
		}
		noMore(t, "with prisms", h, open)
	})
}

func (s scene) mapped(to func(x, y float64) [2]float64) scene {
	prisms := append([]Prism(nil), s.prisms...)
	for i, p := range prisms {
		prisms[i].Outline = nil
		for _, corner := range p.Outline {
			prisms[i].Outline = append(prisms[i].Outline, to(corner[0], corner[1]))
		}
	}
	s.prisms, s.spot = prisms, to(s.spot[0], s.spot[1])
	return s
}
