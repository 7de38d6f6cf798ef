package growth

import "math"

// woodyPlan lays out the segments: from planting, or from the first measure of
// a plant whose planting is not known, and anew from each cut.
func (p *planner) woodyPlan() (course, bool) {
	m, k := woodyShape(p.kind.Habit, p.kind.YearsToSize)
	w := &woody{m: m, k: k, planted: math.Inf(-1)}
	heights := p.heights
	switch {
	case p.dated:
		if p.moved {
			w.planted = seasonClock(p.planted)
		}
		start := segment{from: p.planted, cm: p.startCm, sd: measuringShare, free: p.startFree}
		if p.startFree {
			start.sd = startSD
		}
		w.begin(start)
	case len(heights) > 0:
		w.begin(measured(heights[0]))
		heights = heights[1:]
	default:
		return nil, false
	}
	for _, day := range p.moves {
		w.transplant(seasonClock(day))
	}
	p.restart(w, heights)
	return w, true
}

// restart walks cuts and measures by day; a cut comes before a measure of its day,
// which then tells what was left.
func (p *planner) restart(w *woody, heights []height) {
	cuts, blind := p.cuts, false
	standing := 0.0 // the last height measured since the last cut
	for i, h := range heights {
		for ; len(cuts) > 0 && cuts[0].day <= h.day; cuts = cuts[1:] {
			blind, standing = p.cutWood(w, cuts[0]), 0
		}
		if blind || unrecordedCut(standing, h, heights[i+1:]) {
			w.begin(measured(h))
			blind = false
		}
		standing = h.cm
	}
	for _, c := range cuts {
		p.cutWood(w, c)
	}
}

// cutWood begins the segment after a cut and says whether what it left is unknown.
func (p *planner) cutWood(w *woody, c cut) (blind bool) {
	if c.day <= w.segments[0].from {
		return false // before anything is known of the plant
	}
	if c.left > 0 {
		w.begin(segment{from: c.day, cm: c.left, sd: measuringShare})
		return false
	}
	before := w.at(w.spot(c.day), p.size.usual())
	w.begin(segment{from: c.day, cm: cutLeft * before.cm, sd: cutSD, blind: true})
	return true
}

// unrecordedCut says whether a measure is so far below the one before, and the
// next not back up, that something was cut or died back.
func unrecordedCut(before float64, h height, later []height) bool {
	if h.cm > dropShare*before-2*measuringError(before) {
		return false
	}
	return len(later) == 0 || later[0].cm < (1+dropShare)/2*before
}

func measured(h height) segment {
	return segment{from: h.day, cm: h.cm, sd: measuringError(h.cm) / h.cm}
}

// measuringError is the standard deviation, in cm, of one measured height.
func measuringError(cm float64) float64 { return math.Hypot(measuringCm, measuringShare*cm) }
