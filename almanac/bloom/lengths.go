package bloom

import (
	"math"

	"haulm/almanac/stats"
)

// How long a kind's flushes last here. The log of how long one lasts is that of
// its window's length, plus what the kind differs by in this garden, plus
// chance. What it differs by is fitted, one window at a time, to the flushes
// whose looks say something of it, and is then told to each flush with its own
// part left out.

// A spell is what the looks at one flush say of how long it lasted, were it
// opened on each of a few days between the looks around its opening, all as
// likely: the least and the most, as the log of the share of the window's length
// in sds of chance, −∞ and +∞ where open.
type spell struct {
	flush  *Flush
	lo, hi [spellSteps]float64
	stray  float64 // the likelihood of a bound misread: then it may seem of any length
}

// spellOf reads a flush; ok is false where it teaches no length: it is not
// learnt from, its opening is not known closely, or nothing is known of its end.
func spellOf(f *Flush) (s spell, ok bool) {
	if f.Standing.Kind != Open || f.By == nil || f.After == nil || f.EndAfter == nil && f.EndBy == nil {
		return s, false
	}
	by := *f.By
	if f.Seen.FirstFlower == nil {
		by = *f.EndBy // it may have opened at any time before it was seen to be over
	}
	if by-*f.After > f.LengthDays*closeOpening {
		return s, false
	}
	s.flush = f
	until := bound(f.EndBy, 1)
	since := math.Min(bound(f.EndAfter, -1), until-1) // a morning and an evening look
	for i := range s.lo {
		opens := *f.After + (by-*f.After)*(float64(i)+0.5)/spellSteps
		s.lo[i], s.hi[i] = f.lasting(since-opens), f.lasting(until-opens)
		s.stray += misreadOdds * (stats.NormalCDF(s.hi[i]*straySD) - stats.NormalCDF(s.lo[i]*straySD)) / spellSteps
	}
	return s, s.stray > 0
}

// lasting is a number of days as the log of its share of the window's length, in
// sds of chance.
func (f *Flush) lasting(days float64) float64 {
	return math.Log(math.Max(0, days)/f.LengthDays) / sdLogLength
}

// at gives the log likelihood of a kind that differs by so many sds of chance,
// with its slope and weight there. A bound may have been misread, so that a flush
// that fits nothing loses its pull; weights below 0 are taken as 0.
func (s *spell) at(differs float64) (logL, slope, weight float64) {
	p, first, second := 0.0, 0.0, 0.0
	for i := range s.lo {
		a, b := s.lo[i]-differs, s.hi[i]-differs
		densityA, densityB := math.Exp(stats.LogNormalPDF(a)), math.Exp(stats.LogNormalPDF(b))
		p += (stats.NormalCDF(b) - stats.NormalCDF(a)) / spellSteps
		first += (densityA - densityB) / spellSteps
		second += (timesDensity(a, densityA) - timesDensity(b, densityB)) / spellSteps
	}
	all := s.stray + (1-misreadOdds)*p
	slope = (1 - misreadOdds) * first / all
	return math.Log(all), slope, math.Max(0, slope*slope-(1-misreadOdds)*second/all)
}

// misreadOdds are the odds that a bound was misread.
const misreadOdds = misread / (1 - misread)

// straySD turns sds of chance into sds of the length that a misread bound shows.
const straySD = sdLogLength / sdStrayLogLength

// timesDensity is z times the density there, 0 at infinity.
func timesDensity(z, density float64) float64 {
	if density == 0 {
		return 0
	}
	return z * density
}

// A lengthFit is how one window's flushes differ in length from the book, in sds
// of chance: the most probable value, its weight, and each spell's part in it.
type lengthFit struct {
	spells        []spell
	differs       float64
	stiff         float64
	slope, weight []float64
}

// lengthPrior is the weight of the book before any flush.
const lengthPrior = (sdLogLength / sdKindLogLength) * (sdLogLength / sdKindLogLength)

func fitLength(spells []spell) *lengthFit {
	l := &lengthFit{spells: spells, slope: make([]float64, len(spells)), weight: make([]float64, len(spells))}
	height, pull := l.at(l.start())
	for range mostSteps {
		step := pull / l.stiff
		if height, pull = l.take(step, height); math.Abs(step) < lengthStop {
			break
		}
	}
	return l
}

// start is what the kind would differ by if every flush bounded on both sides had
// lasted to the middle of its bounds: from there the climb finds the summit that
// most of them are on, also where the book is far out.
func (l *lengthFit) start() float64 {
	sum, stiff := 0.0, lengthPrior
	for i := range l.spells {
		s := &l.spells[i]
		if middle := (s.lo[spellSteps/2] + s.hi[spellSteps/2]) / 2; !math.IsInf(middle, 0) && !math.IsNaN(middle) {
			sum, stiff = sum+middle, stiff+1
		}
	}
	return sum / stiff
}

// at moves there and gives the log posterior and its slope.
func (l *lengthFit) at(differs float64) (height, pull float64) {
	l.differs, l.stiff = differs, lengthPrior
	height, pull = -differs*differs*lengthPrior/2, -differs*lengthPrior
	for i := range l.spells {
		logL, slope, weight := l.spells[i].at(differs)
		l.slope[i], l.weight[i] = slope, weight
		height, pull, l.stiff = height+logL, pull+slope, l.stiff+weight
	}
	return height, pull
}

// take goes as much of a step as climbs.
func (l *lengthFit) take(step, height float64) (climbed, pull float64) {
	from := l.differs
	for range halvings {
		if climbed, pull = l.at(from + step); climbed >= height-flat(height) {
			return climbed, pull
		}
		step /= 2
	}
	return l.at(from)
}

// tell tells a flush how long it should last, a spell of its own (−1 for none)
// left out: its pull and weight are taken from the parabola at the summit.
func (l *lengthFit) tell(f *Flush, own int) {
	differs, stiff := l.differs, l.stiff
	if own >= 0 {
		stiff -= l.weight[own]
		differs -= l.slope[own] / stiff
	}
	f.LastsDays = f.LengthDays * math.Exp(sdLogLength*differs)
	f.LastsLogSD = sdLogLength * math.Sqrt(1+1/stiff)
}

// learnLengths tells the flushes of one window of one kind how long they should
// last, each by all the others.
func learnLengths(flushes []*Flush) {
	spells := make([]spell, 0, len(flushes))
	for _, f := range flushes {
		if s, ok := spellOf(f); ok {
			spells = append(spells, s)
		}
	}
	fitted, next := fitLength(spells), 0
	for _, f := range flushes {
		own := -1
		if next < len(spells) && spells[next].flush == f {
			own, next = next, next+1
		}
		fitted.tell(f, own)
	}
}
