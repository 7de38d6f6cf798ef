package simulate

import (
	"math"
	"math/rand/v2"

	"haulm/almanac/stats"
)

// A stream is a source of chance for one concern.
type stream struct{ *rand.Rand }

// The streams. Their numbers are part of what a seed means.
const (
	seasonStream = iota + 1
	kindStream
	plantingStream
	flowerStream
	lateStream
	visitStream
	lookStream
	breakStream
	growthStream
	misreadStream
	weatherStream
)

func newStream(seed, number uint64) stream {
	return stream{rand.New(rand.NewPCG(seed, number))}
}

// share is evenly spread between 0 and 1, never either.
func (s stream) share() float64 { return (float64(s.Uint32()) + 0.5) / (1 << 32) }

// holds is true with a chance.
func (s stream) holds(chance float64) bool { return s.share() < chance }

// between is evenly spread between two numbers, to a thousandth.
func (s stream) between(low, high float64) float64 { return thousandth(low + (high-low)*s.share()) }

// whole is evenly spread over whole numbers, both ends included.
func (s stream) whole(low, high int) int { return low + s.IntN(high-low+1) }

// normal has mean 0, to a thousandth.
func (s stream) normal(sd float64) float64 { return thousandth(sd * stats.NormalQuantile(s.share())) }

// thousandth rounds, so that what machines differ in is gone before anything is
// compared.
func thousandth(x float64) float64 { return math.Round(x*1000)/1000 + 0 }
