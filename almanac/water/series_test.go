package water

import (
	"strings"
	"testing"

	"haulm/garden"
	"haulm/internal/reference"
)

// The table is Eq. 21 and 34 by an independent script, for 15 latitudes from 70° N
// to 70° S; two of its rows agree with Annex Table 2.6 of FAO-56 as remembered.
func TestRadiationAndDaylightOf15Latitudes(t *testing.T) {
	latitudes := map[float64]bool{}
	for _, row := range reference.Table(t, "et_ra_table.csv") {
		lat := row.Float("lat_deg")
		latitudes[lat] = true
		sun := newSunDay(lat, row.Int("day_of_year_mid_month"))
		what := "at " + row.Text("lat_deg") + "° in month " + row.Text("month") + ": "
		near(t, what+"Ra", sun.extraMJ, row.Float("Ra_eq21_MJ_m2_day"), 1e-3)
		near(t, what+"N", sun.dayHours, row.Float("daylight_N_eq34_h"), 1e-3)
		if row.Text("fao_table_2_6_from_memory") != "" {
			near(t, what+"Ra of Table 2.6", sun.extraMJ, row.Float("fao_table_2_6_from_memory"), 0.1)
		}
	}
	if len(latitudes) != 15 {
		t.Errorf("%d latitudes", len(latitudes))
	}
}

func TestPolarNightAndDayAreHeldToTheirEnds(t *testing.T) {
	night, day := newSunDay(80, 355), newSunDay(80, 172)
	near(t, "Ra in polar night", night.extraMJ, 0, 1e-9)
	near(t, "N in polar night", night.dayHours, 0, 1e-9)
	near(t, "N in polar day", day.dayHours, 24, 1e-9)
	for _, lat := range []float64{90, -90} {
		for doy := 1; doy <= 366; doy++ {
			sun := newSunDay(lat, doy)
			if !(sun.extraMJ >= 0 && sun.extraMJ < mostSolarMJ) || !(sun.dayHours >= 0 && sun.dayHours <= 24) {
				t.Errorf("at %v on day %d: %+v", lat, doy, sun)
			}
		}
	}
}

// Seattle 2012 to 2015 (NOAA National Climatic Data Center): Hargreaves and the
// balance of Eq. 84 and 85 by an independent script.
func TestSeattleHargreavesAndBalanceOf1461Days(t *testing.T) {
	rows := reference.Table(t, "et_water_balance_seattle.csv")
	air := AirInput{Method: Hargreaves, Lat: 47.45}
	// sandy loam has 0.12, so that half a metre holds the 60 mm of the run
	balance := BalanceInput{Soil: "sandy loam", RootM: 0.5, Kc: 0.8, DepletionFraction: 0.5}
	for _, row := range rows {
		day := row.Day("date")
		air.Days = append(air.Days, AirDay{Day: day, MinC: number(row.Float("tmin_c")), MaxC: number(row.Float("tmax_c"))})
		balance.Days = append(balance.Days, BalanceDay{Day: day, RainMm: row.Float("rain_mm")})
	}
	asked, err := Evapotranspiration(air)
	if err != nil || len(asked.ET0Mm) != 1461 {
		t.Fatal(err, len(asked.ET0Mm))
	}
	for i, row := range rows {
		near(t, "ET₀ on "+row.Text("date"), *asked.ET0Mm[i], row.Float("ETo_hargreaves_mm"), 0.001)
		balance.Days[i].ET0Mm = *asked.ET0Mm[i]
	}
	got, err := SoilWater(balance)
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range rows {
		near(t, "depletion on "+row.Text("date"), got.DepletionMm[i], row.Float("Dr_end_mm"), 0.001)
		near(t, "Ks on "+row.Text("date"), got.Stress[i], row.Float("Ks"), 0.001)
		near(t, "ETc on "+row.Text("date"), got.ETMm[i], row.Float("ETc_adj_mm"), 0.001)
		near(t, "percolation on "+row.Text("date"), got.PercolationMm[i], row.Float("deep_percolation_mm"), 0.001)
	}
}

