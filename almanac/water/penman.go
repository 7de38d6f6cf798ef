package water

import "math"

// pressureKPa is the usual air pressure at an altitude, Eq. 7.
func pressureKPa(altitudeM float64) float64 {
	return 101.3 * math.Pow((293-0.0065*altitudeM)/293, 5.26)
}

// psychrometric is the psychrometric constant, kPa °C⁻¹, Eq. 8.
func psychrometric(altitudeM float64) float64 { return 0.665e-3 * pressureKPa(altitudeM) }

// saturationKPa is the vapour that air of a temperature holds, Eq. 11.
func saturationKPa(c float64) float64 { return 0.6108 * math.Exp(17.27*c/(c+237.3)) }

// meanSaturationKPa is that of a day, Eq. 12.
func meanSaturationKPa(minC, maxC float64) float64 {
	return (saturationKPa(minC) + saturationKPa(maxC)) / 2
}

// slope is the slope of the saturation curve, kPa °C⁻¹, Eq. 13.
func slope(c float64) float64 { return 4098 * saturationKPa(c) / ((c + 237.3) * (c + 237.3)) }

// windAt2 brings a wind measured at a height to 2 m, Eq. 47.
func windAt2(ms, heightM float64) float64 { return ms * 4.87 / math.Log(67.8*heightM-5.42) }

// vapourKPa is the vapour in the air by what is known of its humidity: the most
// and least of the day, Eq. 17; the most alone, Eq. 18; their mean, Eq. 19; or
// nothing, when the night is taken to have reached the dew point, Eq. 48.
func vapourKPa(minC, maxC float64, leastPct, mostPct, meanPct *float64) float64 {
	low, high := saturationKPa(minC), saturationKPa(maxC)
	switch {
	case leastPct != nil && mostPct != nil:
		return (low**mostPct + high**leastPct) / 200
	case mostPct != nil:
		return low * *mostPct / 100
	case meanPct != nil:
		return *meanPct / 100 * (low + high) / 2
	}
	return low
}

// penmanMonteith is the reference evapotranspiration of a day, mm, Eq. 6, with no
// heat going into the soil (Eq. 42) and never below 0.
func penmanMonteith(minC, maxC, windMs, vapourKPa, netMJ, altitudeM float64) float64 {
	mean := (minC + maxC) / 2
	gamma, s := psychrometric(altitudeM), slope(mean)
	deficit := max(0, meanSaturationKPa(minC, maxC)-vapourKPa)
	above := mmPerMJ*s*netMJ + gamma*900/(mean+273)*windMs*deficit
	return max(0, above/(s+gamma*(1+0.34*windMs)))
}

// hargreaves is the reference evapotranspiration of a day, mm, from its range of
// temperature alone, Eq. 52, never below 0.
func hargreaves(minC, maxC, extraMJ float64) float64 {
	return max(0, 0.0023*((minC+maxC)/2+17.8)*math.Sqrt(maxC-minC)*mmPerMJ*extraMJ)
}
