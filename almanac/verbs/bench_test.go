package verbs_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"haulm/almanac/verbs"
	"haulm/almanac/verbs/verbstest"
)

// wildEach is how many wild inputs of up to a megabyte each verb is tried with,
// besides those that are large by design.
const wildEach = 20

// BenchmarkVerbWorst reports the longest, in seconds, that any verb took over any
// of its large inputs; the aim is at most one. With -v it says which that was.
func BenchmarkVerbWorst(b *testing.B) {
	worst := slowest{}
	for b.Loop() {
		for _, verb := range verbs.All() {
			worst = worst.or(slowestOf(verb))
		}
	}
	worst.report(b)
}

// BenchmarkEachVerbWorst reports the same for each verb by itself.
func BenchmarkEachVerbWorst(b *testing.B) {
	for _, verb := range verbs.All() {
		b.Run(verb.Name, func(b *testing.B) {
			worst := slowest{}
			for b.Loop() {
				worst = worst.or(slowestOf(verb))
			}
			worst.report(b)
		})
	}
}

// A slowest is the question that took the longest.
type slowest struct {
	verb, name string
	bytes      int
	took       time.Duration
	refused    error
}

func slowestOf(verb verbs.Verb) slowest {
	inputs := verbstest.Largest(verb)
	draw := rand.New(rand.NewPCG(1, 2))
	seeds := verbstest.Seeds(verb)
	for n := range wildEach {
		inputs = append(inputs, verbstest.Large{Name: "wild", In: verbstest.Wild(seeds[n%len(seeds)], draw.Uint64(), verbstest.LargestBytes)})
	}
	worst := slowest{}
	for _, input := range inputs {
		began := time.Now()
		_, err := verbs.Run(verb.Name, input.In)
		worst = worst.or(slowest{verb.Name, input.Name, len(input.In), time.Since(began), err})
	}
	return worst
}

func (s slowest) or(other slowest) slowest {
	if other.took > s.took {
		return other
	}
	return s
}

func (s slowest) report(b *testing.B) {
	b.ReportMetric(s.took.Seconds(), "s/worst")
	b.Logf("%s: %s, %d bytes; refused: %.200v", s.verb, s.name, s.bytes, s.refused)
}