func TestShortGapsAreFilledAndLongOnesNamed(t *testing.T) {
	in := AirInput{Method: Hargreaves, Lat: 50}
	for i := range 12 {
		day := AirDay{Day: on("2026-05-01") + garden.Day(i), MinC: number(8), MaxC: number(18 + float64(i))}
		if i >= 1 && i <= 3 || i >= 5 && i <= 8 || i == 11 {
			day.MaxC = nil
		}
		in.Days = append(in.Days, day)
	}
	out, err := Evapotranspiration(in)
	if err != nil {
		t.Fatal(err)
	}
	if got := days(out.Filled); got != "2026-05-02 2026-05-03 2026-05-04" {
		t.Errorf("filled %s", got)
	}
	if got := days(out.Missing); got != "2026-05-06 2026-05-07 2026-05-08 2026-05-09 2026-05-12" {
		t.Errorf("missing %s", got)
	}
	for i, et0 := range out.ET0Mm {
		if wanted := !(i >= 5 && i <= 8 || i == 11); (et0 != nil) != wanted {
			t.Errorf("day %d: %v", i, et0)
		}
	}
	near(t, "the filled day", *out.ET0Mm[2], hargreaves(8, 20, sunOn(50, on("2026-05-03")).extraMJ), 1e-5)
}

func TestAnswersKeepTheOrderOfTheDays(t *testing.T) {
	in := AirInput{Method: Hargreaves, Lat: 50, Days: []AirDay{
		{Day: on("2026-07-01"), MinC: number(10), MaxC: number(25)}, {Day: on("2026-01-01"), MinC: number(1), MaxC: number(5)}}}
	out, err := Evapotranspiration(in)
	if err != nil || !(*out.ET0Mm[0] > *out.ET0Mm[1]) {
		t.Errorf("%+v, %v", out, err)
	}
	if len(out.Missing) != 180 {
		t.Errorf("%d days between are named as missing", len(out.Missing))
	}
}

func TestEverySoilThatABedCanHaveIsKnown(t *testing.T) {
	// What garden allows stands in the bound that it states.
	_, words, found := strings.Cut(garden.Check(garden.BedRecord, "soil", []byte(`"mud"`)).Error(), "one of ")
	list := strings.Split(words, ", ")
	if !found || len(list) < 12 {
		t.Fatalf("garden allows %q", words)
	}
	for _, word := range list {
		soil, err := SoilOf(word)
		if err != nil || !(soil.available() > 0.05 && soil.available() < 0.2 && soil.WiltingPoint > 0.03) {
			t.Errorf("%s: %+v, %v", word, soil, err)
		}
	}
}

// Table 19 of FAO-56, from memory: each soil that it has lies within its ranges.
func TestSoilsLieWithinTable19(t *testing.T) {
	for _, row := range reference.Table(t, "et_soil_table19.csv") {
		name := strings.Replace(row.Text("soil"), "silt clay", "silty clay", 1)
		soil, err := SoilOf(name)
		if err != nil {
			t.Fatal(err)
		}
		between(t, name+": field capacity", soil.FieldCapacity, row.Float("theta_fc_min"), row.Float("theta_fc_max"))
		between(t, name+": wilting point", soil.WiltingPoint, row.Float("theta_wp_min"), row.Float("theta_wp_max"))
	}
}

func between(t *testing.T, what string, got, lo, hi float64) {
	t.Helper()
	if !(got >= lo && got <= hi) {
		t.Errorf("%s = %v, want %v to %v", what, got, lo, hi)
	}
}

func days(list []garden.Day) string {
	var words []string
	for _, day := range list {
		words = append(words, day.String())
	}
	return strings.Join(words, " ")
}

func on(text string) garden.Day {
	day, err := garden.ParseDay(text)
	if err != nil {
		panic(err)
	}
	return day
}

func number(x float64) *float64 { return &x }
