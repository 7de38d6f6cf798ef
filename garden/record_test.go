package garden

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
)

func TestCheckNamesFieldValueAndBound(t *testing.T) {
	cases := []struct {
		kind                      RecordKind
		field, value, code, bound string
	}{
		{ObservationRecord, "stage", `140`, "invalid_stage", "0 to 99"},
		{ObservationRecord, "stage", `61.5`, "invalid_stage", "whole"},
		{ObservationRecord, "heightCm", `-1`, "invalid_height_cm", "0 to 5000"},
		{ObservationRecord, "seen", `"2026-06-02"`, "invalid_seen", "RFC 3339"},
		{ObservationRecord, "signs", `["slug","dragon"]`, "invalid_signs", "one of"},
		{ObservationRecord, "photos", `["../../etc/passwd"]`, "invalid_photos", "64 hexadecimal"},
		{PlantingRecord, "planted", `"2026-13"`, "invalid_planted", "YYYY"},
		{PlantingRecord, "at", `[1]`, "invalid_at", "[x, y]"},
		{PlantingRecord, "identity", `"sure"`, "invalid_identity", "confirmed"},
		{BedRecord, "irrigated", `"yes"`, "invalid_irrigated", "true or false"},
		{BedRecord, "outline", `[[0,0],[1]]`, "invalid_outline", "[x, y]"},
		{GardenRecord, "lat", `91`, "invalid_lat", "-90 to 90"},
		{GardenRecord, "normals", `[]`, "invalid_normals", "twelve"},
		{WeatherRecord, "minC", `-200`, "invalid_min_c", "-90 to 60"},
		{KindRecord, "heightCm", `[90,60]`, "invalid_height_cm", "lesser first"},
		{KindRecord, "bloom", `[{"from":"06-31","to":"07-10"}]`, "invalid_bloom", "MM-DD"},
		{KindRecord, "bloom", `[{"to":"07-10"}]`, "invalid_bloom", "from, to"},
		{TaskRecord, "due", `{"from":"2026-05-01"}`, "invalid_due", "from, to"},
	}
	for _, c := range cases {
		t.Run(string(c.kind)+"."+c.field+"="+c.value, func(t *testing.T) {
			var p *Problem
			if err := Check(c.kind, c.field, json.RawMessage(c.value)); !errors.As(err, &p) {
				t.Fatalf("allowed; error %v", err)
			}
			if p.Code != c.code || !strings.Contains(p.Bound, c.bound) || !strings.HasPrefix(p.Field, c.field) {
				t.Errorf("code %q, field %q, bound %q; want %q, %q, one with %q", p.Code, p.Field, p.Bound, c.code, c.field, c.bound)
			}
		})
	}
}

func TestCheckAllows(t *testing.T) {
	cases := []struct {
		kind         RecordKind
		field, value string
	}{
		{ObservationRecord, "stage", `0`},
		{ObservationRecord, "stage", `99`},
		{ObservationRecord, "stage", `null`},
		{ObservationRecord, "fromTheFuture", `{"any":"thing"}`},
		{ObservationRecord, "seen", `"2015-06-02T09:15:00.5-07:00"`},
		{PlantingRecord, "planted", `"2019"`},
		{PlantingRecord, "area", `[[0,0],[1.5,0],[1,2]]`},
		{GardenRecord, "timeZone", `"America/Argentina/Buenos_Aires"`},
		{KindRecord, "bloom", `[{"from":"12-10","to":"02-20","needs":""}]`},
	}
	for _, c := range cases {
		if err := Check(c.kind, c.field, json.RawMessage(c.value)); err != nil {
			t.Errorf("%s.%s = %s: %v", c.kind, c.field, c.value, err)
		}
	}
}

func TestEveryKindHasRules(t *testing.T) {
	for _, kind := range RecordKinds() {
		if len(schemas[kind]) == 0 {
			t.Errorf("%s has no rules", kind)
		}
	}
	if len(schemas) != len(RecordKinds()) {
		t.Errorf("%d schemas for %d kinds", len(schemas), len(RecordKinds()))
	}
}

func TestDecodeGivesTheIDAndKeepsWhatItKnows(t *testing.T) {
	ref, err := ParseRef("observation/0192-a")
	if err != nil {
		t.Fatal(err)
	}
	var o Observation
	err = Decode(Record{ref, Fields{
		"planting": json.RawMessage(`"p1"`), "seen": json.RawMessage(`"2015-06-02T23:30:00-07:00"`),
		"stage": json.RawMessage(`61`), "heightCm": json.RawMessage(`null`), "newer": json.RawMessage(`[1]`),
	}}, &o)
	if err != nil {
		t.Fatal(err)
	}
	day, err := o.Day()
	if o.ID != "0192-a" || *o.Stage != 61 || o.HeightCm != nil || err != nil || day.String() != "2015-06-02" {
		t.Errorf("got %+v seen on %v (%v)", o, day, err)
	}
}

func TestRefs(t *testing.T) {
	for _, good := range []string{"garden/g", "planting/0192f0c1-7b7a-7c3e-8f00-0123456789ab", "work/task/p.deadhead.2026-06-01"} {
		ref, err := ParseRef(good)
		if err != nil || ref.String() != good {
			t.Errorf("%s: %v, %v", good, ref, err)
		}
	}
	for _, bad := range []string{"", "planting", "planting/", "ghost/1", "bed/a b", "bed/../x", "bed//x", "bed/./x", "bed/x/", "bed/" + strings.Repeat("x", 161), "bed/é"} {
		if ref, err := ParseRef(bad); err == nil {
			t.Errorf("%q was read as %v", bad, ref)
		}
	}
}

func TestDates(t *testing.T) {
	for text, want := range map[string][2]string{
		"2019":       {"2019-01-01", "2019-12-31"},
		"2020-02":    {"2020-02-01", "2020-02-29"},
		"2019-04-12": {"2019-04-12", "2019-04-12"},
	} {
		p, err := ParsePartialDate(text)
		if err != nil || p.First.String() != want[0] || p.Last.String() != want[1] || p.String() != text {
			t.Errorf("%s: %v to %v, written %q (%v)", text, p.First, p.Last, p, err)
		}
	}
	if d := DayOf(1969, 12, 31); d != -1 || d.String() != "1969-12-31" {
		t.Errorf("the day before the first is %d, %v", d, d)
	}
	if leap, _ := ParseMonthDay("02-29"); leap.In(2015) != DayOf(2015, 3, 1) || leap.In(2016).OfYear() != 60 {
		t.Errorf("29 February is %v in 2015 and %v in 2016", leap.In(2015), leap.In(2016))
	}
}

func TestTextsWithEscapesAreReadAsJSONReadsThem(t *testing.T) {
	for _, value := range []string{`"a"`, `"a\"b"`, `"\u00e9"`, `"line\nline"`, `"é"`, `""`} {
		var want string
		if err := json.Unmarshal([]byte(value), &want); err != nil {
			t.Fatal(err)
		}
		if got, ok := asString(json.RawMessage(value)); !ok || got != want {
			t.Errorf("%s is read as %q, %v; want %q", value, got, ok, want)
		}
	}
	for _, value := range []string{`"`, `5`, `null`, `["a"]`, `"a" "b"`} {
		if got, ok := asString(json.RawMessage(value)); ok {
			t.Errorf("%s is read as the text %q", value, got)
		}
	}
}
