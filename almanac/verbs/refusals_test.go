package verbs

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// Every verb refuses every kind of wrong input in a sentence that says what is
// wrong, and where.
func TestWrongInputsAreRefusedByName(t *testing.T) {
	for _, verb := range All() {
		example := verb.Example
		cases := []struct{ name, in, says string }{
			{"empty", ``, "it is empty"},
			{"blank", " \n\t", "it is empty"},
			{"not JSON", `lat=51.5`, "invalid character 'l'"},
			{"cut short", example[:len(example)-1], "before it is whole"},
			{"two objects", example + "\n" + example, "an object follows it in line 2"},
			{"a list", `[` + example + `]`, "it is a list"},
			{"a text", `"` + verb.Name + `"`, `it is "` + verb.Name + `"`},
			{"null", `null`, "it is null"},
			{"no number", strings.Replace(example, ":", ":NaN,\"a\":", 1), "invalid character 'N'"},
			{"an unknown field", `{"unheardOf":1,` + example[1:], `field "unheardOf" is not known here`},
			{"a field of another case", strings.Replace(example, `"`, `"X`, 1), "is not known here"},
		}
		for _, c := range cases {
			t.Run(verb.Name+" "+c.name, func(t *testing.T) { refuses(t, verb.Name, c.in, c.says) })
		}
	}
}

// Every field of every verb: of another type, a text that reads NaN where a
// number is wanted, twice, a year that was mistyped, and missing where it must
// be there.
func TestWrongFieldsAreRefusedByName(t *testing.T) {
	tried := map[string]int{}
	for _, verb := range All() {
		for _, field := range verb.Fields() {
			for _, wrong := range wrongFor(field) {
				in, there := withValue(t, verb.Example, field.Path, wrong.value)
				if !there || field.Wanted == "JSON" {
					continue
				}
				tried[wrong.name]++
				t.Run(verb.Name+" "+field.Path+" "+wrong.name, func(t *testing.T) {
					refuses(t, verb.Name, string(in), `field "`+exactly(field.Path)+``, wrong.says)
				})
			}
			if top := !strings.ContainsAny(field.Path, ".["); top && !field.Optional {
				tried["missing"]++
				t.Run(verb.Name+" "+field.Path+" missing", func(t *testing.T) {
					refuses(t, verb.Name, without(t, verb.Example, field.Path), fmt.Sprintf("field %q is missing", field.Path))
				})
			}
		}
	}
	for _, name := range []string{"of another type", "NaN", "an old year", "a far year", "too large for a number", "missing"} {
		if tried[name] < 10 {
			t.Errorf("only %d fields were tried with %s", tried[name], name)
		}
	}
}

type wrongValue struct {
	name  string
	value any
	says  string
}

func wrongFor(field Field) []wrongValue {
	wrong := []wrongValue{{"of another type", map[string]any{"a": 1}, "is an object where " + field.Wanted + " is wanted"}}
	if field.Wanted == "an object" {
		wrong[0] = wrongValue{"of another type", true, "is true where an object is wanted"}
	}
	switch {
	case field.Wanted == "a number":
		wrong = append(wrong, wrongValue{"NaN", "NaN", `is "NaN" where a number is wanted`},
			wrongValue{"too large for a number", json.RawMessage("1e999"), "is 1e999 where a number is wanted"})
	case strings.HasPrefix(field.Wanted, "a whole number"):
		wrong = append(wrong, wrongValue{"NaN", "NaN", `is "NaN" where a whole number`}, wrongValue{"a fraction", 1.5, "is 1.5 where a whole number"})
	case strings.HasPrefix(field.Wanted, "a month"):
		wrong = append(wrong, wrongValue{"a month that is none", "2015-13", `is "2015-13" where a month written YYYY-MM`})
	case strings.HasPrefix(field.Wanted, "a date"):
		wrong = append(wrong, wrongValue{"an old year", "1499-12-31", "outside the years 1500 to 2200"},
			wrongValue{"a far year", "2201-01-01", "outside the years 1500 to 2200"},
			wrongValue{"a day that is none", "2015-02-29", `is "2015-02-29" where a date`})
	}
	return wrong
}

// exactly is a path as it stands in an error about the first item of each list
// and the first name of each map, up to where that is certain.
func exactly(path string) string {
	before, _, _ := strings.Cut(strings.ReplaceAll(path, "[]", "[0]"), "*")
	return before
}

func without(t *testing.T, example, name string) string {
	t.Helper()
	var fields map[string]any
	if err := json.Unmarshal([]byte(example), &fields); err != nil {
		t.Fatal(err)
	}
	delete(fields, name)
	in, err := json.Marshal(fields)
	if err != nil {
		t.Fatal(err)
	}
	return string(in)
}

func refuses(t *testing.T, verb, in string, says ...string) {
	t.Helper()
	out, err := Run(verb, []byte(in))
	if err == nil {
		t.Fatalf("%.200s is answered: %.200s", in, out)
	}
	for _, piece := range says {
		if !strings.HasPrefix(err.Error(), verb+": ") || !strings.Contains(err.Error(), piece) {
			t.Errorf("the error is %q; it should say %q", err, piece)
		}
	}
}

