package materials

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"haulm/garden"
)

// Area is the ground in square metres that an outline on the plan encloses. It
// fails, naming the field, on fewer than three points, a point that is no place on
// a plan, and an outline that crosses itself.
func Area(field string, outline garden.Outline) (float64, error) {
	if len(outline) < 3 || len(outline) > mostPoints {
		return 0, fmt.Errorf("%s has %d points where 3 to %d are wanted", field, len(outline), mostPoints)
	}
	ring := make(orb.Ring, 0, len(outline)+1)
	for i, p := range outline {
		for _, x := range p {
			if !(math.Abs(x) <= furthestM) {
				return 0, fmt.Errorf("%s[%d] %v is outside %d to %d m", field, i, p, -furthestM, furthestM)
			}
		}
		ring = append(ring, orb.Point(p))
	}
	if i, j, crosses := crossing(outline); crosses {
		return 0, fmt.Errorf("%s crosses itself: the side from point %d meets that from point %d", field, i, j)
	}
	return math.Abs(planar.Area(append(ring, ring[0]))), nil
}

// crossing gives two sides of an outline that cross, by their first points.
func crossing(outline garden.Outline) (i, j int, crosses bool) {
	n := len(outline)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if (j+1)%n != i && cross(outline[i], outline[i+1], outline[j], outline[(j+1)%n]) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// cross tells whether two segments pass through each other.
func cross(a, b, c, d garden.Point) bool {
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// side is positive where c lies left of the line from a to b, negative right of it.
func side(a, b, c garden.Point) float64 {
	return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
}

// covered is the ground that pieces cover together, each point counted once, and
// within an outline where there is one. It is measured along lines across.
func covered(outline garden.Outline, pieces []garden.Outline) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, piece := range pieces {
		for _, p := range piece {
			lo, hi = min(lo, p[1]), max(hi, p[1])
		}
	}
	if !(hi > lo) {
		return 0
	}
	step, total := (hi-lo)/scanLines, 0.0
	var buffer []span
	for i := range scanLines {
		y := lo + (float64(i)+0.5)*step
		spans := buffer[:0]
		for _, piece := range pieces {
			spans = appendSpans(spans, piece, y)
		}
		buffer = spans
		spans = merged(spans)
		if outline != nil {
			spans = common(spans, appendSpans(nil, outline, y))
		}
		for _, s := range spans {
			total += (s.to - s.from) * step
		}
	}
	return total
}

// A span is a stretch of a line across.
type span struct{ from, to float64 }

// appendSpans appends the stretches of the line at y inside an outline, in order.
func appendSpans(spans []span, outline garden.Outline, y float64) []span {
	var few [8]float64 // enough for most outlines without asking for memory
	xs := few[:0]
	a := outline[len(outline)-1]
	for _, b := range outline {
		if (a[1] > y) != (b[1] > y) {
			xs = append(xs, a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]))
		}
		a = b
	}
	slices.Sort(xs)
	for i := 0; i+1 < len(xs); i += 2 {
		spans = append(spans, span{xs[i], xs[i+1]})
	}
	return spans
}

// merged makes one of spans that overlap.
func merged(spans []span) []span {
	slices.SortFunc(spans, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	out := spans[:0]
	for _, s := range spans {
		if last := len(out) - 1; last >= 0 && s.from <= out[last].to {
			out[last].to = max(out[last].to, s.to)
		} else {
			out = append(out, s)
		}
	}
	return out
}

// common is what two lists of spans, each in order, share.
func common(a, b []span) []span {
	var out []span
	for len(a) > 0 && len(b) > 0 {
		if from, to := max(a[0].from, b[0].from), min(a[0].to, b[0].to); from < to {
			out = append(out, span{from, to})
		}
		if a[0].to < b[0].to {
			a = a[1:]
		} else {
			b = b[1:]
		}
	}
	return out
}
