package verbs

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

func TestEveryExampleIsAnswered(t *testing.T) {
	for _, verb := range All() {
		t.Run(verb.Name, func(t *testing.T) {
			out, err := Run(verb.Name, []byte(verb.Example))
			if err != nil {
				t.Fatal(err)
			}
			var answer map[string]any
			if err := json.Unmarshal(out, &answer); err != nil || len(answer) == 0 {
				t.Errorf("the answer %s is no object (%v)", out, err)
			}
		})
	}
}

func TestVerbsAreInOrder(t *testing.T) {
	for i, verb := range All()[1:] {
		if before := All()[i].Name; before >= verb.Name {
			t.Errorf("%s stands before %s", before, verb.Name)
		}
		if verb.Says == "" || verb.Example == "" {
			t.Errorf("%s has no line or no example for its help", verb.Name)
		}
	}
}

func TestErrorsNameWhatIsWrong(t *testing.T) {
	cases := []struct{ verb, in, want string }{
		{"theil-sen", `{"x":[1,2]}`, `field "y" is missing`},
		{"theil-sen", `{"x":[1,2],"y":[1,2],"z":3}`, `field "z" is not known`},
		{"theil-sen", `{"x":[1,"2"],"y":[1,2]}`, "a number is wanted"},
		{"theil-sen", `{"x":[1,null],"y":[1,2]}`, `field "x[1]" is null where a number is wanted`},
		{"first-flower", `{"kinds":{"k":{"expectedDay":null}},"seasons":{},"flushes":[]}`, `field "kinds.k.expectedDay" is null where a number is wanted`},
		{"first-flower", `{"kinds":{"k":{"expectedDay":9}},"seasons":{},"flushes":[{"planting":"a","kind":"k","after":1,"by":2}]}`, `field "flushes[0].year" is missing`},
		{"first-flower", `{"kinds":{"k":{}},"seasons":{},"flushes":[]}`, `field "kinds.k.expectedDay" is missing`},
		{"interval-mean", `{"intervals":[[120]]}`, `field "intervals[0]" has 1 values where 2 are wanted`},
		{"tie", `{"photo":{"seen":"2015-07-10T09:15:00Z"},"garden":{"planOrigin":{"lat":47.6}},"plantings":[]}`, `field "garden.planOrigin.lon" is missing`},
		{"tie", `{"photo":{"lat":47.6,"lon":-122.3,"seen":"2015-07-10T09:15:00Z"},"garden":{"planOrigin":{"lat":47.6,"lon":-122.3}},"plantings":[{"id":"a","at":[1e300,0]}]}`, "plantings[0] stands at [1e+300 0]"},
		{"growth", `{"kind":{"heightCm":[40,60,80]},"on":"2015-07-10"}`, `field "kind.heightCm" has 3 values where 2 are wanted`},
		{"growth", `{"kind":{"heightCm":[40,60]},"on":"2015-07-10","measures":[{"heightCm":5}]}`, `field "measures[0].day" is missing`},
		{"degree-days", `{"method":"average","baseC":5,"days":[{"minC":1,"maxC":2}]}`, `field "days[0].day" is missing`},
		{"assess", `{"on":null,"records":[]}`, `field "on" is null where a date written YYYY-MM-DD is wanted`},
		{"assess", `{"on":20150710,"records":[]}`, `field "on" is 20150710 where a date written YYYY-MM-DD is wanted`},
		{"theil-sen", `{"x":[1,2],"y":[1]}`, "x has 2 values and y has 1"},
		{"theil-sen", `[1]`, "not one JSON object"},
		{"theil-sen", ``, "not one JSON object"},
		{"theil-sen", "{\n\"x\": [1,\n}", "line 3"},
		{"degree-days", `{"method":"guess","baseC":5,"days":[]}`, `"guess"`},
		{"curve-fit", `{"model":"logistic","x":[1,2],"y":[1,2]}`, "curve-fit"},
		{"assess", `{"records":[]}`, `field "on" is missing`},
		{"assess", `{"on":"10 July","records":[]}`, "YYYY-MM-DD"},
		{"assess", `{"on":"2015-07-10","records":{}}`, `field "records"`},
		{"worth", `{"records":[]}`, `field "on" is missing`},
		{"worth", `{"on":"2015-07-10","records":{}}`, `field "records"`},
		{"picture", `{"on":"2015-07-10","planting":"p","records":[]}`, `planting "p" is not among the records`},
		{"divine", `{}`, `there is no verb "divine"`},
	}
	for _, c := range cases {
		t.Run(c.verb+" "+c.in, func(t *testing.T) {
			out, err := Run(c.verb, []byte(c.in))
			if err == nil {
				t.Fatalf("answered %s", out)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("the error is %q; it should say %q", err, c.want)
			}
		})
	}
	var unknown *UnknownVerbError
	if _, err := Run("divine", nil); !errors.As(err, &unknown) || unknown.Name != "divine" {
		t.Errorf("an unknown verb gives %v", err)
	}
}

