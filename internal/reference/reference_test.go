package reference

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"haulm/garden"
)

const small = "place,day,count,height\n\"Kyoto,\nuphill\",2015-04-05,3,1.5\nnowhere,spring,1.5,NaN\n"

func TestCellsAreFoundByTheirColumn(t *testing.T) {
	row := rowsOf(t, "small.csv", strings.NewReader(small))[0]
	if got := row.Text("place"); got != "Kyoto,\nuphill" {
		t.Errorf("place %q", got)
	}
	if day, count, height := row.Day("day"), row.Int("count"), row.Float("height"); day != garden.DayOf(2015, 4, 5) || count != 3 || height != 1.5 {
		t.Errorf("day %s, count %d, height %v", day, count, height)
	}
}

func TestFilesAreFoundFromTheFolderOfAPackage(t *testing.T) {
	if rows := Table(t, "phenology_kyoto_full_flowering.csv"); len(rows) != 827 || rows[0].Int("year") != 812 {
		t.Errorf("%d rows, the first of them %s", len(rows), rows[0])
	}
	var example struct {
		Inputs struct {
			Lat float64 `json:"lat_deg"`
		}
	}
	JSON(t, "sun_spa_example.json", &example)
	if example.Inputs.Lat != 39.742476 {
		t.Errorf("latitude %v", example.Inputs.Lat)
	}
}

func TestWhatIsWrongIsNamedWithItsPlace(t *testing.T) {
	second := func(t testing.TB) Row { return rowsOf(t, "small.csv", strings.NewReader(small))[1] }
	for want, ask := range map[string]func(testing.TB){
		`small.csv has no column "width", only place, day, count, height`:   func(t testing.TB) { second(t).Text("width") },
		`small.csv, line 4, column place: "nowhere" is not a finite number`: func(t testing.TB) { second(t).Float("place") },
		`small.csv, line 4, column height: "NaN" is not a finite number`:    func(t testing.TB) { second(t).Float("height") },
		`small.csv, line 4, column count: "1.5" is not a whole number`:      func(t testing.TB) { second(t).Int("count") },
		`small.csv, line 4, column day: "spring" is not a day such as 2015`: func(t testing.TB) { second(t).Day("day") },
		"empty.csv has no line that names its columns":                      func(t testing.TB) { rowsOf(t, "empty.csv", strings.NewReader("")) },
		"header.csv has no rows":                              func(t testing.TB) { rowsOf(t, "header.csv", strings.NewReader("a,b\n")) },
		"short.csv: record on line 2: wrong number of fields": func(t testing.TB) { rowsOf(t, "short.csv", strings.NewReader("a,b\n1\n")) },
		"missing.csv":                      func(t testing.TB) { Table(t, "missing.csv") },
		"missing.json":                     func(t testing.TB) { JSON(t, "missing.json", new(any)) },
		"sun_polar.csv: invalid character": func(t testing.TB) { JSON(t, "sun_polar.csv", new(any)) },
	} {
		if said := saidAtTheEnd(t, ask); !strings.Contains(said, want) {
			t.Errorf("the test ends with %q, want %q", said, want)
		}
	}
}

// A watched test keeps what it ends with; everything else is the real one's.
type watched struct {
	testing.TB
	said string
}

func (w *watched) Fatal(args ...any) {
	w.said = fmt.Sprint(args...)
	runtime.Goexit()
}

func (w *watched) Fatalf(format string, args ...any) { w.Fatal(fmt.Sprintf(format, args...)) }

// saidAtTheEnd gives what a test ends with, "" where it goes through.
func saidAtTheEnd(t *testing.T, test func(testing.TB)) string {
	w := &watched{TB: t}
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		test(w)
	}()
	<-ended
	return w.said
}
