package water

import (
	"fmt"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A BalanceInput is what the verb "soil-water" takes.
type BalanceInput struct {
	Soil              string       `json:"soil"`              // USDA texture class
	RootM             float64      `json:"rootM"`             // depth of the root zone
	Kc                float64      `json:"kc"`                // crop coefficient
	DepletionFraction float64      `json:"depletionFraction"` // p, of what is available, before stress
	StartDepletionMm  float64      `json:"startDepletionMm,omitempty"`
	Days              []BalanceDay `json:"days"` // in order, none left out
}

// A BalanceDay is what came and what the air asked for on one day, in mm.
type BalanceDay struct {
	Day          garden.Day `json:"day"`
	ET0Mm        float64    `json:"et0Mm"`
	RainMm       float64    `json:"rainMm"`
	IrrigationMm float64    `json:"irrigationMm,omitempty"`
}

// A BalanceOutput is what the verb "soil-water" gives: total and readily available
// water, and for each day the depletion at its end, the stress coefficient Ks that
// held on it, what evaporated and what drained away. Values have 7 significant
// figures, in mm; Ks has none.
type BalanceOutput struct {
	TAWMm         float64   `json:"tawMm"`
	RAWMm         float64   `json:"rawMm"`
	DepletionMm   []float64 `json:"depletionMm"`
	Stress        []float64 `json:"stress"`
	ETMm          []float64 `json:"etMm"`
	PercolationMm []float64 `json:"percolationMm"`
}

// SoilWater answers the verb "soil-water" by Eq. 82 to 86: Ks from the depletion
// at the start of the day, all rain goes into the ground, none runs off and none
// rises from below. It fails, naming the field or the day, on an unknown soil, a
// value out of its bounds, and a day left out or out of order.
func SoilWater(in BalanceInput) (BalanceOutput, error) {
	soil, err := in.check()
	if err != nil {
		return BalanceOutput{}, err
	}
	zone := newRootZone(soil, in.RootM, in.DepletionFraction)
	n := len(in.Days)
	out := BalanceOutput{stats.Round7(zone.taw), stats.Round7(zone.raw), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)}
	if err := (bounded{"startDepletionMm", &in.StartDepletionMm, 0, zone.taw}).check(); err != nil {
		return BalanceOutput{}, fmt.Errorf("%w, what the root zone holds", err)
	}
	depletion := in.StartDepletionMm
	for i, day := range in.Days {
		ks := zone.stress(depletion)
		et := ks * in.Kc * day.ET0Mm
		balance := depletion + et - day.RainMm - day.IrrigationMm // Eq. 85
		depletion = max(0, min(zone.taw, balance))                // Eq. 86
		out.DepletionMm[i], out.Stress[i] = stats.Round7(depletion), stats.Round7(ks)
		out.ETMm[i], out.PercolationMm[i] = stats.Round7(et), stats.Round7(max(0, -balance)) // Eq. 88
	}
	return out, nil
}

// A rootZone is what a depth of soil can give, mm.
type rootZone struct{ taw, raw float64 }

func newRootZone(soil Soil, rootM, p float64) rootZone {
	taw := 1000 * soil.available() * rootM  // Eq. 82
	return rootZone{taw: taw, raw: p * taw} // Eq. 83
}

// stress is Ks, Eq. 84.
func (z rootZone) stress(depletion float64) float64 {
	if depletion <= z.raw || z.taw <= z.raw {
		return 1
	}
	return max(0, (z.taw-depletion)/(z.taw-z.raw))
}

func (in *BalanceInput) check() (Soil, error) {
	soil, err := SoilOf(in.Soil)
	if err != nil {
		return soil, err
	}
	for _, one := range []bounded{
		{"rootM", &in.RootM, 0.01, deepestRootM}, {"kc", &in.Kc, 0, highestKc}, {"depletionFraction", &in.DepletionFraction, 0, 1},
	} {
		if err := one.check(); err != nil {
			return soil, err
		}
	}
	return soil, in.checkDays()
}

func (in *BalanceInput) checkDays() error {
	for i, day := range in.Days {
		if i > 0 {
			if next := in.Days[i-1].Day + 1; day.Day != next {
				return fmt.Errorf("days has %s where %s is wanted: give every day once, in order", day.Day, next)
			}
		}
		err := checkEach(day.Day, []bounded{
			{"et0Mm", &day.ET0Mm, 0, wettestMm}, {"rainMm", &day.RainMm, 0, wettestMm}, {"irrigationMm", &day.IrrigationMm, 0, wettestMm}})
		if err != nil {
			return err
		}
	}
	return nil
}
