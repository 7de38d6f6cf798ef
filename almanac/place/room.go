package place

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A Room is the ground that a planting covers.
type Room struct {
	middle orb.Point
	radius float64  // of a round one, in metres
	ring   orb.Ring // closed; nil for a round one
	box    orb.Bound
}

// Disc is a round room about a point, of a radius in metres.
func Disc(middle garden.Point, radiusM float64) Room {
	at := orb.Point(middle)
	return Room{middle: at, radius: radiusM, box: at.Bound().Pad(radiusM)}
}

// Ground is the room within an outline of three corners or more. Of an outline
// with more than mostCorners every second, third or so on is looked at.
func Ground(outline garden.Outline) Room {
	every := 1 + (len(outline)-1)/mostCorners
	ring := make(orb.Ring, 0, len(outline)/every+2)
	for i := 0; i < len(outline); i += every {
		ring = append(ring, orb.Point(outline[i]))
	}
	ring = append(ring, ring[0])
	middle, _ := planar.CentroidArea(ring)
	if math.IsNaN(middle[0]) || math.IsNaN(middle[1]) {
		middle = ring.Bound().Center() // an outline without area
	}
	return Room{middle: middle, ring: ring, box: ring.Bound()}
}

// Middle is the room's centre.
func (r Room) Middle() garden.Point { return garden.Point(r.middle) }

func (r Room) holds(p orb.Point) bool {
	if r.ring != nil {
		return r.box.Contains(p) && inside(r.ring, p)
	}
	dx, dy := p[0]-r.middle[0], p[1]-r.middle[1]
	return dx*dx+dy*dy <= r.radius*r.radius
}

// inside tells whether a ray from a point crosses a closed ring an odd number of
// times. Of a point on the ring itself it may say either: shares do not hang on one
// point, and a tenth of the time of a test that is exact there lets every planting of
// a large garden be told of.
func inside(ring orb.Ring, p orb.Point) bool {
	odd := false
	for i := range ring[1:] {
		a, b := &ring[i], &ring[i+1]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			odd = !odd
		}
	}
	return odd
}

// points strews points evenly over the room; none over one without area.
func (r Room) points() []orb.Point {
	width, height := r.box.Max[0]-r.box.Min[0], r.box.Max[1]-r.box.Min[1]
	list := make([]orb.Point, 0, strewn)
	for i := range strewn {
		p := orb.Point{r.box.Min[0] + width*part(i, stepX), r.box.Min[1] + height*part(i, stepY)}
		if r.holds(p) {
			list = append(list, p)
		}
	}
	return list
}

func part(i int, step float64) float64 {
	_, fraction := math.Modf(0.5 + float64(i)*step)
	return fraction
}

// Outline is the room's edge: its own corners, or of a round one an octagon of the
// same area.
func (r Room) Outline() garden.Outline {
	if r.ring != nil {
		outline := make(garden.Outline, 0, len(r.ring)-1)
		for _, corner := range r.ring[:len(r.ring)-1] {
			outline = append(outline, garden.Point(corner))
		}
		return outline
	}
	return r.octagon()
}

// octagon has its corners at a distance R of its middle, where its area 2√2·R² is
// that of the disc.
func (r Room) octagon() garden.Outline {
	reach := stats.Round7(r.radius * math.Sqrt(math.Pi/(2*math.Sqrt2)))
	slant := stats.Round7(reach / math.Sqrt2)
	outline := garden.Outline{{reach, 0}, {slant, slant}, {0, reach}, {-slant, slant}, {-reach, 0}, {-slant, -slant}, {0, -reach}, {slant, -slant}}
	for i := range outline {
		outline[i][0] += r.middle[0]
		outline[i][1] += r.middle[1]
	}
	return outline
}

// AreaM2 is the room's area in square metres.
func (r Room) AreaM2() float64 {
	if r.ring != nil {
		return math.Abs(planar.Area(r.ring))
	}
	return math.Pi * r.radius * r.radius
}

// Within tells whether a point is no further than so many metres from the room.
func (r Room) Within(metres float64, at garden.Point) bool {
	point := orb.Point(at)
	if !r.box.Pad(metres).Contains(point) {
		return false
	}
	if r.ring == nil {
		return distance(r.Middle(), at) <= r.radius+metres
	}
	return r.holds(point) || stats.Round7(planar.DistanceFrom(r.ring, point)) <= metres
}
