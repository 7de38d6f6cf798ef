package water

import "fmt"

// A Soil is the water content of a soil, m³ m⁻³.
type Soil struct {
	FieldCapacity float64 // what stays when it has drained
	WiltingPoint  float64 // below which roots get nothing
}

// usualSoil stands for a soil that nobody named: the middle of the table.
const usualSoil = "loam"

// SoilOf gives the soil of a USDA texture class, as a bed record names it. The
// sources differ in how sure they are:
//
//   - loamy sand, silt and silty clay are those that Example 36 of FAO-56 takes
//     from its Table 19, confirmed;
//   - the other six that Table 19 has are the middles of its ranges, from memory;
//   - sandy clay loam, clay loam and sandy clay, which Table 19 lacks, are the
//     default soils of FAO's AquaCrop (Raes, Steduto, Hsiao & Fereres 2009,
//     Agronomy Journal 101:438), the first and last confirmed.
func SoilOf(texture string) (Soil, error) {
	switch texture {
	case "sand":
		return Soil{0.12, 0.045}, nil
	case "loamy sand":
		return Soil{0.15, 0.06}, nil
	case "sandy loam":
		return Soil{0.23, 0.11}, nil
	case "loam":
		return Soil{0.25, 0.12}, nil
	case "silt loam":
		return Soil{0.29, 0.15}, nil
	case "silt":
		return Soil{0.32, 0.15}, nil
	case "sandy clay loam":
		return Soil{0.32, 0.20}, nil
	case "clay loam":
		return Soil{0.39, 0.23}, nil
	case "silty clay loam":
		return Soil{0.335, 0.205}, nil
	case "sandy clay":
		return Soil{0.39, 0.27}, nil
	case "silty clay":
		return Soil{0.35, 0.23}, nil
	case "clay":
		return Soil{0.36, 0.22}, nil
	}
	return Soil{}, fmt.Errorf("soil %q is not a texture class: give sand, loamy sand, sandy loam, loam, silt loam, silt, "+
		"sandy clay loam, clay loam, silty clay loam, sandy clay, silty clay or clay", texture)
}

// available is the share of the soil's volume that roots can take: Eq. 82 per
// metre and metre of depth.
func (s Soil) available() float64 { return s.FieldCapacity - s.WiltingPoint }
