package sun

import (
	"fmt"
	"math"
	"time"

	"haulm/almanac/stats"
)

// A Question is what the verb "sun" takes: a place in degrees, north and east
// positive, and a time written as RFC 3339.
type Question struct {
	Lat float64 `json:"lat"`
	Lon float64 `json:"lon"`
	At  string  `json:"at"`
}

// A Position is where the sun's centre stands, degrees to 0.0001: true elevation
// (topocentric, without refraction) and azimuth clockwise from north.
type Position struct {
	ElevationDeg float64 `json:"elevationDeg"`
	AzimuthDeg   float64 `json:"azimuthDeg"`
}

// At answers the verb "sun" by the algorithm of Reda & Andreas (2003, revised
// 2008), within 0.01° from 1950 to 2100. It fails, naming the field, on a place
// off the earth, a time that is none, and a year outside firstYear to lastYear.
func At(q Question) (Position, error) {
	if err := checkPlace(q.Lat, q.Lon); err != nil {
		return Position{}, err
	}
	moment, err := time.Parse(time.RFC3339Nano, q.At)
	if err != nil {
		return Position{}, fmt.Errorf("at %q is not a time written as RFC 3339 with its offset, such as 2026-06-21T12:00:00Z", q.At)
	}
	if err := checkYear("at", moment.UTC().Year()); err != nil {
		return Position{}, err
	}
	unix := float64(moment.Unix()) + float64(moment.Nanosecond())/1e9
	elevation, azimuth := locate(apparentSun(at(unix)), q.Lat, q.Lon)
	return Position{stats.RoundArc(elevation / degree), math.Mod(stats.RoundArc(azimuth/degree), 360)}, nil
}

// locate gives the elevation and the azimuth, 0 to 2π from north by east, in
// radians as seen from the ground (Reda & Andreas, sections 3.11 to 3.14).
func locate(sun apparent, lat, lon float64) (elevation, azimuth float64) {
	sinLat, cosLat := math.Sincos(lat * degree)
	hour, declination := topocentric(sun, sinLat, cosLat, hourAngle(sun, lon))
	sinD, cosD := math.Sincos(declination)
	sinH, cosH := math.Sincos(hour)
	east, north, up := -cosD*sinH, sinD*cosLat-cosD*cosH*sinLat, sinD*sinLat+cosD*cosH*cosLat
	elevation = math.Atan2(up, math.Hypot(east, north))
	azimuth = math.Atan2(east, north)
	if azimuth < 0 {
		azimuth += 2 * math.Pi
	}
	return elevation, azimuth
}

// hourAngle is how far the sun is past the meridian of a longitude, −π to π.
func hourAngle(sun apparent, lon float64) float64 {
	return math.Remainder(sun.sidereal+lon*degree-sun.rightAscension, 2*math.Pi)
}

// topocentric moves the hour angle and the declination from the middle of the
// earth to sea level at a latitude.
func topocentric(sun apparent, sinLat, cosLat, hour float64) (topHour, topDeclination float64) {
	flat := math.Atan2(polarAxis*sinLat, cosLat)
	x, y := math.Cos(flat), polarAxis*math.Sin(flat)
	parallax := math.Sin(parallaxDeg * degree / sun.distance)
	sinD, cosD := math.Sincos(sun.declination)
	sinH, cosH := math.Sincos(hour)
	across := cosD - x*parallax*cosH
	shift := math.Atan2(-x*parallax*sinH, across)
	return hour - shift, math.Atan2((sinD-y*parallax)*math.Cos(shift), across)
}
