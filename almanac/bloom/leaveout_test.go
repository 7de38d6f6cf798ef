package bloom

import (
	"math"
	"slices"
	"testing"
)

// modelInOrder fits flushes in canonical order and carries truth along.
func modelInOrder(flushes []Flush, truth []float64) (*Model, []float64) {
	order := make([]int, len(flushes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return canonical(flushes[a], flushes[b]) })
	sorted, carried := make([]Flush, len(order)), make([]float64, len(order))
	for i, at := range order {
		sorted[i], carried[i] = flushes[at], truth[at]
	}
	return modelOf(sorted, 0, nil), carried
}

// TestLeavingOutEqualsFittingWithout holds the quick way of leaving a planting's
// season out to the plain one, fitting the whole garden again with those looks
// gone. In very few the two differ: where one look of another kind may or may
// not have been misread, each settles on one of two readings.
func TestLeavingOutEqualsFittingWithout(t *testing.T) {
	apart, close := 0, 0
	for seed := range uint64(20) {
		s := simulate(seed, 6, 15, 2)
		quick, _ := s.model()
		for i := 0; i < len(quick.flushes); i += 5 {
			without := slices.Clone(quick.flushes)
			without[i].After, without[i].By = nil, nil
			plain, got := modelOf(without, 0, nil).forecast(i), quick.forecast(i)
			if math.Abs(got.mean-plain.mean) > 0.2 || math.Abs(got.sd-plain.sd) > 0.1 || math.Abs(got.season-plain.season) > 0.2 {
				apart++
			} else {
				close++
			}
		}
	}
	if close+apart != 120 || apart > 4 {
		t.Errorf("%d of %d differ by more than a fifth of a day", apart, close+apart)
	}
}

// TestASummitIsReached walks away from the fit in every single value: no way
// leads up.
func TestASummitIsReached(t *testing.T) {
	m, _ := simulate(5, 4, 10, 3).model()
	summit := m.refresh(blindOdds)
	for i := range m.values {
		for _, step := range []float64{-0.01, 0.01} {
			m.values[i] += step
			if h := m.refresh(blindOdds); h > summit {
				t.Errorf("value %d: %g higher at %+g", i, h-summit, step)
			}
			m.values[i] -= step
		}
	}
}
