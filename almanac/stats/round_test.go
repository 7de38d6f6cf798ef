package stats

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRounding(t *testing.T) {
	for name, c := range map[string]struct{ got, want float64 }{
		"days":                     {RoundDays(12.34), 12.3},
		"a half noisy from below":  {RoundDays(12.35 - 1e-12), 12.4},
		"a half noisy from above":  {RoundDays(12.35 + 1e-12), 12.4},
		"hours":                    {RoundHours(6.125 - 1e-12), 6.13},
		"arc":                      {RoundArc(-33.86784), -33.8678},
		"probability":              {RoundProbability(0.80049), 0.8},
		"seven figures":            {Round7(123456.789), 123456.8},
		"seven figures of a small": {Round7(-0.000123456789), -0.0001234568},
		"infinite stays":           {Round7(math.Inf(1)), math.Inf(1)},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", name, c.got, c.want)
		}
	}
}

func TestNoMinusZeroLeaves(t *testing.T) {
	for _, x := range []float64{RoundDays(-0.01), RoundCM(math.Copysign(0, -1)), Round7(math.Copysign(0, -1))} {
		if text, _ := json.Marshal(x); string(text) != "0" {
			t.Errorf("shown as %s, want 0", text)
		}
	}
}

func TestRoundingIsCloseAndDoneOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		if once := RoundDays(x); RoundDays(once) != once || math.Abs(once-x) > 0.05+1e-6 {
			t.Fatalf("RoundDays(%v) = %v", x, once)
		}
		if once := Round7(x); Round7(once) != once || math.Abs(once-x) > 1e-6*math.Abs(x) {
			t.Fatalf("Round7(%v) = %v", x, once)
		}
	})
}
