package verbstest

import (
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"

	"haulm/almanac/verbs"
)

// LargestBytes is what an input that a verb must answer within a second has at
// most.
const LargestBytes = 1_000_000

// A Large is an input and what is large about it.
type Large struct {
	Name string
	In   []byte
}

// Largest gives inputs of nearly a megabyte: each list of each seed repeated
// alone, and all together, with the copies alike, near each other and far apart;
// for the verbs that read records, gardens that are large in one way each; and
// what is made to be awkward for one verb.
func Largest(verb verbs.Verb) []Large {
	var large []Large
	for n, seed := range Seeds(verb) {
		for _, much := range []float64{0, 0.1, 1} {
			for _, path := range append(listsIn(decoded(seed), ""), everyList) {
				in := longest(seed, path, much)
				large = append(large, Large{fmt.Sprintf("seed %d, %s repeated, moved by %g", n, path, much), in})
			}
		}
	}
	return append(append(large, largeGardens(verb.Name)...), awkward(verb.Name)...)
}

const everyList = "every list"

func decoded(text []byte) (value any) {
	if err := json.Unmarshal(text, &value); err != nil {
		panic(err) // the seeds are written in this package and in the table of verbs
	}
	return value
}

// listsIn names the lists of a value by path.
func listsIn(value any, path string) []string {
	var paths []string
	switch v := value.(type) {
	case []any:
		if len(v) > 0 {
			paths = append(append(paths, path+"[]"), listsIn(v[0], path+"[]")...)
		}
	case map[string]any:
		for _, name := range slices.Sorted(maps.Keys(v)) {
			paths = append(paths, listsIn(v[name], path+"."+name)...)
		}
	}
	return paths
}

// longest repeats lists as often as LargestBytes allows: doubled while that
// fits, then halved in on, as near as closeEnough.
func longest(seed []byte, path string, much float64) []byte {
	best, low, high := seed, 1, 0
	for tries := 0; tries < 20+closeEnough; tries++ {
		times := 2 * low
		if high > 0 {
			times = (low + high) / 2
		}
		in := repeated(seed, path, much, times)
		switch {
		case len(in) <= LargestBytes:
			best, low = in, times
		default:
			high, tries = times, max(tries, 20)
		}
	}
	return best
}

// closeEnough halvings leave less than a tenth of the bytes unused.
const closeEnough = 4

func repeated(seed []byte, path string, much float64, times int) []byte {
	g := grower{varying{rand.New(rand.NewPCG(1, 2)), much, false, 1}, path, times}
	in, err := json.Marshal(g.grow(decoded(seed), ""))
	if err != nil {
		panic(err) // it was JSON before
	}
	return in
}

type grower struct {
	varying
	path  string
	times int
}

func (g grower) grow(value any, path string) any {
	switch v := value.(type) {
	case []any:
		times, now := 1, []any{}
		if g.path == path+"[]" || g.path == everyList {
			times = g.times
		}
		for n := range times {
			for _, one := range v {
				if now = append(now, g.grow(g.copyOf(one, n), path+"[]")); len(now) > LargestBytes/2 {
					return now
				}
			}
		}
		return now
	case map[string]any:
		now := map[string]any{}
		for _, name := range slices.Sorted(maps.Keys(v)) {
			now[name] = g.grow(v[name], path+"."+name)
		}
		return now
	}
	return value
}

// copyOf is the first copy as it was, and each further one changed.
func (g grower) copyOf(one any, n int) any {
	if n == 0 {
		return one
	}
	return g.value(one, "", n)
}
