package assess

import (
	"fmt"

	"haulm/almanac/bloom"
	"haulm/garden"
)

// A Picture is one planting's years and growth as a page draws them.
type Picture struct {
	Strips []Strip      `json:"strips"` // newest year first
	Height *HeightChart `json:"height"` // nil where nothing is expected and nothing was measured
}

// A Strip is one flush of one year. Days are days of Year and may lie below 1 or
// above 366.
type Strip struct {
	Year     int         `json:"year"`
	Flush    int         `json:"flush"`
	Expected *[2]float64 `json:"expected"` // median opening and close
	OpenBand *[2]float64 `json:"openBand"` // 10 and 90 % points of the opening
	Certain  *[2]float64 `json:"certain"`  // in flower for certain
	Possible *[2]float64 `json:"possible"` // possibly in flower
	Looks    []float64   `json:"looks"`
	Colours  []string    `json:"colours"`
	Verdict  string      `json:"verdict"`
}

// A HeightChart is what was measured against what was likely.
type HeightChart struct {
	Unit     string     `json:"unit"` // "cm"
	Band     []Likely   `json:"band"`
	Measured []Measured `json:"measured"`
}

// A Likely is the band of likely heights on one day: 10, 50 and 90 % points.
type Likely struct {
	Day garden.Day `json:"day"`
	Lo  float64    `json:"lo"`
	Mid float64    `json:"mid"`
	Hi  float64    `json:"hi"`
}

// A Measured is one height that somebody read off.
type Measured struct {
	Day garden.Day `json:"day"`
	CM  float64    `json:"cm"`
}

// An UnknownPlantingError names a planting of which there is no record.
type UnknownPlantingError struct{ Planting string }

func (e *UnknownPlantingError) Error() string {
	return fmt.Sprintf("planting %q is not among the records", e.Planting)
}

// Picture draws one planting as on a day. The error is an *UnknownPlantingError.
func (e *Engine) Picture(planting string, on garden.Day) (Picture, error) {
	p, there := e.plantings[planting]
	if !there {
		return Picture{}, &UnknownPlantingError{planting}
	}
	r := e.reckon(on)
	kind, _ := e.kind(p.Kind)
	return Picture{Strips: stripsOf(r.flower.Strips(planting), kind), Height: e.heightChart(r, p)}, nil
}

func stripsOf(drawn []bloom.Strip, kind garden.Kind) []Strip {
	strips := make([]Strip, 0, len(drawn))
	for i := len(drawn) - 1; i >= 0; i-- {
		one := drawn[i]
		strip := Strip{Year: one.Year, Flush: one.Flush, Certain: one.Certain, Possible: one.Possible,
			Looks: orEmpty(one.Looks), Colours: orEmpty(kind.Colours), Verdict: string(one.Verdict)}
		if one.Expected {
			strip.Expected = &[2]float64{one.Open.P50, one.Close.P50}
			strip.OpenBand = &[2]float64{one.Open.P10, one.Open.P90}
		}
		strips = append(strips, strip)
	}
	return strips
}
