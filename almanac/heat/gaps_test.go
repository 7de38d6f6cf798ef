package heat

import (
	"encoding/json"
	"strings"
	"testing"

	"haulm/garden"
)

func on(text string) garden.Day {
	day, err := garden.ParseDay(text)
	if err != nil {
		panic(err)
	}
	return day
}

func known(text string, minC, maxC float64) Day { return Day{on(text), &minC, &maxC} }

func TestShortGapsAreFilledAndLongOnesNamed(t *testing.T) {
	out, err := DegreeDays(Input{Scale{Method: Average, BaseC: 5}, []Day{
		{Day: on("2026-03-01")},                                               // nothing before it: missing
		known("2026-03-02", 4, 10),                                            // 2
		known("2026-03-06", 8, 18),                                            // 8; three days filled with 6 and 14, 5 each
		known("2026-03-11", 6, 16), {Day: on("2026-03-09"), MinC: pointer(3)}, // 6; four days missing
	}})
	if err != nil {
		t.Fatal(err)
	}
	got, err := json.Marshal(out)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"daily":[null,2,5,5,5,8,null,null,null,null,6],"total":31,` +
		`"filled":["2026-03-03","2026-03-04","2026-03-05"],` +
		`"missing":["2026-03-01","2026-03-07","2026-03-08","2026-03-09","2026-03-10"]}`
	if string(got) != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestNoDaysIsNoHeat(t *testing.T) {
	out, err := DegreeDays(Input{Scale{Method: SingleSine, BaseC: 5}, nil})
	if got, _ := json.Marshal(out); err != nil || string(got) != `{"daily":[],"total":0,"filled":[],"missing":[]}` {
		t.Errorf("got %s, %v", got, err)
	}
}

func TestErrorsNameWhatIsWrong(t *testing.T) {
	for name, c := range map[string]struct {
		in   Input
		want string
	}{
		"method":          {Input{Scale{Method: "double-sine"}, nil}, `method "double-sine" is not known`},
		"upper too low":   {Input{Scale{Average, 10, pointer(10)}, nil}, "upperC 10 must be above baseC 10"},
		"base":            {Input{Scale{Average, 500, nil}, nil}, "baseC 500 is outside"},
		"order":           {Input{Scale{Method: Average}, []Day{known("2026-03-01", 9, 2)}}, "minC 9 is above maxC 2 on 2026-03-01"},
		"hot":             {Input{Scale{Method: Average}, []Day{known("2026-03-01", 9, 451)}}, "451 on 2026-03-01 is outside"},
		"twice":           {Input{Scale{Method: Average}, []Day{known("2026-03-01", 1, 2), known("2026-03-01", 1, 2)}}, "2026-03-01 twice"},
		"a mistyped year": {Input{Scale{Method: Average}, []Day{known("2026-03-01", 1, 2), known("0206-03-02", 1, 2)}}, "longer than two centuries"},
	} {
		if _, err := DegreeDays(c.in); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", name, err, c.want)
		}
	}
}

func pointer(x float64) *float64 { return &x }
