package skill

import (
	"runtime"
	"sync"
	"testing"

	"haulm/almanac/simulate"
)

// Seeds below tuningSeeds are for choosing constants, those from benchSeeds on
// for telling what came of it, and never the other way about.
const tuningSeeds, benchSeeds = 10_000, 1_000_000

// A scenario is one way in which gardens and people are.
type scenario struct {
	name  string
	input simulate.Input
}

// scenarios lists the base case, one for each break, and three paces of looking.
func scenarios() []scenario {
	base := simulate.Input{Plantings: 60, Years: 4}
	list := []scenario{{"base", base}}
	for _, b := range simulate.Breaks() {
		in := base
		in.Breaks = []simulate.Break{b}
		list = append(list, scenario{string(b), in})
	}
	for _, pace := range []struct {
		name string
		week float64
	}{{"daily", 7}, {"weekly", 1}, {"fortnightly", 0.5}} {
		in := base
		in.VisitsPerWeek = &pace.week
		list = append(list, scenario{pace.name, in})
	}
	return list
}

// walk walks gardens of consecutive seeds, on all processors.
func (s scenario) walk(t testing.TB, from uint64, gardens int) (Score, []Walk) {
	walks := make([]Walk, gardens)
	seeds := make(chan int)
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for i := range seeds {
				walks[i] = s.through(t, from+uint64(i))
			}
		})
	}
	for i := range gardens {
		seeds <- i
	}
	close(seeds)
	all.Wait()
	var score Score
	for _, w := range walks {
		score.Count(w)
	}
	return score, walks
}

func (s scenario) through(t testing.TB, seed uint64) Walk {
	in := s.input
	in.Seed = seed
	out, err := simulate.Garden(in)
	if err != nil {
		t.Error(err)
		return Walk{}
	}
	w, err := Through(out)
	if err != nil {
		t.Error(err)
	}
	return w
}

