package sun

import (
	"math"

	"haulm/garden"
)

// Units, and what the ephemeris counts in.
const (
	degree        = math.Pi / 180 // in radians
	secondsPerDay = 86400.0       // by the definition of the unit
	// unixOfJ2000 is 2000-01-01 12:00, from which astronomers count.
	unixOfJ2000 = 946728000.0
	daysPerYear = 365.25 // the Julian year

	// aberrationDeg is the constant of aberration, 20.4898″, and parallaxDeg the
	// sun's horizontal parallax, 8.794″, at the mean distance (Reda & Andreas,
	// equations 27 and 35).
	aberrationDeg = 20.4898 / 3600
	parallaxDeg   = 8.794 / 3600
	// polarAxis is the earth's polar radius over the equatorial (equation 36).
	polarAxis = 0.99664719
)

// An instant is a moment in days of universal time since J2000.0, with the
// seconds that dynamical time is ahead of it.
type instant struct{ days, deltaT float64 }

// at gives the instant of a count of seconds since 1970, UTC.
func at(unix float64) instant {
	days := (unix - unixOfJ2000) / secondsPerDay
	return instant{days, deltaT(2000 + days/daysPerYear)}
}

// midnight is the first second of a date in UTC, since 1970.
func midnight(day garden.Day) float64 { return float64(day) * secondsPerDay }

// apparent is the sun's apparent place from the middle of the earth, true
// equator and equinox of date: radians and astronomical units. sidereal is the
// apparent sidereal time at Greenwich, in radians.
type apparent struct{ declination, rightAscension, distance, sidereal float64 }

// apparentSun follows Reda & Andreas (2003, revised 2008), sections 3.1 to 3.10.
func apparentSun(t instant) apparent {
	centuries := (t.days + t.deltaT/secondsPerDay) / 36525
	millennia := centuries / 10
	distance := periodic(earthDistance, millennia)
	nutation, obliquity := nutate(centuries)
	longitude := periodic(earthLongitude, millennia) + math.Pi + nutation - aberrationDeg*degree/distance
	latitude := -periodic(earthLatitude, millennia)
	sinL, cosL := math.Sincos(longitude)
	sinB, cosB := math.Sincos(latitude)
	sinE, cosE := math.Sincos(obliquity)
	return apparent{
		declination:    math.Asin(sinB*cosE + cosB*sinE*sinL),
		rightAscension: math.Atan2(sinL*cosE-sinB/cosB*sinE, cosL),
		distance:       distance,
		sidereal:       meanSidereal(t.days) + nutation*cosE,
	}
}

// periodic sums a series of the table at τ millennia.
func periodic(series [][]term, tau float64) float64 {
	sum := 0.0
	for power := len(series) - 1; power >= 0; power-- {
		row := 0.0
		for _, t := range series[power] {
			row += t.amplitude * math.Cos(t.phase+t.rate*tau)
		}
		sum = sum*tau + row
	}
	return sum * seriesUnit
}

// nutate gives the nutation in longitude and the true obliquity of the ecliptic,
// in radians, at t Julian centuries of dynamical time. Arguments: IAU 1980, as in
// equations 15 to 19; mean obliquity: Laskar (1986), equation 24.
func nutate(t float64) (longitude, obliquity float64) {
	arguments := [5]float64{
		polynomial(t, 297.85036, 445267.111480, -0.0019142, 1.0/189474) * degree, // moon from sun
		polynomial(t, 357.52772, 35999.050340, -0.0001603, -1.0/300000) * degree, // sun's anomaly
		polynomial(t, 134.96298, 477198.867398, 0.0086972, 1.0/56250) * degree,   // moon's anomaly
		polynomial(t, 93.27191, 483202.017538, -0.0036825, 1.0/327270) * degree,  // moon's latitude
		polynomial(t, 125.04452, -1934.136261, 0.0020708, 1.0/450000) * degree,   // moon's node
	}
	const unit = degree / 3600 / 10000
	for _, term := range nutationTerms {
		angle := 0.0
		for i, multiple := range term.arguments {
			angle += multiple * arguments[i]
		}
		sin, cos := math.Sincos(angle)
		longitude += (term.longitude + term.longitudeRate*t) * sin * unit
		obliquity += (term.obliquity + term.obliquityRate*t) * cos * unit
	}
	mean := polynomial(t/100, 84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45)
	return longitude, obliquity + mean/3600*degree
}

// meanSidereal is the mean sidereal time at Greenwich in radians (equation 28).
func meanSidereal(days float64) float64 {
	t := days / 36525
	degrees := 280.46061837 + 360.98564736629*days + 0.000387933*t*t - t*t*t/38710000
	return math.Mod(degrees, 360) * degree
}
