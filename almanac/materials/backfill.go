package materials

import (
	"fmt"
	"math"

	"haulm/almanac/stats"
)

// A BackfillInput is what the verb "backfill" takes: a hole, the root ball that
// goes into it, and what is mixed into the soil that goes back.
type BackfillInput struct {
	HoleWidthCm float64     `json:"holeWidthCm"`
	HoleDepthCm float64     `json:"holeDepthCm"`
	Shape       string      `json:"shape,omitempty"` // round or square; "" is round
	BallL       float64     `json:"ballL"`           // litres of the pot, 0 for bare roots
	Holes       *int        `json:"holes"`           // null is one
	Amendments  []Amendment `json:"amendments,omitempty"`
}

// An Amendment is mixed into the backfill, as a share of it from 0 to 1.
type Amendment struct {
	Material string  `json:"material"`
	Share    float64 `json:"share"`
}

// A BackfillOutput is what the verb "backfill" gives for all holes together, in
// litres with 7 significant figures: dug out, of that taken up by root balls, to
// fill in, soil of that, and each amendment with its weight. What is left over of
// what was dug is the balls and the amendments.
type BackfillOutput struct {
	DugL       float64    `json:"dugL"`
	BallsL     float64    `json:"ballsL"`
	BackfillL  float64    `json:"backfillL"`
	SoilL      float64    `json:"soilL"`
	LeftOverL  float64    `json:"leftOverL"`
	Amendments []Quantity `json:"amendments"`
	Cautions   []string   `json:"cautions"`
}

// A Quantity is so much of a material.
type Quantity struct {
	Material string  `json:"material"`
	Litres   float64 `json:"litres"`
	Kg       float64 `json:"kg"`
}

// Backfill answers the verb "backfill". It fails, naming the field, on values out
// of their bounds, a ball that does not go into its hole, an unknown material and
// shares of more than the whole.
func Backfill(in BackfillInput) (BackfillOutput, error) {
	if err := in.check(); err != nil {
		return BackfillOutput{}, err
	}
	holes := 1.0
	if in.Holes != nil {
		holes = float64(*in.Holes)
	}
	dug, balls := holes*in.holeL(), holes*in.BallL
	out := BackfillOutput{DugL: stats.Round7(dug), BallsL: stats.Round7(balls), Amendments: []Quantity{}, Cautions: []string{}}
	fill, mixed := dug-balls, 0.0
	for _, a := range in.Amendments {
		density, err := densityOf(a.Material)
		if err != nil {
			return BackfillOutput{}, err
		}
		litres := a.Share * fill
		mixed += litres
		out.Amendments = append(out.Amendments, Quantity{a.Material, stats.Round7(litres), stats.Round7(litres / 1000 * density.kg)})
		if density.organic && len(out.Cautions) == 0 {
			out.Cautions = append(out.Cautions, GlovesMask)
		}
	}
	out.BackfillL, out.SoilL, out.LeftOverL = stats.Round7(fill), stats.Round7(max(0, fill-mixed)), stats.Round7(balls+mixed)
	return out, nil
}

// holeL is the volume of one hole, straight-sided.
func (in *BackfillInput) holeL() float64 {
	ground := in.HoleWidthCm * in.HoleWidthCm
	if in.Shape != "square" {
		ground *= math.Pi / 4
	}
	return ground * in.HoleDepthCm / 1000
}

func (in *BackfillInput) check() error {
	if err := check(bounded{"holeWidthCm", &in.HoleWidthCm, 1, biggestHole}, bounded{"holeDepthCm", &in.HoleDepthCm, 1, biggestHole},
		bounded{"ballL", &in.BallL, 0, biggestBallL}); err != nil {
		return err
	}
	if in.Shape != "" && in.Shape != "round" && in.Shape != "square" {
		return fmt.Errorf("shape %q is not known: give round or square", in.Shape)
	}
	if in.Holes != nil && (*in.Holes < 1 || *in.Holes > mostHoles) {
		return fmt.Errorf("holes %d is outside 1 to %d", *in.Holes, mostHoles)
	}
	if hole := in.holeL(); in.BallL >= hole {
		return fmt.Errorf("ballL %v does not go into a hole of %.1f litres: dig it wider or deeper", in.BallL, hole)
	}
	sum := 0.0
	for i, a := range in.Amendments {
		if err := check(bounded{fmt.Sprintf("amendments[%d].share", i), &a.Share, 0, 1}); err != nil {
			return err
		}
		sum += a.Share
	}
	if stats.Round7(sum) > 1 {
		return fmt.Errorf("amendments have shares of %v together, more than 1", stats.Round7(sum))
	}
	return nil
}
