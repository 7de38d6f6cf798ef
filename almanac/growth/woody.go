package growth

import (
	"math"
	"slices"
)

// A woody course adds to last year's wood: h(e) = H(1 − (1−(h0/H)^(1/m))·e^(−k·ρ·e))^m,
// the Chapman–Richards curve (Richards 1959, Journal of Experimental Botany
// 10:290; Chapman 1961) from a height h0 on, e being effective age and ρ the
// planting's rate. Each cut begins another segment.
type woody struct {
	m, k     float64
	planted  float64 // on seasonClock; −∞ for a plant that never was moved, or long ago
	moves    []move  // after that, in order
	segments []segment
}

// A move is a time on seasonClock at which the plant was dug up and planted again, and
// its effective age then: roots come first again.
type move struct{ clock, age float64 }

// transplant notes a move after those before.
func (w *woody) transplant(clock float64) {
	if clock > w.planted {
		w.moves = append(w.moves, move{clock, w.age(clock)})
	}
}

// movedBefore is the last move by which a condition holds; false for none.
func (w *woody) movedBefore(holds func(move) bool) (move, bool) {
	for _, m := range slices.Backward(w.moves) {
		if holds(m) {
			return m, true
		}
	}
	return move{}, false
}

// A segment is a stretch of growth from a known or assumed height.
type segment struct {
	from  float64 // day
	clock float64
	cm    float64
	log   float64 // of cm
	sd    float64 // of its logarithm
	free  bool    // the height is that of planting, not recorded, and is fitted
	blind bool    // nothing in it is judged: what a cut left is not known
}

// begun is the logarithm of the height that a planting's segment begins with.
func (s segment) begun(o own) float64 {
	if s.free {
		return s.log + o.logStart
	}
	return s.log
}

// woodyShape gives m and k for a habit and the years to size.
func woodyShape(habit string, years float64) (m, k float64) {
	m = shapeShrub
	if habit == "tree" {
		m = shapeTree
	}
	if years <= 0 {
		years = defaultYears
	}
	return m, -math.Log(1-math.Pow(sizeAtYears, 1/m)) / years
}

func (w *woody) begin(s segment) {
	s.clock, s.log = seasonClock(s.from), math.Log(s.cm)
	w.segments = append(w.segments, s)
}

// age is effective age on seasonClock, from an arbitrary zero.
func (w *woody) age(clock float64) float64 {
	if m, moved := w.movedBefore(func(m move) bool { return m.clock < clock }); moved {
		return m.age + established(clock-m.clock)
	}
	if math.IsInf(w.planted, -1) {
		return clock
	}
	return established(clock - w.planted)
}

func (w *woody) spot(day float64) spot {
	i := lastBegun(len(w.segments), func(i int) bool { return w.segments[i].from > day })
	if i < 0 {
		return spot{}
	}
	s, clock := w.segments[i], seasonClock(day)
	return spot{part: i, season: int(math.Floor(clock)), effort: w.age(clock) - w.age(s.clock),
		seasons: math.Max(1, clock-s.clock), known: true, judged: !s.blind && day > s.from}
}

func (w *woody) at(where spot, o own) point {
	s := w.segments[where.part]
	begun := s.begun(o)
	room, opens := positivePart(o.logSize-begun, atSizeWidth) // none beyond its size: it stays
	root := math.Exp(-room / w.m)
	left := math.Exp(-w.k * o.rate * where.effort)
	share := 1 - (1-root)*left
	cm := math.Exp(begun + room + w.m*math.Log(share))
	slope := cm / share // H·share^(m−1)
	p := point{cm: cm}
	p.by[ofRate] = slope * w.m * (1 - root) * left * w.k * o.rate * where.effort
	byRoot := slope * left * root // what it began with moves the height at the same size
	bySize := cm - byRoot
	p.by[ofSize] = bySize * opens * o.sizeSlope
	byStart := byRoot + bySize*(1-opens)
	p.startErr = byStart * s.sd
	if s.free {
		p.by[ofStart], p.startErr = byStart, 0
	}
	return p
}

// reach is when, on seasonClock, the planting has reachedShare of its size, with the
// derivatives; false when it has it from the beginning.
func (w *woody) reach(o own) (point, bool) {
	s := w.segments[len(w.segments)-1]
	root := math.Exp((s.begun(o) - o.logSize) / w.m)
	toGo := 1 - root
	target := 1 - math.Pow(reachedShare, 1/w.m)
	if toGo <= target {
		return point{}, false
	}
	effort := math.Log(toGo/target) / (w.k * o.rate)
	clock := w.clockAt(w.age(s.clock) + effort)
	pace := 1.0 // seasons for a year of effective age
	if step := 1e-3; !math.IsInf(w.planted, -1) || len(w.moves) > 0 {
		pace = (w.clockAt(w.age(s.clock)+effort+step) - clock) / step
	}
	bySize := root / (w.m * toGo * w.k * o.rate) * pace
	when := point{cm: clock}
	when.by[ofRate], when.by[ofSize] = -effort*pace, bySize*o.sizeSlope
	if s.free {
		when.by[ofStart] = -bySize
	}
	return when, true
}

// clockAt is the inverse of age.
func (w *woody) clockAt(age float64) float64 {
	if m, moved := w.movedBefore(func(m move) bool { return m.age < age }); moved {
		return m.clock + seasonsFor(age-m.age)
	}
	if math.IsInf(w.planted, -1) {
		return age
	}
	return w.planted + seasonsFor(age)
}
