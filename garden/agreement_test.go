package garden

import (
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// typed gives an empty typed struct for each kind of record.
func typed() map[RecordKind]func() Decodable {
	return map[RecordKind]func() Decodable{
		GardenRecord:      func() Decodable { return &Garden{} },
		BedRecord:         func() Decodable { return &Bed{} },
		StructureRecord:   func() Decodable { return &Structure{} },
		KindRecord:        func() Decodable { return &Kind{} },
		PlantingRecord:    func() Decodable { return &Planting{} },
		ObservationRecord: func() Decodable { return &Observation{} },
		WorkRecord:        func() Decodable { return &Work{} },
		TaskRecord:        func() Decodable { return &Task{} },
		WeatherRecord:     func() Decodable { return &Weather{} },
		DecisionRecord:    func() Decodable { return &Decision{} },
		DismissalRecord:   func() Decodable { return &Dismissal{} },
	}
}

func TestEveryFieldOfAStructHasItsRule(t *testing.T) {
	for _, kind := range RecordKinds() {
		var names []string
		structure := reflect.TypeOf(typed()[kind]()).Elem()
		for i := range structure.NumField() {
			if field := structure.Field(i); !field.Anonymous {
				names = append(names, field.Tag.Get("json"))
			}
		}
		slices.Sort(names)
		if ruled := slices.Sorted(maps.Keys(schemas[kind])); !slices.Equal(names, ruled) {
			t.Errorf("%s has the fields %v and rules for %v", kind, names, ruled)
		}
	}
}

// oddValues are what may stand in a field: each shape of JSON, right and wrong.
func oddValues() []string {
	plain := []string{`0`, `1`, `-1`, `1.0`, `1e1`, `0.5`, `12`, `1e300`, `1e999`, `true`, `false`, `""`, `"x"`, `"poison"`,
		`"2019"`, `"2019-04"`, `"2019-04-12"`, `"0201-04-12"`, `"02-29"`, `"06-31"`, `"2015-06-02T09:15:00Z"`, `"#a8455a"`,
		`"` + strings.Repeat("0a", 32) + `"`, `{}`, `[]`, `[null]`, `[null,null]`, `[null,5]`, `[1,2]`, `[2,1]`, `[1,2,3]`,
		`[[0,0],[1,null]]`, `[[0,0],[1,1]]`, `{"lat":1,"lon":2}`, `{"lat":1,"lon":null}`, `{"planting":"p","how":"moved"}`}
	values := slices.Clone(plain)
	for _, from := range []string{`null`, `1`, `"06-01"`, `"2019-04-12"`} {
		values = append(values, `{"from":`+from+`,"to":"07-01"}`, `{"from":`+from+`,"to":"2019-05-01"}`, `[{"from":`+from+`,"to":"07-01"}]`,
			`[{"from":`+from+`,"to":"07-01","Needs":5}]`, `[{"what":"leaf","from":`+from+`,"to":"07-01","colours":["#a8455a"]}]`,
			`[{"what":"feed","when":{"from":`+from+`},"everyYears":1.0}]`)
	}
	for _, one := range []string{`null`, `1`, `-5.5`, `"x"`} {
		month := `{"minC":` + one + `,"maxC":9,"rainMm":40}`
		values = append(values, `[`+strings.Repeat(month+`,`, 11)+month+`]`)
	}
	return values
}

func TestWhatCheckAllowsDecodeReads(t *testing.T) {
	allowed := 0
	for _, kind := range RecordKinds() {
		for _, field := range slices.Sorted(maps.Keys(schemas[kind])) {
			for _, value := range oddValues() {
				if Check(kind, field, json.RawMessage(value)) != nil {
					continue
				}
				allowed++
				into := typed()[kind]()
				record := Record{Ref{kind, "x"}, Fields{field: json.RawMessage(value)}}
				if err := Decode(record, into); err != nil {
					t.Errorf("%s.%s = %s is allowed and then: %v", kind, field, value, err)
				} else if again := written(t, into, field); strings.Contains(value, "null") && again != value {
					t.Errorf("%s.%s = %s holds a null and is read as %s", kind, field, value, again)
				}
			}
		}
	}
	if allowed < 300 {
		t.Errorf("only %d odd values were allowed: the test shows little", allowed)
	}
}

// written is one field of a typed struct as JSON.
func written(t *testing.T, from Decodable, field string) string {
	t.Helper()
	text, err := json.Marshal(from)
	if err != nil {
		t.Fatal(err)
	}
	var fields Fields
	if err := json.Unmarshal(text, &fields); err != nil {
		t.Fatal(err)
	}
	return string(fields[field])
}

func TestDecodeTakesNoUnknownFieldForAKnownOne(t *testing.T) {
	var o Observation
	err := Decode(Record{Ref{ObservationRecord, "x"}, Fields{
		"heightCm": json.RawMessage(`84`), "HeightCM": json.RawMessage(`-9`), "id": json.RawMessage(`5`), "STAGE": json.RawMessage(`"tall"`),
	}}, &o)
	if err != nil || *o.HeightCm != 84 || o.ID != "x" || o.Stage != nil {
		t.Errorf("read %+v (%v)", o, err)
	}
}

func TestOfSeveralProblemsTheSameIsNamed(t *testing.T) {
	months := `[` + strings.Repeat(`{"minC":-200,"maxC":-200,"rainMm":-200},`, 11) + `{"minC":1,"maxC":2,"rainMm":3}]`
	for range 50 {
		if err := Check(GardenRecord, "normals", json.RawMessage(months)); err == nil || !strings.HasPrefix(err.Error(), "normals[0].maxC ") {
			t.Fatalf("the problem is %v", err)
		}
	}
}
