package heat

import (
	"math"
	"testing"

	"haulm/garden"
	"haulm/internal/reference"
)

func TestWorkedDaysOfMcMasterWilhelmAndBaskervilleEmin(t *testing.T) {
	for _, row := range reference.Table(t, "degree_days_worked.csv") {
		scale := Scale{BaseC: row.Float("base_c")}
		if row.Text("upper_c") != "" {
			upper := row.Float("upper_c")
			scale.UpperC = &upper
		}
		for method, column := range map[Method]string{Average: "mw_method1_dd", AverageFloor: "mw_method2_dd", SingleSine: "single_sine_dd"} {
			scale.Method = method
			got := scale.Of(row.Float("tmin_c"), row.Float("tmax_c"))
			if want := row.Float(column); math.Abs(got-want) > 1e-6 {
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
	rows := reference.Table(t, "degree_days_seattle_daily.csv")
	for _, c := range seattleColumns {
		out, err := DegreeDays(Input{c.scale, seattle(t, 2012, 2015)})
		if err != nil {
			t.Fatal(err)
		}
		if len(out.Daily) != len(rows) || len(out.Filled)+len(out.Missing) != 0 {
			t.Fatalf("%s: %d days, %d filled, %d missing", c.column, len(out.Daily), len(out.Filled), len(out.Missing))
		}
		for i, row := range rows {
			if want := row.Float(c.column); math.Abs(*out.Daily[i]-want) > 1e-5 {
				t.Errorf("%s on %s: %v, want %v", c.column, row.Text("date"), *out.Daily[i], want)
			}
		}
	}
}

func TestSeattleYearTotalsOfR(t *testing.T) {
	columns := map[string]Method{"mw1": Average, "mw2": AverageFloor, "sine": SingleSine}
	for _, row := range reference.Table(t, "degree_days_seattle_annual_R.csv") {
		year := row.Int("year")
		for column, method := range columns {
			out, err := DegreeDays(Input{Scale{method, row.Float("base"), nil}, seattle(t, year, year)})
			if err != nil {
				t.Fatal(err)
			}
			if want := row.Float(column); math.Abs(out.Total-want) > 1e-3 {
				t.Errorf("%s of %d above %s: %v, want %v", column, year, row.Text("base"), out.Total, want)
			}
		}
	}
}

func TestSeattleCrossings(t *testing.T) {
	methods := map[string]Method{"mw1": Average, "mw2": AverageFloor, "sine": SingleSine}
	for _, row := range reference.Table(t, "degree_days_seattle_crossings.csv") {
		year := row.Int("year")
		series, err := NewSeries(seattle(t, year, year))
		if err != nil {
			t.Fatal(err)
		}
		scale := Scale{methods[row.Text("method")], row.Float("base_c"), nil}
		season := NewSeason(scale, Normals{}, series, garden.DayOf(year, 1, 1))
		day := garden.DayOf(year, 1, 1)
		for season.Sum(day) < row.Float("threshold_dd")-1e-9 {
			day++
		}
		if day.String() != row.Text("first_date_reached") {
			t.Errorf("%v: reached on %s", row, day)
		}
	}
}

// seattle gives the measured days of a run of years.
func seattle(t *testing.T, from, to int) []Day {
	t.Helper()
	days := []Day{}
	for _, row := range reference.Table(t, "seattle-weather.csv") {
		if day := row.Day("date"); day.Year() >= from && day.Year() <= to {
			lo, hi := row.Float("temp_min"), row.Float("temp_max")
			days = append(days, Day{day, &lo, &hi})
		}
	}
	return days
}