// More than a verb reckons within a second is refused with how many it takes.
func TestSizesAreRefusedByName(t *testing.T) {
	many := func(n int, one string) string { return strings.Repeat(one+",", n-1) + one }
	cases := []struct{ verb, in, says string }{
		{"curve-fit", `{"model":"logistic","x":[` + many(20001, "1") + `],"y":[` + many(20001, "1") + `]}`, "20000"},
		{"theil-sen", `{"x":[` + many(100001, "1") + `],"y":[` + many(100001, "1") + `]}`, "100000"},
		{"first-flower", `{"kinds":{"k":{"expectedDay":9}},"seasons":{},"flushes":[` + flushes(6001, 1) + `]}`, "flushes has 6001 items, more than 6000"},
		{"first-flower", `{"kinds":{"k":{"expectedDay":9}},"seasons":{},"flushes":[` + flushes(45, 130) + `]}`, "flushes has 5850 items over"},
		{"first-flower", `{"kinds":{"k":{"expectedDay":9}},"seasons":{},"flushes":[` + flushes(1, 900) + `]}`, "at most 300"},
		{"growth", `{"kind":{"heightCm":[40,60]},"on":"2015-07-10","measures":[` + many(10001, `{"day":"2015-07-01"}`) + `]}`, "10000"},
		{"growth", `{"kind":{"heightCm":[40,60]},"on":"2015-07-10","work":[` + many(2001, `{"day":"2015-07-01","what":"pruned"}`) + `]}`, "2000"},
	}
	for _, c := range cases {
		t.Run(c.verb+" "+c.says, func(t *testing.T) { refuses(t, c.verb, c.in, c.says) })
	}
}

func flushes(plantings, years int) string {
	var list strings.Builder
	for p := range plantings {
		for y := range years {
			fmt.Fprintf(&list, `,{"planting":"p%d","kind":"k","year":%d}`, p, 1500+y)
		}
	}
	return list.String()[1:]
}

// What one verb alone can be asked wrongly.
func TestWhatAVerbAloneRefuses(t *testing.T) {
	cases := []struct{ verb, in, says string }{
		{"assess", `{"on":"2015-07-10","on":"2015-07-11","records":[]}`, `field "on" is there twice`},
		{"assess", `{"on":"2015-07-10","records":{}}`, `field "records" is an object where a list of records is wanted`},
		{"backfill", `{"holeWidthCm":30,"holeDepthCm":20,"ballL":400}`, "ballL 400"},
		{"curve-fit", `{"model":"cubic","x":[1,2,3,4,5],"y":[1,2,3,4,5]}`, `model "cubic"`},
		{"curve-fit", `{"model":"logistic","x":[1,2],"y":[1,2]}`, "2 points are too few"},
		{"day", `{"lat":51.5,"lon":0,"day":"2026-06-21","timeZone":"Mars/Olympus"}`, "Mars/Olympus"},
		{"day", `{"lat":51.5,"lon":0,"day":"1899-06-21","timeZone":"Z"}`, "1900"},
		{"degree-days", `{"method":"guess","baseC":5,"days":[]}`, `method "guess"`},
		{"degree-days", `{"method":"average","baseC":5,"upperC":4,"days":[]}`, "upperC 4"},
		{"evapotranspiration", `{"method":"penman-monteith","lat":47,"days":[]}`, "altitudeM is missing"},
		{"first-flower", `{"kinds":{},"seasons":{},"flushes":[{"planting":"a","kind":"k","year":2015}]}`, `kind "k" is not among kinds`},
		{"first-flower", `{"kinds":{"k":{"expectedDay":9}},"seasons":{"MMXV":{"meanDays":1}},"flushes":[]}`, `"MMXV" is not a year`},
		{"growth", `{"kind":{"heightCm":[400,60]},"on":"2015-07-10"}`, "kind.heightCm [400 60]"},
		{"height-from-photo", `{"caneCm":100,"caneTop":[1,5],"caneFoot":[1,9],"plantTop":[4,1],"plantFoot":[4,9]}`, "caneTop and caneFoot"},
		{"interval-mean", `{"intervals":[[130,120],[1,2]]}`, "intervals[0]: 130 is after 120"},
		{"mulch", `{"depthCm":5}`, "areaM2"},
		{"picture", `{"on":"2015-07-10","planting":"p","records":[]}`, `planting "p" is not among the records`},
		{"shade", `{"garden":{"lat":51,"lon":0},"structures":[],"point":[0,0]}`, "day"},
		{"simulate", `{"seed":1,"plantings":1,"years":1,"breaks":["legs"]}`, `"legs"`},
		{"soil-water", `{"soil":"moon dust","rootM":1,"kc":1,"depletionFraction":0.5,"days":[]}`, `"moon dust"`},
		{"spacing", `{"areaM2":1,"spacingCm":30,"pattern":"spiral"}`, `pattern "spiral"`},
		{"suit", `{"spot":{},"kinds":["no-such-kind"]}`, "no-such-kind"},
		{"sun", `{"lat":51.5,"lon":0,"at":"noon"}`, `"noon"`},
		{"theil-sen", `{"x":[1,2],"y":[1]}`, "x has 2 values and y has 1"},
		{"theil-sen", `{"x":[1,1],"y":[1,2]}`, "two points with different x"},
		{"tie", `{"photo":{"seen":"yesterday"},"garden":{},"plantings":[]}`, `photo.seen "yesterday"`},
		{"worth", `{"on":"2015-07-10","records":"none"}`, `field "records" is "none" where a list of records is wanted`},
		{"water", `{"kind":{},"on":"2015-07-10","lat":47,"soil":"moon dust","days":[]}`, `"moon dust"`},
	}
	asked := map[string]bool{}
	for _, c := range cases {
		asked[c.verb] = true
		t.Run(c.verb+" "+c.in, func(t *testing.T) { refuses(t, c.verb, c.in, c.says) })
	}
	for _, verb := range All() {
		if !asked[verb.Name] && verb.Name != "length" {
			t.Errorf("%s is asked nothing wrong here", verb.Name)
		}
	}
}
