package stats

import (
	"math"
	"strconv"
)

// How results are rounded where they leave the almanac, so that native code and
// WebAssembly agree to the byte (they differ in the last bit of exponentials).
const (
	dayStep         = 10   // days to 0.1
	centimetreStep  = 10   // cm to 0.1
	hourStep        = 100  // hours to 0.01
	arcStep         = 1e4  // degrees of arc to 0.0001
	probabilityStep = 1000 // probabilities to 0.001

	otherDigits = 7 // significant figures of everything else
)

// RoundDays rounds a number of days to 0.1.
func RoundDays(days float64) float64 { return roundTo(days, dayStep) }

// RoundCM rounds a length in centimetres to 0.1.
func RoundCM(cm float64) float64 { return roundTo(cm, centimetreStep) }

// RoundHours rounds a number of hours to 0.01.
func RoundHours(hours float64) float64 { return roundTo(hours, hourStep) }

// RoundArc rounds an angle in degrees to 0.0001.
func RoundArc(degrees float64) float64 { return roundTo(degrees, arcStep) }

// RoundProbability rounds a probability to 0.001.
func RoundProbability(p float64) float64 { return roundTo(p, probabilityStep) }

// Round7 rounds to 7 significant figures; infinities and NaN pass unchanged.
func Round7(x float64) float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', otherDigits-1, 64), 64)
	if err != nil || rounded == 0 {
		return 0
	}
	return rounded
}

// roundTo rounds to 1/step. A value that rounding noise of 10⁻⁹ could carry
// over a half step is first brought to the half, so that both machines round
// the same way; adding 0 turns −0, which JSON would show, into 0.
func roundTo(x, step float64) float64 {
	scaled := x * step
	if half := math.Floor(scaled) + 0.5; math.Abs(scaled-half) < 1e-9*math.Max(1, math.Abs(scaled)) {
		scaled = half
	}
	return math.Round(scaled)/step + 0
}
