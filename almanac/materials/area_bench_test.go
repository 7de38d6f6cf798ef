package materials

import (
	"testing"

	"haulm/garden"
)

// The most points that are taken, every piece as tall as the bed.
func BenchmarkMulchBetweenManyPlantings(b *testing.B) {
	in := MulchInput{Outline: garden.Outline{{0, 0}, {400, 0}, {400, 9}, {0, 9}}, DepthCm: 5}
	for i := range (mostPoints - 4) / 3 {
		x := float64(i)
		in.Minus = append(in.Minus, garden.Outline{{x, 0}, {x + 1.5, 0}, {x + 0.5, 9}})
	}
	for b.Loop() {
		if _, err := Mulch(in); err != nil {
			b.Fatal(err)
		}
	}
}
