package materials

import "fmt"

// A density is what a cubic metre weighs as it is delivered, moist: kilograms, the
// usual and the range.
type density struct {
	kg, lo, hi float64
	organic    bool // may carry Legionella: gloves and a mask
}

// densityOf gives a material's bulk density. Bark, chip, compost, sand and soil
// are between the figures that suppliers state (woodmaterialsyard.com: pine bark and
// wood mulch 375 kg, compost 1020 kg a cubic metre when saturated; the US
// Composting Council's aim for finished compost, 1200 lb a cubic yard, is 712 kg;
// sand 1.28 to 1.6 t, topsoil 1.44 t, river gravel 1.5 t); the rest is common
// practice. Half again or a third less is nothing unusual for anything that holds
// water.
func densityOf(material string) (density, error) {
	switch material {
	case "bark":
		return density{300, 200, 400, true}, nil
	case "wood-chip":
		return density{320, 250, 400, true}, nil
	case "compost":
		return density{700, 600, 1000, true}, nil
	case "manure":
		return density{750, 600, 950, true}, nil
	case "mushroom-compost":
		return density{600, 450, 800, true}, nil
	case "leaf-mould":
		return density{450, 300, 650, true}, nil
	case "potting-mix":
		return density{400, 300, 600, true}, nil
	case "straw":
		return density{70, 40, 120, true}, nil
	case "topsoil":
		return density{1400, 1100, 1700, true}, nil
	case "sand":
		return density{1500, 1280, 1700, false}, nil
	case "grit", "gravel":
		return density{1500, 1400, 1700, false}, nil
	}
	return density{}, fmt.Errorf("material %q is not known: give bark, wood-chip, compost, manure, mushroom-compost, leaf-mould, "+
		"potting-mix, straw, topsoil, sand, grit or gravel", material)
}

// Caution codes, worded by the interface.
const (
	GlovesMask = "gloves-mask" // compost and bagged mulch: Legionella
	Lifting    = "lifting"     // a bag that is heavy to lift
)
