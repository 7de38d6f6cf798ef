package materials

import (
	"fmt"
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A MulchInput is what the verb "mulch" takes: the ground, as an area or an
// outline on the plan, and the depth.
type MulchInput struct {
	AreaM2   *float64         `json:"areaM2"`
	Outline  garden.Outline   `json:"outline,omitempty"`
	Minus    []garden.Outline `json:"minus,omitempty"` // what plantings cover: no mulch there
	DepthCm  float64          `json:"depthCm"`
	BagL     *float64         `json:"bagL"`
	Material string           `json:"material,omitempty"` // for the weight
}

// A MulchOutput is what the verb "mulch" gives: square metres, cubic metres and
// litres with 7 significant figures; whole bags, null without a bag's size; and
// what it weighs in kilograms, usual and range, null without a material.
type MulchOutput struct {
	AreaM2   float64     `json:"areaM2"`
	M3       float64     `json:"m3"`
	Litres   float64     `json:"litres"`
	Bags     *int        `json:"bags"`
	Kg       *float64    `json:"kg"`
	KgRange  *[2]float64 `json:"kgRange"`
	Cautions []string    `json:"cautions"`
}

// Mulch answers the verb "mulch": a cubic metre covers 20 m² at 5 cm. It fails,
// naming the field, on both or neither of areaM2 and outline, values out of their
// bounds, outlines that enclose nothing, and plantings that leave no ground.
func Mulch(in MulchInput) (MulchOutput, error) {
	if err := check(bounded{"depthCm", &in.DepthCm, 0.1, deepestCm}, bounded{"bagL", in.BagL, 1, biggestBagL}); err != nil {
		return MulchOutput{}, err
	}
	area, err := in.openM2()
	if err != nil {
		return MulchOutput{}, err
	}
	m3 := area * in.DepthCm / 100
	out := MulchOutput{AreaM2: stats.Round7(area), M3: stats.Round7(m3), Litres: stats.Round7(1000 * m3), Cautions: []string{}}
	if in.BagL != nil {
		bags := wholeBags(out.Litres, *in.BagL)
		out.Bags = &bags
	}
	return out, out.weigh(in)
}

// weigh adds the weight and what to mind.
func (out *MulchOutput) weigh(in MulchInput) error {
	if in.Material == "" {
		if in.BagL != nil {
			out.Cautions = append(out.Cautions, GlovesMask) // whatever is in the bags
		}
		return nil
	}
	density, err := densityOf(in.Material)
	if err != nil {
		return err
	}
	kg := stats.Round7(out.M3 * density.kg)
	out.Kg, out.KgRange = &kg, &[2]float64{stats.Round7(out.M3 * density.lo), stats.Round7(out.M3 * density.hi)}
	if density.organic {
		out.Cautions = append(out.Cautions, GlovesMask)
	}
	if in.BagL != nil && *in.BagL/1000*density.kg > heaviestKg {
		out.Cautions = append(out.Cautions, Lifting)
	}
	return nil
}

// wholeBags is the bags to buy; a rounding error buys none.
func wholeBags(litres, bagL float64) int { return int(math.Ceil(stats.Round7(litres / bagL))) }

// openM2 is the ground between the plantings.
func (in *MulchInput) openM2() (float64, error) {
	area, err := ground(in.AreaM2, in.Outline)
	if err != nil || len(in.Minus) == 0 {
		return area, err
	}
	points := len(in.Outline)
	for i, piece := range in.Minus {
		if points += len(piece); points > mostPoints {
			return 0, fmt.Errorf("outline and minus have more than %d points together", mostPoints)
		}
		if _, err := Area(fmt.Sprintf("minus[%d]", i), piece); err != nil {
			return 0, err
		}
	}
	left := area - covered(in.Outline, in.Minus)
	if stats.Round7(left) <= area/scanLines {
		return 0, fmt.Errorf("minus covers the whole ground of %v m²: nothing is left to mulch", stats.Round7(area))
	}
	return left, nil
}

// ground is an area given as a number or as an outline.
func ground(areaM2 *float64, outline garden.Outline) (float64, error) {
	switch {
	case (areaM2 == nil) == (outline == nil):
		return 0, fmt.Errorf("give either areaM2, in square metres, or outline, in metres on the plan")
	case areaM2 != nil:
		return *areaM2, check(bounded{"areaM2", areaM2, 0.001, largestM2})
	}
	area, err := Area("outline", outline)
	if err == nil && area < 0.001 {
		return 0, fmt.Errorf("outline encloses %v m², less than 0.001", stats.Round7(area))
	}
	return area, err
}
