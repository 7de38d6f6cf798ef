package demo

import (
	"fmt"
	"hash/fnv"
	"math/rand/v2"
)

// lots draws the same lots for the same names at every call: who looked when,
// how a plant strays. Naming them keeps one change from moving everything else.
func lots(names ...any) *rand.Rand {
	h := fnv.New64a()
	for _, name := range names {
		fmt.Fprintf(h, "%v|", name)
	}
	return rand.New(rand.NewPCG(h.Sum64(), 1))
}

// share draws evenly from 0 to 1.
func share(names ...any) float64 { return lots(names...).Float64() }

// stray draws from the normal distribution about 0, at most two standard
// deviations away: what lies further out is a story, and stories are told.
func stray(sd float64, names ...any) float64 {
	return sd * max(-2, min(2, lots(names...).NormFloat64()))
}

// pick draws one of a list.
func pick[T any](list []T, names ...any) T { return list[lots(names...).IntN(len(list))] }
