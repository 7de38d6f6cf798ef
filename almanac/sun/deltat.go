package sun

// deltaT gives TT − UT1 in seconds for a year with its fraction, by the
// polynomials of Espenak F., Meeus J. (2006), Five Millennium Canon of Solar
// Eclipses, NASA/TP-2006-214141. For the years after 2005 they are a forecast of
// then, by now 5 s too great: the sun moves 0.0001° in that.
func deltaT(year float64) float64 {
	switch {
	case year < 1900:
		return longTermDeltaT(year)
	case year < 1920:
		return polynomial(year-1900, -2.79, 1.494119, -0.0598939, 0.0061966, -0.000197)
	case year < 1941:
		return polynomial(year-1920, 21.20, 0.84493, -0.076100, 0.0020936)
	case year < 1961:
		return polynomial(year-1950, 29.07, 0.407, -1.0/233, 1.0/2547)
	case year < 1986:
		return polynomial(year-1975, 45.45, 1.067, -1.0/260, -1.0/718)
	case year < 2005:
		return polynomial(year-2000, 63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599)
	case year < 2050:
		return polynomial(year-2000, 62.92, 0.32217, 0.005589)
	case year < 2150:
		return longTermDeltaT(year) - 0.5628*(2150-year)
	}
	return longTermDeltaT(year)
}

// longTermDeltaT is the parabola that the same source gives for far years.
func longTermDeltaT(year float64) float64 {
	return polynomial((year-1820)/100, -20, 0, 32)
}

// polynomial is c[0] + c[1]x + c[2]x² + …
func polynomial(x float64, c ...float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*x + c[i]
	}
	return sum
}
