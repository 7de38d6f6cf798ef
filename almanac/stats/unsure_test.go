package stats

import (
	"math"
	"testing"
)

// TestUnsure at values reckoned by hand: of a quarter it is 2 − ¾·log₂3.
func TestUnsure(t *testing.T) {
	for p, want := range map[float64]float64{0: 0, 1: 0, 0.5: 1, 0.25: 2 - 0.75*math.Log2(3), 0.75: 2 - 0.75*math.Log2(3), -1: 0} {
		if got := Unsure(p); math.Abs(got-want) > 1e-12 {
			t.Errorf("of %v: %v, not %v", p, got, want)
		}
	}
}
