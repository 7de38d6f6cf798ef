package sun

import (
	"math"
	"testing"
	"time"

	"haulm/internal/reference"
)

// rowsOf reads a table of reference results that has at least so many rows.
func rowsOf(t testing.TB, name string, atLeast int) []reference.Row {
	t.Helper()
	rows := reference.Table(t, name)
	if len(rows) < atLeast {
		t.Fatalf("%s has %d rows, want at least %d", name, len(rows), atLeast)
	}
	return rows
}

// Worked example A.5 of NREL/TP-560-34302: the printed airless elevation and
// azimuth, with the ΔT of 67 s that it takes.
func TestSpaExample(t *testing.T) {
	sky := spaExample(t)
	moment := at(unixOf(t, "2003-10-17T12:30:30-07:00"))
	moment.deltaT = 67
	elevation, azimuth := locate(apparentSun(moment), sky.Inputs.Lat, sky.Inputs.Lon)
	near(t, "elevation", elevation/degree, sky.Confirmed.Elevation, 1e-5)
	near(t, "azimuth", azimuth/degree, sky.Confirmed.Azimuth, 1e-5)

	answer, err := At(Question{sky.Inputs.Lat, sky.Inputs.Lon, "2003-10-17T12:30:30-07:00"})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "elevation of the verb", answer.ElevationDeg, sky.Confirmed.Elevation, 0.001)
	near(t, "azimuth of the verb", answer.AzimuthDeg, sky.Confirmed.Azimuth, 0.001)
}

// The intermediate values that the example prints.
func TestSpaExampleSteps(t *testing.T) {
	moment := at(unixOf(t, "2003-10-17T12:30:30-07:00"))
	moment.deltaT = 67
	tau := (moment.days + moment.deltaT/secondsPerDay) / 365250
	sky := spaExample(t)
	longitude := math.Mod(periodic(earthLongitude, tau)/degree, 360)
	near(t, "heliocentric longitude", longitude, sky.Confirmed.Longitude, 1e-5)
	near(t, "heliocentric latitude", periodic(earthLatitude, tau)/degree, sky.Confirmed.Latitude, 1e-9)
	near(t, "distance", periodic(earthDistance, tau), sky.Confirmed.Distance, 3e-6)
	nutation, obliquity := nutate(tau * 10)
	near(t, "nutation", nutation/degree, sky.Confirmed.Nutation, 3e-5)
	near(t, "obliquity", obliquity/degree, sky.Confirmed.Obliquity, 3e-5)
}

// Five rows of NREL's calculator for Auckland in 1910, ΔT 0, of which the zenith
// distance has refraction at 1000 mbar and 10 °C where the sun is up (Reda &
// Andreas, equation 42, which is taken out here).
func TestNrelCalculator(t *testing.T) {
	rows := spaExample(t).Extra
	if len(rows.Rows) != 5 {
		t.Fatalf("%d rows, want 5", len(rows.Rows))
	}
	for _, r := range rows.Rows {
		moment := at(unixOf(t, r[0].(string)))
		moment.deltaT = 0
		elevation, azimuth := locate(apparentSun(moment), rows.Lat, rows.Lon)
		shown := elevation / degree
		if shown > -0.8 {
			shown += 1000.0 / 1010 * 283 / (273 + 10) * 1.02 / (60 * math.Tan((shown+10.3/(shown+5.11))*degree))
		}
		near(t, r[0].(string)+" zenith", 90-shown, r[2].(float64), 1e-4)
		near(t, r[0].(string)+" azimuth", azimuth/degree, r[1].(float64), 1e-4)
	}
}

// Every row that astropy and ephem gave, for 2024 to 2027.
func TestPositions(t *testing.T) {
	worst := 0.0
	for _, r := range rowsOf(t, "sun_positions.csv", 576) {
		answer, err := At(Question{r.Float("lat_deg"), r.Float("lon_deg_east"), r.Text("time_utc")})
		if err != nil {
			t.Fatal(err)
		}
		up := math.Abs(answer.ElevationDeg - r.Float("elev_airless_deg"))
		around := math.Abs(math.Remainder(answer.AzimuthDeg-r.Float("azimuth_deg_from_north_cw"), 360)) * math.Cos(answer.ElevationDeg*degree)
		if up > 0.001 || around > 0.001 {
			t.Errorf("%s %s: elevation off by %.4f°, azimuth by %.4f°", r.Text("place"), r.Text("time_utc"), up, around)
		}
		worst = max(worst, up, around)
	}
	t.Logf("worst %.4f°", worst)
}

// The references above are of 1910, 2003 and 2024 to 2027. Between them and up to
// 2100 an independent theory speaks: Newcomb's (1895) with its chief perturbations,
// as Meeus gives it in Astronomical Formulae for Calculators, chapter 18 (from
// memory), without the moon's pull on the earth's axis beyond the 18-year term.
// Every third day is compared; 0.01° is what is promised.
func TestPlaceAgainstNewcombFrom1950To2100(t *testing.T) {
	worst := 0.0
	for day := dayOf(t, "1950-01-01"); day.Year() <= 2100; day += 3 {
		moment := at(midnight(day))
		sun := apparentSun(moment)
		declination, ascension := newcomb((moment.days + moment.deltaT/secondsPerDay + 36525) / 36525)
		down := math.Abs(sun.declination-declination) / degree
		around := math.Abs(math.Remainder(sun.rightAscension-ascension, 2*math.Pi)) / degree * math.Cos(declination)
		if down > 0.005 || around > 0.005 {
			t.Errorf("%s: declination off by %.4f°, right ascension by %.4f°", day, down, around)
		}
		worst = max(worst, down, around)
	}
	t.Logf("worst %.4f°", worst)
}

