package verbs

import (
	"encoding/json"
	"reflect"
	"strings"

	"haulm/almanac/sun"
	"haulm/garden"
)

// A want is one field that a type takes from JSON.
type want struct {
	name     string
	typ      reflect.Type
	optional bool
	record   bool // a part of a record
}

// wantsOf lists the fields of a struct, those of embedded ones among them. A
// pointer, a field marked omitempty and any part of a record may be left out.
func wantsOf(t reflect.Type) []want {
	var wants []want
	for i := range t.NumField() {
		field := t.Field(i)
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		switch {
		case field.Anonymous && name == "":
			wants = append(wants, wantsOf(field.Type)...)
		case field.IsExported() && name != "" && name != "-":
			optional := field.Type.Kind() == reflect.Pointer || strings.Contains(options, "omitempty") || isRecord(t)
			wants = append(wants, want{name, field.Type, optional, isRecord(t)})
		}
	}
	return wants
}

func find(wants []want, name string) (want, bool) {
	for _, w := range wants {
		if w.name == name {
			return w, true
		}
	}
	return want{}, false
}

// isRecord tells the types of package garden, which are parts of records and may
// lack any field; but a place always has both its numbers.
func isRecord(t reflect.Type) bool {
	return t.PkgPath() == reflect.TypeFor[garden.Kind]().PkgPath() && t != reflect.TypeFor[garden.Place]()
}

// wanted says in words what a type takes.
func wanted(t reflect.Type) string {
	switch t {
	case reflect.TypeFor[garden.Day]():
		return "a date written YYYY-MM-DD"
	case reflect.TypeFor[garden.PartialDate]():
		return "a date written YYYY, YYYY-MM or YYYY-MM-DD"
	case reflect.TypeFor[sun.ShadeMonth]():
		return "a month written YYYY-MM"
	case reflect.TypeFor[garden.MonthDay]():
		return "a day of the year written MM-DD"
	case reflect.TypeFor[json.RawMessage]():
		return "JSON"
	}
	switch t.Kind() {
	case reflect.Pointer:
		return wanted(t.Elem())
	case reflect.Float64, reflect.Float32:
		return "a number"
	case reflect.Int, reflect.Int32, reflect.Int64:
		return "a whole number"
	case reflect.Uint, reflect.Uint64:
		return "a whole number from 0"
	case reflect.Bool:
		return "true or false"
	case reflect.String:
		return "a text"
	case reflect.Slice, reflect.Array:
		return "a list"
	default:
		return "an object"
	}
}

// longestShown is how many characters of a wrong value are said back: enough to
// find it by.
const longestShown = 40

// shown is a JSON value as an error says it: numbers and texts as written,
// others by what they are.
func shown(text json.RawMessage) string {
	switch {
	case len(text) > 0 && text[0] == '[':
		return "a list"
	case len(text) > 0 && text[0] == '{':
		return "an object"
	}
	value := []rune(string(text[:min(len(text), 4*longestShown)]))
	if len(value) > longestShown {
		return string(value[:longestShown]) + "…"
	}
	return string(value)
}
