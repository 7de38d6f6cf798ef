package bloom

import "math"

// SeasonSD is how far seasons move flower expected on a day of the year, in
// days: largest in mid-February, least in mid-September, half a cosine between,
// half a year later in the south.
func SeasonSD(dayOfYear float64, southern bool) float64 {
	if southern {
		dayOfYear -= halfYearDays
	}
	const falling = seasonSDLeastAt - seasonSDLargestAt
	since := wrapYear(dayOfYear - seasonSDLargestAt)
	phase := since / falling
	if since > falling {
		phase = 1 + (since-falling)/(yearDays-falling)
	}
	return seasonSDLeast + (seasonSDLargest-seasonSDLeast)*(1+math.Cos(math.Pi*phase))/2
}

// wrapYear brings a number of days into [0, yearDays).
func wrapYear(days float64) float64 {
	days = math.Mod(days, yearDays)
	if days < 0 {
		days += yearDays
	}
	return days
}

// seasonCorrelation is the correlation of the season between two days some days
// apart: most of it that of weather, some of it that of years which run early or
// late throughout.
func seasonCorrelation(daysApart float64) float64 {
	return (1-wholeYearShare)*matern(daysApart/seasonCorrelationDays) + wholeYearShare*matern(daysApart/wholeYearCorrelationDays)
}

// matern is Matérn's correlation with smoothness 3/2: once differentiable, as
// weather summed over weeks is, and well conditioned on knots closer than its
// range.
func matern(ranges float64) float64 {
	x := math.Sqrt(3) * math.Abs(ranges)
	return (1 + x) * math.Exp(-x)
}

// A blend writes the season on one day as a weighted sum of two neighbouring
// knots, scaled so that its variance there is exactly the season's.
type blend struct {
	left, right             int // numbers of the knots on the line of time
	leftWeight, rightWeight float64
}

// blendAt gives the blend for a day counted from 1 January 1970.
func blendAt(day, sd float64) blend {
	at := day / knotSpacingDays
	left := math.Floor(at)
	f := at - left
	scale := sd / math.Sqrt(f*f+(1-f)*(1-f)+2*f*(1-f)*seasonCorrelation(knotSpacingDays))
	return blend{int(left), int(left) + 1, (1 - f) * scale, f * scale}
}
