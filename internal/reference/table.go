package reference

import (
	"encoding/csv"
	"errors"
	"io"
	"os"
	"testing"
)

// Table reads a CSV file of testdata/reference: the first line names the columns,
// each other is a row, of which there is one at least.
func Table(t testing.TB, name string) []Row {
	t.Helper()
	file, err := os.Open(path(t, name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	return rowsOf(t, name, file)
}

func rowsOf(t testing.TB, name string, text io.Reader) []Row {
	t.Helper()
	lines := csv.NewReader(text)
	columns, err := lines.Read()
	if err != nil {
		t.Fatalf("%s has no line that names its columns: %v", name, err)
	}
	var rows []Row
	for {
		cells, err := lines.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		line, _ := lines.FieldPos(0)
		rows = append(rows, Row{t, name, line, columns, cells})
	}
	if len(rows) == 0 {
		t.Fatalf("%s has no rows", name)
	}
	return rows
}
