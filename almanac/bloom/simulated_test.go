package bloom

import (
	"fmt"
	"math/rand/v2"
)

// A simulated garden is one whose truth is known: each year early or late by so
// many of the season's sds throughout, a garden's difference, wrong books,
// habits and chance.
type simulated struct {
	years             int
	habitSD, chanceSD float64
	bookSD            float64
	season            []float64 // by year, in sds of the season at a time of year
	garden            float64
	truth             []float64 // true opening of each flush
	input             Input
}

func simulate(seed uint64, kinds, plants, years int) *simulated {
	s := &simulated{years: years, habitSD: 4, chanceSD: 4.5, bookSD: 8}
	rng := rand.New(rand.NewPCG(seed, 20261124))
	s.garden = 5 * rng.NormFloat64()
	for range years {
		s.season = append(s.season, rng.NormFloat64())
	}
	s.input = Input{Kinds: map[string]KindInput{}, Seasons: map[string]SeasonInput{}}
	sd := s.bookSD
	expected, shift := make([]float64, kinds), make([]float64, kinds)
	for k := range kinds {
		expected[k], shift[k] = 60+180*rng.Float64(), s.bookSD*rng.NormFloat64()
		s.input.Kinds[fmt.Sprintf("kind%03d", k)] = KindInput{ExpectedDay: expected[k], SDDays: &sd}
	}
	for p := range plants {
		s.plant(rng, p, p%kinds, expected[p%kinds], shift[p%kinds]+s.garden+s.habitSD*rng.NormFloat64())
	}
	return s
}

// plant gives one planting its flowers and looks every 3 to 12 days; one season
// in five nobody looked.
func (s *simulated) plant(rng *rand.Rand, plant, kind int, expected, later float64) {
	for y := range s.years {
		opens := expected + later + s.season[y]*SeasonSD(expected, false) + s.chanceSD*rng.NormFloat64()
		gap := 3 + 9*rng.Float64()
		after := opens - gap*rng.Float64()
		by, age := after+gap, float64(2+y)
		f := FlushInput{Planting: fmt.Sprintf("plant%03d", plant), Kind: fmt.Sprintf("kind%03d", kind), Year: 2020 + y,
			After: &after, By: &by, YearsSincePlanting: &age}
		if rng.Float64() < 0.2 {
			f.After, f.By = nil, nil
		}
		s.truth = append(s.truth, opens)
		s.input.Flushes = append(s.input.Flushes, f)
	}
}

// model fits the simulated garden and gives the model's flushes beside the
// truth, both in the model's order.
func (s *simulated) model() (*Model, []float64) {
	flushes, err := s.input.check()
	if err != nil {
		panic(err)
	}
	return modelInOrder(flushes, s.truth)
}

// seasonOf is the true season of a year, meant over the flushes seen.
func (s *simulated) seasonOf(year int) float64 {
	sum, n := 0.0, 0.0
	for _, f := range s.input.Flushes {
		if f.Year == year && f.By != nil {
			sum += s.season[year-2020] * SeasonSD(s.input.Kinds[f.Kind].ExpectedDay, false)
			n++
		}
	}
	return sum / n
}