func TestAKindMayLackWhatARecordMay(t *testing.T) {
	const in = `{"kind":{"heightCm":[40,60],"bloom":[{"from":"06-01","to":"07-01"}]},"planted":"2010","on":"2015-07-10"}`
	if _, err := Run("growth", []byte(in)); err != nil {
		t.Error(err)
	}
}

func TestAssessPassesOverWhatItCannotRead(t *testing.T) {
	out, err := Run("assess", []byte(`{"on":"2015-07-10","records":[
		{"record":"garden/g","fields":{"lat":51.5,"fromTheFuture":true}},
		{"record":"observation/o","fields":{"planting":"p","seen":"yesterday"}},
		{"record":"ghost/1","fields":{}},
		{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012"}}]}`))
	if err != nil {
		t.Fatal(err)
	}
	var answer struct {
		Skipped []struct{ Record, Why string }
	}
	if err := json.Unmarshal(out, &answer); err != nil {
		t.Fatal(err)
	}
	if len(answer.Skipped) != 2 || answer.Skipped[0].Record != "observation/o" || answer.Skipped[1].Record != "ghost/1" {
		t.Errorf("skipped: %+v", answer.Skipped)
	}
}

func TestAStandingAlmanacAnswersAsTheVerbDoes(t *testing.T) {
	const records = `[{"record":"garden/g","fields":{"lat":51.5,"lon":-2}},
		{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04","identity":"confirmed"}},
		{"record":"observation/o","fields":{"planting":"p","seen":"2015-06-20T09:00:00+01:00","notInFlower":true,"heightCm":70}}]`
	standing, err := NewStanding()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := standing.Upsert([]byte(records)); err != nil {
		t.Fatal(err)
	}
	for _, verb := range []string{"assess", "worth", "picture"} {
		question := map[string]any{"on": "2015-07-10"}
		if verb == "picture" {
			question["planting"] = "p"
		}
		alone, err := json.Marshal(question)
		if err != nil {
			t.Fatal(err)
		}
		question["records"] = json.RawMessage(records)
		whole, err := json.Marshal(question)
		if err != nil {
			t.Fatal(err)
		}
		kept, errKept := standing.Ask(verb, alone)
		run, errRun := Run(verb, whole)
		if errKept != nil || errRun != nil || string(kept) != string(run) {
			t.Errorf("%s: standing %s (%v), by hand %s (%v)", verb, kept, errKept, run, errRun)
		}
	}
	if _, err := standing.Forget([]byte(`["planting/p"]`)); err != nil {
		t.Fatal(err)
	}
	if _, err := standing.Ask("picture", []byte(`{"on":"2015-07-10","planting":"p"}`)); err == nil {
		t.Error("a forgotten planting is still drawn")
	}
}
