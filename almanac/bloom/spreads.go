package bloom

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Spreads are the standard deviations that a garden can teach: of a planting's
// habit and of chance, in days, and of the season as a multiple of SeasonSD, where
// that is largest and where it is least.
type spreads struct{ spring, autumn, habit, chance float64 }

func statedSpreads() spreads { return spreads{1, 1, sdHabit, sdChance} }

// learnSpreads estimates the spreads again by expectation and maximisation
// (Dempster, Laird & Rubin 1977): what the fit leaves uncertain counts as well
// as what it found, and the stated spreads count as so many more of each.
func (f *fit) learnSpreads() {
	f.halves = f.seasonHalves()
	for range learnRounds {
		f.use(f.expectedSpreads())
		f.climb(startDays)
	}
}

// expectedSpreads are the spreads that the present fit expects.
func (f *fit) expectedSpreads() spreads {
	spring := weighed{seasonsWeight * 1, seasonsWeight}
	spring.add(f.seasonSquares(f.halves[0]))
	autumn := weighed{seasonsWeight * 1, seasonsWeight}
	autumn.add(f.seasonSquares(f.halves[1]))
	habit := weighed{habitsWeight * sdHabit * sdHabit, habitsWeight}
	chance := weighed{chancesWeight * sdChance * sdChance, chancesWeight}
	for i := range f.kinds {
		f.kindSquares(i, &habit, &chance)
	}
	return spreads{spring.sd(), autumn.sd(), habit.sd(), chance.sd()}
}

// use takes spreads into the prior and the sites.
func (f *fit) use(s spreads) {
	for i := range f.knots {
		for j := i; j < len(f.knots); j++ {
			scale := s.season(f.springs[i]) * s.season(f.springs[j])
			f.precision.SetSym(firstKnot+i, firstKnot+j, f.stated.At(i, j)/scale)
		}
	}
	for _, k := range f.kinds {
		k.habitSD = s.habit
		for i := range k.sites {
			k.sites[i].sd = chanceSD(s.chance, k.sites[i].first)
		}
	}
	f.spreads = s
}

// season is the multiple of SeasonSD at a time of year that is spring by so much.
func (s spreads) season(spring float64) float64 { return s.autumn + (s.spring-s.autumn)*spring }

// A weighed is a sum of squares and how many went into it.
type weighed struct{ squares, count float64 }

func (w *weighed) add(squares, count float64) { w.squares, w.count = w.squares+squares, w.count+count }

func (w weighed) sd() float64 { return math.Sqrt(w.squares / w.count) }

// A half are the knots in one half of the year that sites inform, with the
// inverse of their stated correlation.
type half struct {
	informed []int
	whitener *mat.SymDense
}

// seasonHalves parts the informed knots into those of spring and those of autumn.
func (f *fit) seasonHalves() (halves [2]half) {
	for _, knot := range f.informedKnots() {
		of := &halves[1]
		if f.springs[knot] > 0.5 {
			of = &halves[0]
		}
		of.informed = append(of.informed, knot)
	}
	for i := range halves {
		halves[i].whitener = f.knotPrecision(halves[i].informed)
	}
	return halves
}

// seasonSquares is the expected square of a half's knots, whitened by their
// stated covariance and summed, and how many they are. Knots of seasons that
// nobody looked at have no say.
func (f *fit) seasonSquares(h half) (squares, count float64) {
	for i, a := range h.informed {
		for j, b := range h.informed {
			both := f.spread.At(firstKnot+a, firstKnot+b) + f.globals[firstKnot+a]*f.globals[firstKnot+b]
			squares += h.whitener.At(i, j) * both
		}
	}
	return squares, float64(len(h.informed))
}

// kindSquares adds one kind's expected squares of habit and chance.
func (f *fit) kindSquares(kind int, habit, chance *weighed) {
	k := f.kinds[kind]
	rows := f.fittedRows(kind).rows
	for plant := range k.plants {
		if k.start[plant] == k.start[plant+1] {
			continue
		}
		variance, with := k.habitSpread(plant, rows, f.curves[kind])
		habit.add(k.habits[plant]*k.habits[plant]+variance, 1)
		for i := k.start[plant]; i < k.start[plant+1]; i++ {
			s := k.sites[i]
			eta := f.deltas[kind][s.row] + k.habits[plant]
			s.addChance(eta, rows.at(s.row, s.row)+variance+2*with[s.row], chance)
		}
	}
}

// addChance adds what a site bounded on both sides says of the square of chance,
// meant over where its predictor may be: Gauss–Hermite quadrature of three points.
func (s site) addChance(eta, variance float64, chance *weighed) {
	if s.first || math.IsInf(s.lo, -1) || math.IsInf(s.hi, 1) {
		return
	}
	away := math.Sqrt(3 * math.Max(0, variance))
	share := (s.scaleShare(eta-away) + 4*s.scaleShare(eta) + s.scaleShare(eta+away)) / 6
	chance.add(s.sd*s.sd*share, 1)
}
