package materials

import (
	"fmt"
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A SpacingInput is what the verb "spacing" takes.
type SpacingInput struct {
	AreaM2    *float64       `json:"areaM2"`
	Outline   garden.Outline `json:"outline,omitempty"` // instead of areaM2
	SpacingCm float64        `json:"spacingCm"`         // from plant to plant
	Pattern   string         `json:"pattern"`           // square or triangular
}

// A SpacingOutput is what the verb "spacing" gives: plants, at least one, and
// plants to the square metre.
type SpacingOutput struct {
	Count int     `json:"count"`
	PerM2 float64 `json:"perM2"`
}

// Spacing answers the verb "spacing": how many plants fill an area, to the nearest.
// In a triangle's pattern every row is moved by half a spacing and the rows are
// closer by √3/2, so that all neighbours are as far apart. It fails, naming the
// field, on an unknown pattern and values out of their bounds.
func Spacing(in SpacingInput) (SpacingOutput, error) {
	area, err := ground(in.AreaM2, in.Outline)
	if err != nil {
		return SpacingOutput{}, err
	}
	if err := check(bounded{"spacingCm", &in.SpacingCm, 1, widestCm}); err != nil {
		return SpacingOutput{}, err
	}
	each := in.SpacingCm / 100 * in.SpacingCm / 100
	switch in.Pattern {
	case "square":
	case "triangular":
		each *= math.Sqrt(3) / 2
	default:
		return SpacingOutput{}, fmt.Errorf("pattern %q is not known: give square or triangular", in.Pattern)
	}
	return SpacingOutput{Count: int(max(1, math.Round(stats.Round7(area/each)))), PerM2: stats.Round7(1 / each)}, nil
}
