package heat

import (
	"fmt"
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A Method is a way to reckon a day's degree-days from its two temperatures.
type Method string

// The methods. With an upper threshold, Average clamps the mean to it,
// AverageFloor both temperatures, and SingleSine cuts the curve off flat.
const (
	// Average takes the mean of minimum and maximum and then what it has above
	// the base: method 1 of McMaster & Wilhelm (1997), Agricultural and Forest
	// Meteorology 87:291.
	Average Method = "average"
	// AverageFloor raises each temperature to the base before the mean: method 2
	// of the same paper.
	AverageFloor Method = "average-floor"
	// SingleSine is the area between the base and a sine through both
	// temperatures: Baskerville & Emin (1969), Ecology 50:514.
	SingleSine Method = "single-sine"
)

// A Scale is a way of counting heat: a method, the temperature above which a
// plant develops, and the one above which more warmth adds nothing (nil: none).
type Scale struct {
	Method Method   `json:"method"`
	BaseC  float64  `json:"baseC"`
	UpperC *float64 `json:"upperC"`
}

// Of gives the degree-days, never negative, of one day. The scale must have
// passed Check.
func (s Scale) Of(minC, maxC float64) float64 {
	switch s.Method {
	case Average:
		return math.Max(0, s.clamp((minC+maxC)/2)-s.BaseC)
	case AverageFloor:
		return (s.clamp(math.Max(minC, s.BaseC))+s.clamp(math.Max(maxC, s.BaseC)))/2 - s.BaseC
	default:
		above := sineAbove(minC, maxC, s.BaseC)
		if s.UpperC != nil {
			above -= sineAbove(minC, maxC, *s.UpperC)
		}
		return above
	}
}

func (s Scale) clamp(c float64) float64 {
	if s.UpperC != nil {
		return math.Min(c, *s.UpperC)
	}
	return c
}

// sineAbove is the mean height above base of a sine between the two
// temperatures, counted as 0 where it runs below (Baskerville & Emin 1969).
func sineAbove(minC, maxC, base float64) float64 {
	mean, amplitude := (minC+maxC)/2, (maxC-minC)/2
	switch {
	case minC >= base:
		return mean - base
	case maxC <= base:
		return 0
	}
	theta := math.Asin((base - mean) / amplitude)
	return ((mean-base)*(math.Pi/2-theta) + amplitude*math.Cos(theta)) / math.Pi
}

// Check gives an error that names the field when the scale makes no sense.
func (s Scale) Check() error {
	switch s.Method {
	case Average, AverageFloor, SingleSine:
	default:
		return fmt.Errorf("method %q is not known: give %s, %s or %s", s.Method, Average, AverageFloor, SingleSine)
	}
	if !plausible(s.BaseC) {
		return fmt.Errorf("baseC %v is outside %d to %d °C", s.BaseC, coldestC, hottestC)
	}
	if s.UpperC != nil && (!plausible(*s.UpperC) || *s.UpperC <= s.BaseC) {
		return fmt.Errorf("upperC %v must be above baseC %v and at most %d °C", *s.UpperC, s.BaseC, hottestC)
	}
	return nil
}

// An Input is what the verb "degree-days" takes.
type Input struct {
	Scale
	Days []Day `json:"days"` // in any order, each day once
}

// An Output is what the verb "degree-days" gives: one value for each day from
// the first to the last, null where it is missing; their sum; the days that were
// filled from their neighbours; and the days that are missing and not in the
// sum. Values have 7 significant figures.
type Output struct {
	Daily   []*float64   `json:"daily"`
	Total   float64      `json:"total"`
	Filled  []garden.Day `json:"filled"`
	Missing []garden.Day `json:"missing"`
}

// DegreeDays answers the verb "degree-days". It fails, naming the field or the
// day, on an unknown method, a threshold out of order, an implausible
// temperature, a minimum above its maximum, a day given twice, and a span of
// more than a century or two (longestSpan).
func DegreeDays(in Input) (Output, error) {
	if err := in.Check(); err != nil {
		return Output{}, err
	}
	series, err := NewSeries(in.Days)
	if err != nil {
		return Output{}, err
	}
	out := Output{Daily: []*float64{}, Filled: series.Filled, Missing: series.Missing}
	total := 0.0
	for i := range series.temps {
		var value *float64
		if t := series.temps[i]; t.known {
			heat := in.Of(t.minC, t.maxC)
			total += heat
			rounded := stats.Round7(heat)
			value = &rounded
		}
		out.Daily = append(out.Daily, value)
	}
	out.Total = stats.Round7(total)
	return out, nil
}
