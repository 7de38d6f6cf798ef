package heat

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"haulm/garden"
)

func TestWorkedDaysOfMcMasterWilhelmAndBaskervilleEmin(t *testing.T) {
	for _, row := range table(t, "degree_days_worked.csv") {
		scale := Scale{BaseC: number(t, row["base_c"])}
		if row["upper_c"] != "" {
			upper := number(t, row["upper_c"])
			scale.UpperC = &upper
		}
		for method, column := range map[Method]string{Average: "mw_method1_dd", AverageFloor: "mw_method2_dd", SingleSine: "single_sine_dd"} {
			scale.Method = method
			got := scale.Of(number(t, row["tmin_c"]), number(t, row["tmax_c"]))
			if want := number(t, row[column]); math.Abs(got-want) > 1e-6 {
				t.Errorf("%s of %v: %.7f, want %.7f", method, row, got, want)
			}
		}
	}
}

// seattleColumns name the daily columns: method, base.
var seattleColumns = []struct {
	column string
	scale  Scale
}{
	{"mw1_b0", Scale{Average, 0, nil}}, {"mw2_b0", Scale{AverageFloor, 0, nil}}, {"sine_b0", Scale{SingleSine, 0, nil}},
	{"mw1_b5", Scale{Average, 5, nil}}, {"mw2_b5", Scale{AverageFloor, 5, nil}}, {"sine_b5", Scale{SingleSine, 5, nil}},
	{"mw1_b10", Scale{Average, 10, nil}}, {"mw2_b10", Scale{AverageFloor, 10, nil}}, {"sine_b10", Scale{SingleSine, 10, nil}},
}

func TestSeattleDailySeries2012To2015(t *testing.T) {
	rows := table(t, "degree_days_seattle_daily.csv")
	for _, c := range seattleColumns {
		out, err := DegreeDays(Input{c.scale, seattle(t, 2012, 2015)})
		if err != nil {
			t.Fatal(err)
		}
		if len(out.Daily) != len(rows) || len(out.Filled)+len(out.Missing) != 0 {
			t.Fatalf("%s: %d days, %d filled, %d missing", c.column, len(out.Daily), len(out.Filled), len(out.Missing))
		}
		for i, row := range rows {
			if want := number(t, row[c.column]); math.Abs(*out.Daily[i]-want) > 1e-5 {
				t.Errorf("%s on %s: %v, want %v", c.column, row["date"], *out.Daily[i], want)
			}
		}
	}
}

func TestSeattleYearTotalsOfR(t *testing.T) {
	columns := map[string]Method{"mw1": Average, "mw2": AverageFloor, "sine": SingleSine}
	for _, row := range table(t, "degree_days_seattle_annual_R.csv") {
		year := int(number(t, row["year"]))
		for column, method := range columns {
			out, err := DegreeDays(Input{Scale{method, number(t, row["base"]), nil}, seattle(t, year, year)})
			if err != nil {
				t.Fatal(err)
			}
			if want := number(t, row[column]); math.Abs(out.Total-want) > 1e-3 {
				t.Errorf("%s of %d above %s: %v, want %v", column, year, row["base"], out.Total, want)
			}
		}
	}
}

func TestSeattleCrossings(t *testing.T) {
	methods := map[string]Method{"mw1": Average, "mw2": AverageFloor, "sine": SingleSine}
	for _, row := range table(t, "degree_days_seattle_crossings.csv") {
		year := int(number(t, row["year"]))
		series, err := NewSeries(seattle(t, year, year))
		if err != nil {
			t.Fatal(err)
		}
		scale := Scale{methods[row["method"]], number(t, row["base_c"]), nil}
		season := NewSeason(scale, Normals{}, series, garden.DayOf(year, 1, 1))
		day := garden.DayOf(year, 1, 1)
		for season.Sum(day) < number(t, row["threshold_dd"])-1e-9 {
			day++
		}
		if day.String() != row["first_date_reached"] {
			t.Errorf("%v: reached on %s", row, day)
		}
	}
}

// seattle gives the measured days of a run of years.
func seattle(t *testing.T, from, to int) []Day {
	t.Helper()
	days := []Day{}
	for _, row := range table(t, "seattle-weather.csv") {
		day, err := garden.ParseDay(row["date"])
		if err != nil {
			t.Fatal(err)
		}
		if day.Year() >= from && day.Year() <= to {
			lo, hi := number(t, row["temp_min"]), number(t, row["temp_max"])
			days = append(days, Day{day, &lo, &hi})
		}
	}
	return days
}

// table reads a reference file as one map of columns per row.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil || len(records) < 2 {
		t.Fatalf("%s has no rows (%v)", name, err)
	}
	rows := make([]map[string]string, 0, len(records)-1)
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = record[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
