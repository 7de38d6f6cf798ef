package sun

import (
	"math"
	"slices"
)

// A Point is one point of a garden with what hides the sky from it, for any day.
type Point struct {
	site    *Site
	shadows []shadow // those of one prism after those of another
	// bySector lists, for each part of the circle, which shadows reach into it.
	bySector [sectors][]int32
}

// A shadow is a piece of sky that a prism hides: between two turns (see turnOf)
// and between two planes through the point. A direction (x, y, up) in it has
// low·(x, y) ≤ up ≤ high·(x, y) + above.
type shadow struct {
	from, to  float64
	low, high [2]float64
	above     float64
	prism     int
}

// wholeSky as a shadow's above lets its upper plane hide nothing less than all:
// directions are of length one.
const wholeSky = 2

// Point works out what hides the sky from a point of the plan at a height in
// metres over it. A point against a prism, within touchM of its side, sees past
// it as from its face; one inside sees nothing but what the density lets through;
// one underneath sees the low sun.
func (s *Site) Point(at [2]float64, heightM float64) *Point {
	p := &Point{site: s}
	for i, prism := range s.prisms {
		v := view{prism: i, low: prism.BaseM - heightM, high: prism.TopM - heightM}
		if v.high <= 0 {
			continue
		}
		for _, corner := range prism.Outline {
			v.corners = append(v.corners, minus(corner, at))
		}
		v.castInto(p)
	}
	return p
}

// A view is one prism as seen from a point: its corners, base and top from there.
type view struct {
	prism     int
	corners   [][2]float64
	low, high float64
}

// castInto goes round the circle from corner to corner. Between two of them the
// same sides are looked through in the same order, so one look in the middle
// tells the planes for all directions between.
func (v view) castInto(p *Point) {
	turns := make([]float64, 0, len(v.corners)+2)
	for _, corner := range v.corners {
		turns = append(turns, turnOf(corner[0], corner[1]))
	}
	turns = append(turns, 0, fullTurn)
	slices.Sort(turns)
	var crossings []crossing
	for i := 1; i < len(turns); i++ {
		from, to := turns[i-1], turns[i]
		if to-from < leastTurn {
			continue
		}
		crossings = v.crossings(crossings[:0], directionOf((from+to)/2))
		v.cast(p, from, to, crossings)
	}
}

// A crossing is a side of the prism that a direction passes through: how far off,
// and the vector whose product with any direction is one over the distance.
type crossing struct {
	distance float64
	nearness [2]float64
}

// crossings lists the sides in a direction, nearest first. Sides that touch the
// point are left out: the point then counts as inside for directions that lead
// in, and as outside for those that lead away.
func (v view) crossings(list []crossing, direction [2]float64) []crossing {
	for i, a := range v.corners {
		b := v.corners[(i+1)%len(v.corners)]
		if !opposite(cross(direction, a), cross(direction, b)) {
			continue
		}
		side := minus(b, a)
		area := cross(a, side)
		distance := area / cross(direction, side)
		if distance > 0 && distanceToSide(a, side) > touchM {
			list = append(list, crossing{distance, [2]float64{side[1] / area, -side[0] / area}})
		}
	}
	slices.SortFunc(list, func(a, b crossing) int {
		switch {
		case a.distance < b.distance:
			return -1
		case a.distance > b.distance:
			return 1
		}
		return 0
	})
	return list
}

// distanceToSide is how far the side from a, along side, is from the point.
func distanceToSide(a, side [2]float64) float64 {
	length := side[0]*side[0] + side[1]*side[1]
	along := 0.0
	if length > 0 {
		along = math.Max(0, math.Min(1, -(a[0]*side[0]+a[1]*side[1])/length))
	}
	return math.Hypot(a[0]+along*side[0], a[1]+along*side[1])
}

// cast adds the shadows of one slice of the circle: one for each stretch inside
// the prism. Where the base is not above the point the first hides most.
func (v view) cast(p *Point, from, to float64, crossings []crossing) {
	s := shadow{from: from, to: to, prism: v.prism}
	next := 0
	if len(crossings)%2 == 1 {
		s.above, next = wholeSky, 1
		v.add(p, s, crossings[0])
	}
	s.above = 0
	for ; next < len(crossings); next += 2 {
		if v.low <= 0 && next > 0 {
			return
		}
		s.high = scaled(crossings[next].nearness, v.high)
		v.add(p, s, crossings[next+1])
	}
}

// add closes a shadow at the far side and puts it into its sectors.
func (v view) add(p *Point, s shadow, far crossing) {
	if v.low > 0 {
		s.low = scaled(far.nearness, v.low)
	}
	last := sectorOf(s.to)
	if s.to >= fullTurn {
		s.to = 2 * fullTurn // a direction's own turn may round up to a full one
	}
	for i := sectorOf(s.from); i <= last; i++ {
		p.bySector[i] = append(p.bySector[i], int32(len(p.shadows)))
	}
	p.shadows = append(p.shadows, s)
}

func scaled(v [2]float64, by float64) [2]float64 { return [2]float64{v[0] * by, v[1] * by} }

func sectorOf(turn float64) int { return min(int(turn*(sectors/fullTurn)), sectors-1) }

// passes gives the share of the sun that comes through from a direction: 0 below
// the horizon, and otherwise what each prism in the way lets pass.
func (p *Point) passes(r ray, passing []float64) float64 {
	if r.up <= 0 {
		return 0
	}
	share, counted := 1.0, -1
	for _, i := range p.bySector[sectorOf(r.turn)] {
		s := &p.shadows[i]
		if r.turn < s.from || r.turn >= s.to || s.prism == counted {
			continue
		}
		if r.up <= s.high[0]*r.x+s.high[1]*r.y+s.above && r.up >= s.low[0]*r.x+s.low[1]*r.y {
			if share *= passing[s.prism]; share == 0 {
				return 0
			}
			counted = s.prism
		}
	}
	return share
}
