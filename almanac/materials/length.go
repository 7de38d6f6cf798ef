package materials

import (
	"math"

	"haulm/almanac/stats"
)

// The international foot and inch, exact since 1959.
const (
	cmPerInch = 2.54
	cmPerFoot = 12 * cmPerInch
)

// What a length is rounded to: from a tenth of a centimetre, finer than plants are
// measured, to a metre.
const finestCm, coarsestCm = 0.1, 100

// A LengthInput is what the verb "length" takes: a length as labels in feet and
// inches give it, and the centimetres to round to (null: a tenth).
type LengthInput struct {
	Feet      float64  `json:"feet"`
	Inches    float64  `json:"inches,omitempty"`
	NearestCm *float64 `json:"nearestCm"`
}

// A LengthOutput is the same in centimetres and metres.
type LengthOutput struct {
	Cm float64 `json:"cm"`
	M  float64 `json:"m"`
}

// Length answers the verb "length": 12 feet are 3.66 m. It fails, naming the
// field, on values out of their bounds.
func Length(in LengthInput) (LengthOutput, error) {
	if err := check(bounded{"feet", &in.Feet, 0, longestFt}, bounded{"inches", &in.Inches, 0, longestFt},
		bounded{"nearestCm", in.NearestCm, finestCm, coarsestCm}); err != nil {
		return LengthOutput{}, err
	}
	cm := in.Feet*cmPerFoot + in.Inches*cmPerInch
	if in.NearestCm != nil {
		cm = math.Round(stats.Round7(cm / *in.NearestCm)) * *in.NearestCm
	}
	cm = stats.RoundCM(cm)
	return LengthOutput{Cm: cm, M: stats.Round7(cm / 100)}, nil
}
