package stats

import (
	"cmp"
	"math"
	"slices"
)

// A slopes finds slopes by rank among those of all pairs of points without
// writing them out. Two points with a slope under s change places when points are
// ordered by y − s·x instead of by x, so slopes are counted as pairs out of order,
// by merging (Cole, Salowe, Steiger & Szemerédi 1989, SIAM Journal on Computing
// 18:792). Between two bounds, pairs that change places from the one to the other
// are drawn at even distances, and the slopes of those near the wanted rank are the
// next bounds (after Dillencourt, Mount & Netanyahu 1992, International Journal of
// Computational Geometry & Applications 2:1, who draw by lot): each round leaves
// about 8/√n of the pairs, until they are few enough to be written out.
type slopes struct {
	points  []place // by x, then y
	pairs   int     // whose x differ
	scale   float64 // a slope that is small beside it is rounding
	order   []place
	merged  []place // room
	drawn   []float64
	written int // how many slopes lie below drawn, where it holds all in its bounds; else −1
}

type place struct{ x, y float64 }

const (
	// apart is the share of a slope that keeps a bound clear of the rounding of
	// slopes like it.
	apart = 1e-12
	// aside is how many standard deviations of the rank of a drawn slope the bounds
	// lie from the wanted rank.
	aside = 4
	// mostRounds is far more than the four or five that are needed; it only makes
	// sure of an end.
	mostRounds = 200
)

func newSlopes(x, y []float64) *slopes {
	n := len(x)
	s := &slopes{points: make([]place, n), order: make([]place, n), merged: make([]place, n), drawn: make([]float64, 0, n)}
	for i := range x {
		s.points[i] = place{x[i], y[i]}
	}
	slices.SortFunc(s.points, func(a, b place) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y)) })
	s.pairs = n * (n - 1) / 2
	for from := 0; from < n; {
		to := from
		for to < n && s.points[to].x == s.points[from].x {
			to++
		}
		s.pairs -= (to - from) * (to - from - 1) / 2
		from = to
	}
	if s.pairs > 0 {
		s.scale = (slices.Max(y) - slices.Min(y)) / (s.points[n-1].x - s.points[0].x)
	}
	return s
}

// median is the middle slope, or the mean of the two middle ones.
func (s *slopes) median() float64 {
	if s.scale == 0 {
		return 0 // one y alone
	}
	rank := (s.pairs + 1) / 2
	low := s.ranked(rank)
	switch {
	case s.pairs%2 == 1:
		return low
	case s.written >= 0 && rank-s.written < len(s.drawn):
		return low/2 + s.drawn[rank-s.written]/2
	default:
		return low/2 + s.ranked(rank+1)/2
	}
}

// bounds are slopes between which one is looked for, with how many lie below each.
type bounds struct {
	lo, hi       float64
	below, under int
}

// ranked is the slope of a rank, from 1.
func (s *slopes) ranked(rank int) (slope float64) {
	b := bounds{lo: math.Inf(-1), hi: math.Inf(1), under: s.pairs}
	for range mostRounds {
		s.draw(b)
		if s.written >= 0 && rank > s.written && rank-s.written <= len(s.drawn) {
			return s.drawn[rank-s.written-1]
		}
		if len(s.drawn) == 0 {
			break
		}
		share := math.Max(0, math.Min(1, float64(rank-b.below)/float64(max(1, b.under-b.below))))
		early, late := s.pivots(share)
		slope = early
		s.narrow(&b, rank, s.beside(early, -1, b))
		s.narrow(&b, rank, s.beside(late, 1, b))
		if width := b.hi - b.lo; !math.IsInf(width, 0) && width <= 2*(s.rounding(b.lo)+s.rounding(b.hi)) {
			break // all slopes between are one but for rounding
		}
	}
	return math.Max(b.lo, math.Min(slope, b.hi))
}

// narrow makes a slope a bound.
func (s *slopes) narrow(b *bounds, rank int, slope float64) {
	switch under := s.under(slope); {
	case under < rank && slope > b.lo:
		b.lo, b.below = slope, under
	case under >= rank && slope < b.hi:
		b.hi, b.under = slope, under
	}
}

// pivots are the drawn slopes somewhat before and after a share of all.
func (s *slopes) pivots(share float64) (early, late float64) {
	n := float64(len(s.drawn))
	middle, off := share*n, aside*math.Sqrt(n*share*(1-share))+1
	at := func(rank float64) float64 { return s.drawn[int(math.Max(0, math.Min(n-1, rank)))] }
	return at(middle - off), at(middle + off)
}

// beside is a pivot moved clear of slopes like it, or a slope between two bounds
// that it is not between.
func (s *slopes) beside(pivot, side float64, b bounds) float64 {
	pivot += side * s.rounding(pivot)
	switch {
	case pivot > b.lo && pivot < b.hi:
		return pivot
	case math.IsInf(b.lo, -1) && math.IsInf(b.hi, 1):
		return 0
	case math.IsInf(b.lo, -1):
		return b.hi - math.Max(s.scale, math.Abs(b.hi))
	case math.IsInf(b.hi, 1):
		return b.lo + math.Max(s.scale, math.Abs(b.lo))
	default:
		return b.lo/2 + b.hi/2
	}
}

func (s *slopes) rounding(slope float64) float64 { return apart * (math.Abs(slope) + s.scale) }

// under counts the slopes below one, and leaves the points in its order.
func (s *slopes) under(slope float64) int {
	copy(s.order, s.points)
	return s.outOfOrder(slope, 0)
}

// draw leaves in drawn, sorted, the slopes between two bounds: all where there is
// room, or those of pairs at even distances in the order in which they are found.
func (s *slopes) draw(b bounds) {
	s.under(b.lo)
	room := cap(s.drawn)
	s.drawn = s.drawn[:0]
	step := max(1, (b.under-b.below+room-1)/room)
	s.outOfOrder(b.hi, step)
	slices.Sort(s.drawn)
	if s.written = -1; step == 1 {
		s.written = b.below
	}
}

// outOfOrder puts order into that of a slope, by merging from the bottom up, and
// counts the pairs that change places. With a step, it draws the slope of every
// step-th.
func (s *slopes) outOfOrder(slope float64, step int) (count int) {
	n := len(s.order)
	next := step / 2
	for width := 1; width < n; width *= 2 {
		for from := 0; from < n; from += 2 * width {
			middle, to := min(from+width, n), min(from+2*width, n)
			left, right := from, middle
			for i := from; i < to; i++ {
				if right == to || left < middle && !s.order[left].after(s.order[right], slope) {
					s.merged[i] = s.order[left]
					left++
					continue
				}
				for ; step > 0 && next < count+middle-left; next += step {
					s.drawn = append(s.drawn, s.order[left+next-count].slopeTo(s.order[right]))
				}
				count += middle - left
				s.merged[i] = s.order[right]
				right++
			}
		}
		s.order, s.merged = s.merged, s.order
	}
	return count
}

// after says whether a point comes after another in the order of a slope. It goes
// by their differences, which are exact where points are close.
func (p place) after(q place, slope float64) bool {
	switch dx, dy := q.x-p.x, q.y-p.y; {
	case math.IsInf(slope, 0):
		return dx*slope > 0
	default:
		return dy < slope*dx
	}
}

func (p place) slopeTo(q place) float64 { return (q.y - p.y) / (q.x - p.x) }
