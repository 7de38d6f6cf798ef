package place

import (
	"math"
	"slices"

	"haulm/garden"
)

// A view is what of a stand is seen from one place: the stretch of directions
// that it fills, and how far away it is.
type view struct {
	towards float64 // radians
	lo, hi  float64 // to both sides of it
	far     float64 // metres, to the middle
	deep    float64 // half of its depth
}

// Hidden tells for each stand of a bed how much of its show others hide from an
// eye at a point of the plan, the greatest share first. tallCM gives how tall one
// stand is while another shows; showCM how tall that other is then, or 0 when it
// has no show to hide. Two side by side hide nothing of each other.
func Hidden(eye garden.Point, rooms []Room, showCM func(of int) float64, tallCM func(by, of int) float64) [][]Taken {
	views := make([]view, len(rooms))
	for i, room := range rooms {
		views[i] = room.from(eye)
	}
	hidden := make([][]Taken, len(rooms))
	for of := range rooms {
		show := showCM(of)
		if show <= 0 || views[of].far <= views[of].deep {
			continue
		}
		if before := inFront(views, of, func(by int) bool { return overShow(&views[by], &views[of], tallCM(by, of), show) }); len(before) > 0 {
			hidden[of] = hiddenRays(views, before, of)
		}
	}
	return hidden
}

// inFront lists those before one, of the first mostTouching that cross its view,
// that stand over its show.
func inFront(views []view, of int, over func(by int) bool) (before []int) {
	crossing := 0
	for by := range views {
		if !views[by].before(&views[of]) || !views[by].crosses(&views[of]) {
			continue
		}
		if crossing++; crossing > mostTouching || len(before) == mostNeighbours {
			break
		}
		if over(by) {
			before = append(before, by)
		}
	}
	return before
}

func (r Room) from(eye garden.Point) view {
	v := view{towards: bearing(eye, garden.Point(r.middle)), far: distance(eye, garden.Point(r.middle)), deep: r.radius}
	if r.ring == nil {
		half := math.Asin(math.Min(1, r.radius/math.Max(v.far, r.radius)))
		v.lo, v.hi = -half, half
		return v
	}
	for _, corner := range r.ring {
		turn := turned(bearing(eye, garden.Point(corner)) - v.towards)
		v.lo, v.hi = math.Min(v.lo, turn), math.Max(v.hi, turn)
		v.deep = math.Max(v.deep, math.Abs(distance(eye, garden.Point(corner))-v.far))
	}
	return v
}

func bearing(from, to garden.Point) float64 { return math.Atan2(to[1]-from[1], to[0]-from[0]) }

func distance(a, b garden.Point) float64 {
	dx, dy := a[0]-b[0], a[1]-b[1]
	return math.Sqrt(dx*dx + dy*dy)
}

// turned brings the difference of two bearings to within half a turn.
func turned(angle float64) float64 {
	switch {
	case angle > math.Pi:
		return angle - 2*math.Pi
	case angle < -math.Pi:
		return angle + 2*math.Pi
	}
	return angle
}

// before tells whether one clearly stands nearer to the eye than another, and the
// eye is not in its midst.
func (v *view) before(other *view) bool {
	return v.far > v.deep && v.far < other.far-(v.deep+other.deep)/2
}

// crosses tells whether the two fill any direction in common.
func (v *view) crosses(other *view) bool {
	off := turned(other.towards - v.towards)
	return off+other.hi >= v.lo && off+other.lo <= v.hi
}

// overShow tells whether the line from the eye over the top of the one in front
// passes over the show of the one behind.
func overShow(front, behind *view, tallCM, showCM float64) bool {
	return eyeCM+(tallCM-eyeCM)*behind.far/front.far >= showCM*showFrom
}

func hiddenRays(views []view, before []int, of int) []Taken {
	v := views[of]
	hits := make([]int, len(before))
	for i := range rays {
		ray := v.lo + (v.hi-v.lo)*(float64(i)+0.5)/rays
		at := slices.IndexFunc(before, func(by int) bool {
			off := turned(v.towards + ray - views[by].towards)
			return off >= views[by].lo && off <= views[by].hi
		})
		if at >= 0 {
			hits[at]++
		}
	}
	return takenOf(before, hits, rays)
}
