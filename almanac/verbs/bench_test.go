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

// BenchmarkVerbWorst reports, for each verb, the longest that any of its large
// inputs took, in seconds: the aim is at most one. -v says which input it was.
func BenchmarkVerbWorst(b *testing.B) {
	for _, verb := range verbs.All() {
		inputs := verbstest.Largest(verb)
		draw := rand.New(rand.NewPCG(1, 2))
		for n := range wildEach {
			seeds := verbstest.Seeds(verb)
			inputs = append(inputs, verbstest.Large{Name: "wild", In: verbstest.Wild(seeds[n%len(seeds)], draw.Uint64(), verbstest.LargestBytes)})
		}
		b.Run(verb.Name, func(b *testing.B) {
			var worst verbstest.Large
			most := time.Duration(0)
			for b.Loop() {
				for _, input := range inputs {
					began := time.Now()
					_, err := verbs.Run(verb.Name, input.In)
					took := time.Since(began)
					if took > most {
						most, worst = took, input
					}
					if took > time.Second/4 {
						b.Logf("%.2f s: %s, %d bytes: %.200v", took.Seconds(), input.Name, len(input.In), err)
					}
				}
			}
			b.ReportMetric(most.Seconds(), "s/worst")
			b.Logf("the worst: %s, %d bytes", worst.Name, len(worst.In))
		})
	}
}
