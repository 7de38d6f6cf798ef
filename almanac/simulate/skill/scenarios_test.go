package skill

import (
	"runtime"
	"slices"
	"sync"
	"testing"

	"haulm/almanac/simulate"
	"haulm/garden"
)

// Seeds below tuningSeeds are for choosing constants, those from benchSeeds on
// for telling what came of it, and never the other way about.
const tuningSeeds, benchSeeds = 10_000, 1_000_000

// A scenario is one way in which gardens and people are.
type scenario struct {
	name   string
	input  simulate.Input
	hidden garden.RecordKind // records that nobody is shown
}

// scenarios lists the base case, one for each break, three paces of looking, and
// gardens with weather.
func scenarios() []scenario {
	base := simulate.Input{Plantings: 60, Years: 4}
	list := []scenario{{name: "base", input: base}}
	for _, b := range simulate.Breaks() {
		in := base
		in.Breaks = []simulate.Break{b}
		list = append(list, scenario{name: string(b), input: in})
	}
	for _, pace := range []struct {
		name string
		week float64
	}{{"daily", 7}, {"weekly", 1}, {"fortnightly", 0.5}} {
		in := base
		in.VisitsPerWeek = &pace.week
		list = append(list, scenario{name: pace.name, input: in})
	}
	return append(list, weathers(base)...)
}

// weathers are gardens whose heat makes half of their seasons: with the weather
// known, and the same without.
func weathers(in simulate.Input) []scenario {
	in.Weather = true
	return []scenario{{name: "weather", input: in}, {name: "weather-hidden", input: in, hidden: garden.WeatherRecord}}
}

// struggling is a garden a tenth of which grows at a third of the usual pace.
func struggling() scenario {
	share := 0.1
	return scenario{input: simulate.Input{Plantings: 60, Years: 4, Struggling: &share}}
}

// walk walks gardens of consecutive seeds, on all processors.
func (s scenario) walk(t testing.TB, from uint64, gardens int) (Score, []Walk) {
	walks := make([]Walk, gardens)
	onAll(gardens, func(i int) {
		w, err := Through(s.garden(t, from+uint64(i)))
		if err != nil {
			t.Error(err)
		}
		walks[i] = w
	})
	var score Score
	for _, w := range walks {
		score.Count(w)
	}
	return score, walks
}

// struggles counts growth findings in gardens of consecutive seeds.
func (s scenario) struggles(t testing.TB, from uint64, gardens int) (all Struggle) {
	counts := make([]Struggle, gardens)
	onAll(gardens, func(i int) {
		if err := counts[i].Count(s.garden(t, from+uint64(i))); err != nil {
			t.Error(err)
		}
	})
	for _, one := range counts {
		all.Add(one)
	}
	return all
}

// onAll does n things on all processors.
func onAll(n int, do func(i int)) {
	numbers := make(chan int)
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for i := range numbers {
				do(i)
			}
		})
	}
	for i := range n {
		numbers <- i
	}
	close(numbers)
	all.Wait()
}

// garden is the scenario's of a seed, without what nobody is shown.
func (s scenario) garden(t testing.TB, seed uint64) simulate.Output {
	in := s.input
	in.Seed = seed
	out, err := simulate.Garden(in)
	if err != nil {
		t.Error(err)
	}
	out.Records = slices.DeleteFunc(out.Records, func(r garden.Record) bool { return r.Ref.Kind == s.hidden })
	return out
}
