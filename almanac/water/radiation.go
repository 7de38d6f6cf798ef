package water

import (
	"math"

	"haulm/garden"
)

const (
	solarConstant   = 0.0820   // MJ m⁻² min⁻¹, Eq. 21
	mmPerMJ         = 0.408    // water that a MJ m⁻² evaporates, Eq. 20
	albedo          = 0.23     // of the reference crop, Eq. 38
	stefanBoltzmann = 4.903e-9 // MJ K⁻⁴ m⁻² day⁻¹, Eq. 39
	kelvin          = 273.16   // of 0 °C, as the paper has it at Eq. 39
	// angstromA and angstromB are the paper's advice where they were not
	// calibrated (Eq. 35).
	angstromA, angstromB = 0.25, 0.50
	// inlandKRs is the adjustment of Eq. 50 away from coasts.
	inlandKRs = 0.16
	// leastClear is Rs/Rso of an overcast sky, 0.25 of 0.75 (Eq. 35 to 37). It keeps
	// Eq. 39 in its range where the sun hardly rises.
	leastClear = 0.33
)

// A sunDay is what the sun's path alone gives for a latitude and a day.
type sunDay struct {
	extraMJ  float64 // Ra, extraterrestrial radiation, MJ m⁻² day⁻¹
	dayHours float64 // N, daylight hours
}

// newSunDay follows Eq. 21 to 25 and 34; the day of the year counts in a year of
// 365 days even in leap years, as in the paper. Where the sun does not rise or
// does not set, the sunset angle is held to 0 or π.
func newSunDay(latDeg float64, dayOfYear int) sunDay {
	lat := latDeg * math.Pi / 180
	turn := 2 * math.Pi * float64(dayOfYear) / 365
	distance := 1 + 0.033*math.Cos(turn)        // Eq. 23
	declination := 0.409 * math.Sin(turn-1.39)  // Eq. 24
	x := -math.Tan(lat) * math.Tan(declination) // Eq. 25
	sunset := math.Acos(max(-1, min(1, x)))
	path := sunset*math.Sin(lat)*math.Sin(declination) + math.Cos(lat)*math.Cos(declination)*math.Sin(sunset)
	return sunDay{
		extraMJ:  max(0, 24*60/math.Pi*solarConstant*distance*path),
		dayHours: 24 / math.Pi * sunset,
	}
}

func sunOn(latDeg float64, day garden.Day) sunDay { return newSunDay(latDeg, day.OfYear()) }

// solarFromHours is the radiation that so many hours of sunshine let through, Eq.
// 35; more sunshine than daylight counts as all of it.
func (s sunDay) solarFromHours(hours float64) float64 {
	if s.dayHours <= 0 {
		return 0
	}
	return (angstromA + angstromB*min(1, hours/s.dayHours)) * s.extraMJ
}

// solarFromRange is the radiation that the day's range of temperature lets guess,
// Eq. 50, at most that of a clear sky.
func (s sunDay) solarFromRange(minC, maxC, altitudeM float64) float64 {
	return min(inlandKRs*math.Sqrt(maxC-minC)*s.extraMJ, s.clearSky(altitudeM))
}

// clearSky is the radiation of a cloudless day, Eq. 37.
func (s sunDay) clearSky(altitudeM float64) float64 { return (0.75 + 2e-5*altitudeM) * s.extraMJ }

// net is the net radiation of the reference crop, Eq. 38 to 40, from solar
// radiation and the vapour in the air.
func (s sunDay) net(solarMJ, minC, maxC, vapourKPa, altitudeM float64) float64 {
	clear := leastClear
	if most := s.clearSky(altitudeM); most > 0 {
		clear = max(leastClear, min(1, solarMJ/most))
	}
	black := stefanBoltzmann * (math.Pow(maxC+kelvin, 4) + math.Pow(minC+kelvin, 4)) / 2
	long := black * (0.34 - 0.14*math.Sqrt(vapourKPa)) * (1.35*clear - 0.35)
	return (1-albedo)*solarMJ - long
}