// newcomb gives the sun's apparent place at t centuries since 1900 January 0.5.
func newcomb(t float64) (declination, rightAscension float64) {
	sin := func(degrees float64) float64 { return math.Sin(degrees * degree) }
	cos := func(degrees float64) float64 { return math.Cos(degrees * degree) }
	m := 358.47583 + 35999.04975*t - 0.000150*t*t - 0.0000033*t*t*t
	longitude := 279.69668 + 36000.76892*t + 0.0003025*t*t +
		(1.919460-0.004789*t-0.000014*t*t)*sin(m) + (0.020094-0.000100*t)*sin(2*m) + 0.000293*sin(3*m) +
		0.00134*cos(153.23+22518.7541*t) + 0.00154*cos(216.57+45037.5082*t) + 0.00200*cos(312.69+32964.3577*t) +
		0.00179*sin(350.74+445267.1142*t-0.00144*t*t) + 0.00178*sin(231.19+20.20*t)
	node := 259.18 - 1934.142*t
	longitude += -0.00569 - 0.00479*sin(node)
	obliquity := 23.452294 - 0.0130125*t - 0.00000164*t*t + 0.000000503*t*t*t + 0.00256*cos(node)
	return math.Asin(sin(obliquity) * sin(longitude)), math.Atan2(cos(obliquity)*sin(longitude), cos(longitude))
}

// Rise, set and transit as astropy has them, and their length of day.
func TestRiseAndSet(t *testing.T) {
	worst := 0.0
	for _, r := range rowsOf(t, "sun_rise_set.csv", 72) {
		answer := dayOfRow(t, r)
		if answer.Rise == nil || answer.Set == nil {
			t.Errorf("%s %s: rise %v, set %v", r.Text("place"), r.Text("local_date"), answer.Rise, answer.Set)
			continue
		}
		for column, is := range map[string]string{"sunrise_utc": *answer.Rise, "transit_utc": answer.Transit, "sunset_utc": *answer.Set} {
			off := math.Abs(unixOf(t, is) - unixOf(t, r.Text(column)))
			if off > 2 {
				t.Errorf("%s %s: %s is off by %.0f s", r.Text("place"), r.Text("local_date"), column, off)
			}
			worst = max(worst, off)
		}
		near(t, r.Text("place")+" length", answer.LengthHours, r.Float("day_length_min")/60, 0.0055)
	}
	t.Logf("worst %.0f s", worst)
}

// Polar days and nights are answers, and so are the days between.
func TestPolar(t *testing.T) {
	for _, r := range rowsOf(t, "sun_polar.csv", 14) {
		answer := dayOfRow(t, r)
		want := map[string]string{"rises_and_sets": "", "never_sets": "day", "never_rises": "night"}[r.Text("state")]
		name := r.Text("place") + " " + r.Text("local_date")
		if answer.Polar != want || (want != "") != (answer.Rise == nil) || (want != "") != (answer.Set == nil) {
			t.Errorf("%s: polar %q, want %q; rise %v, set %v", name, answer.Polar, want, answer.Rise, answer.Set)
		}
		near(t, name+" hours up", answer.LengthHours, r.Float("minutes_above_minus_0.8333")/60, 1.5/60)
	}
}

func dayOfRow(t testing.TB, r reference.Row) DayAnswer {
	t.Helper()
	offset := time.FixedZone("", int(r.Float("utc_offset_h")*3600))
	answer, err := DayOf(DayQuestion{r.Float("lat_deg"), r.Float("lon_deg_east"), r.Day("local_date"),
		time.Unix(0, 0).In(offset).Format("Z07:00")})
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

type spa struct {
	Inputs struct {
		Lat float64 `json:"lat_deg"`
		Lon float64 `json:"lon_deg"`
	} `json:"inputs"`
	Confirmed struct {
		Longitude float64 `json:"L_heliocentric_longitude_deg"`
		Latitude  float64 `json:"B_deg"`
		Distance  float64 `json:"R_au"`
		Nutation  float64 `json:"delta_psi_deg"`
		Obliquity float64 `json:"epsilon_deg"`
		Elevation float64 `json:"elevation_no_refraction_deg"`
		Azimuth   float64 `json:"azimuth_deg_from_north_cw"`
	} `json:"confirmed_by_search"`
	Extra struct {
		Lat  float64  `json:"lat_deg"`
		Lon  float64  `json:"lon_deg"`
		Rows [][3]any `json:"rows"`
	} `json:"extra_nrel_rows"`
}

func spaExample(t testing.TB) (s spa) {
	t.Helper()
	reference.JSON(t, "sun_spa_example.json", &s)
	return s
}

func unixOf(t testing.TB, text string) float64 {
	t.Helper()
	moment, err := time.Parse(time.RFC3339, text)
	if err != nil {
		t.Fatal(err)
	}
	return float64(moment.Unix())
}

func near(t testing.TB, what string, is, want, within float64) {
	t.Helper()
	if !(math.Abs(is-want) <= within) {
		t.Errorf("%s is %.9g, want %.9g within %g", what, is, want, within)
	}
}
