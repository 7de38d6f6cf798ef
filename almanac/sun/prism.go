package sun

import (
	"fmt"
	"math"

	"haulm/garden"
)

// A Leaf says when a structure is in leaf.
type Leaf string

// The leaf habits, as a structure's record has them.
const (
	NoLeaf    Leaf = "none"
	Deciduous Leaf = "deciduous"
	Evergreen Leaf = "evergreen"
)

// A Prism is what stands in the sun's way: everything above an outline on the
// plan between two heights in metres over the plan. The outline is not repeated
// at its end, may run either way round and must not cross itself.
type Prism struct {
	Outline [][2]float64
	BaseM   float64
	TopM    float64
	Density float64 // share of the sun that it takes, 0 to 1, however long the way through
	Leaf    Leaf    // "" counts as none
	// LeafOut and LeafFall are the days on which a deciduous one comes into leaf
	// and is bare again; nil for those of the latitude.
	LeafOut, LeafFall *garden.MonthDay
}

// PrismOf makes a prism of a structure's record, with a usual density for its
// form where none is recorded. It answers false where the record says too little
// or nothing that can cast shade: no outline, one that crosses itself or encloses
// nothing, no height, or a top not above the base.
func PrismOf(s garden.Structure) (Prism, bool) {
	if s.HeightM == nil {
		return Prism{}, false
	}
	p := prismOf(s)
	return p, p.check() == nil
}

// prismOf makes a prism, sound or not, of a structure that has a height.
func prismOf(s garden.Structure) Prism {
	p := Prism{BaseM: s.BaseM, TopM: *s.HeightM, Density: densityOf(s), Leaf: Leaf(s.Leaf)}
	for _, corner := range s.Outline {
		p.Outline = append(p.Outline, corner)
	}
	return p
}

func densityOf(s garden.Structure) float64 {
	if s.Density != nil {
		return *s.Density
	}
	switch s.Form {
	case "hedge":
		return hedgeDensity
	case "tree":
		return treeDensity
	case "arch", "pergola":
		return frameDensity
	}
	return 1
}

// check gives an error that names the field when the prism makes no sense.
func (p Prism) check() error {
	if err := p.checkSize(); err != nil {
		return err
	}
	switch p.Leaf {
	case "", NoLeaf, Deciduous, Evergreen:
	default:
		return fmt.Errorf("leaf %q is not known: give %s, %s or %s", p.Leaf, NoLeaf, Deciduous, Evergreen)
	}
	if len(p.Outline) < 3 || len(p.Outline) > mostCorners {
		return fmt.Errorf("outline has %d points: give 3 to %d", len(p.Outline), mostCorners)
	}
	for i, corner := range p.Outline {
		if !(math.Abs(corner[0]) <= farthestM && math.Abs(corner[1]) <= farthestM) {
			return fmt.Errorf("outline[%d] %v is outside -%d to %d m", i, corner, farthestM, farthestM)
		}
	}
	return p.checkOutline()
}

func (p Prism) checkSize() error {
	if !(math.Abs(p.BaseM) <= tallestM) {
		return fmt.Errorf("baseM %g is outside -%d to %d", p.BaseM, tallestM, tallestM)
	}
	if !(p.TopM > p.BaseM && p.TopM <= tallestM) {
		return fmt.Errorf("heightM %g is outside %g to %d: the top must be above baseM", p.TopM, p.BaseM, tallestM)
	}
	if !(p.Density >= 0 && p.Density <= 1) {
		return fmt.Errorf("density %g is outside 0 to 1", p.Density)
	}
	return nil
}

// checkOutline refuses an outline that crosses itself, of which nobody can say
// what is inside, and one that encloses nothing.
func (p Prism) checkOutline() error {
	n := len(p.Outline)
	twice := 0.0
	for i, a := range p.Outline {
		b := p.Outline[(i+1)%n]
		twice += cross(a, b)
		for j := i + 2; j < n; j++ {
			if c, d := p.Outline[j], p.Outline[(j+1)%n]; cuts(a, b, c, d) {
				return fmt.Errorf("outline crosses itself: its sides from point %d and from point %d cut each other", i, j)
			}
		}
	}
	if math.Abs(twice)/2 < leastAreaM2 {
		return fmt.Errorf("outline encloses %.2g m²: at least %g m² casts a shadow", math.Abs(twice)/2, leastAreaM2)
	}
	return nil
}

// cuts says whether two sides cross at a point inside both.
func cuts(a, b, c, d [2]float64) bool {
	ab, cd := minus(b, a), minus(d, c)
	return opposite(cross(ab, minus(c, a)), cross(ab, minus(d, a))) &&
		opposite(cross(cd, minus(a, c)), cross(cd, minus(b, c)))
}

func opposite(a, b float64) bool { return a < 0 && b > 0 || a > 0 && b < 0 }

func cross(a, b [2]float64) float64 { return a[0]*b[1] - a[1]*b[0] }

func minus(a, b [2]float64) [2]float64 { return [2]float64{a[0] - b[0], a[1] - b[1]} }
