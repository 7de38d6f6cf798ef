package reference

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"haulm/garden"
)

// A Row is a row of a table; it gives its cells by the names of their columns and
// ends its test at one that is not what was asked for.
type Row struct {
	t              testing.TB
	file           string
	line           int // of the file, the first being 1
	columns, cells []string
}

// String says where the row stands, for messages.
func (r Row) String() string { return fmt.Sprintf("%s, line %d", r.file, r.line) }

// Text gives a cell as it is written.
func (r Row) Text(column string) string {
	r.t.Helper()
	at := slices.Index(r.columns, column)
	if at < 0 {
		r.t.Fatalf("%s has no column %q, only %s", r.file, column, strings.Join(r.columns, ", "))
	}
	return r.cells[at]
}

// Float gives a cell as a finite number: with a NaN, comparisons pass unseen.
func (r Row) Float(column string) float64 {
	r.t.Helper()
	value, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
		r.wrong(column, "a finite number")
	}
	return value
}

// Int gives a cell as a whole number.
func (r Row) Int(column string) int {
	r.t.Helper()
	value, err := strconv.Atoi(r.Text(column))
	if err != nil {
		r.wrong(column, "a whole number")
	}
	return value
}

// Day gives a cell as a day, written 2015-07-01.
func (r Row) Day(column string) garden.Day {
	r.t.Helper()
	day, err := garden.ParseDay(r.Text(column))
	if err != nil {
		r.wrong(column, "a day such as 2015-07-01")
	}
	return day
}

func (r Row) wrong(column, wanted string) {
	r.t.Helper()
	r.t.Fatalf("%s, column %s: %q is not %s", r, column, r.Text(column), wanted)
}
