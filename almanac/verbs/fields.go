package verbs

import (
	"encoding/json"
	"reflect"
	"strings"

	"haulm/garden"
)

// A Field is one field of a verb's input, as its help shows it.
type Field struct {
	Path     string // "days[].minC": in each item of a list; "kinds.*.sdDays": under each name
	Wanted   string // "a number"
	Optional bool
	Says     string // what it means, its unit and its bounds
}

// fieldsOf lists an input's fields in the order in which a person would write
// them; said is what the table says of each.
func fieldsOf(t reflect.Type, said map[string]string) []Field {
	fields := leaves(t, "")
	for i := range fields {
		fields[i].Says = said[fields[i].Path]
	}
	return fields
}

// saidOf reads what the table says of a verb's fields: a line each, the path
// first.
func saidOf(text string) map[string]string {
	said := map[string]string{}
	for line := range strings.Lines(text) {
		if path, says, found := strings.Cut(strings.TrimSpace(line), " "); found {
			said[path] = strings.TrimSpace(says)
		}
	}
	return said
}

// leaves lists the fields below an object. Parts of records are not taken
// apart: package garden says what is in them.
func leaves(t reflect.Type, path string) []Field {
	var fields []Field
	for _, w := range wantsOf(t) {
		at, inner := opened(w.typ, within(path, w.name))
		if inner.Kind() == reflect.Struct && !isText(inner) && !isRecord(inner) {
			fields = append(fields, leaves(inner, at)...)
			continue
		}
		fields = append(fields, Field{Path: at, Wanted: wanted(inner), Optional: w.optional})
	}
	return fields
}

// opened goes through pointers, lists and maps to what is in them. A list of
// fixed length is a value.
func opened(t reflect.Type, path string) (string, reflect.Type) {
	switch {
	case t == reflect.TypeFor[json.RawMessage]() || t == reflect.TypeFor[garden.Outline]():
		return path, t
	case t.Kind() == reflect.Pointer:
		return opened(t.Elem(), path)
	case t.Kind() == reflect.Slice:
		return opened(t.Elem(), path+"[]")
	case t.Kind() == reflect.Map:
		return opened(t.Elem(), path+".*")
	}
	return path, t
}
