package verbs

import (
	"encoding/json"
	"reflect"
	"slices"
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

// Fields lists the fields of a verb's input in the order in which a person would
// write them.
func (v Verb) Fields() []Field { return leaves(v.input, "", saidOf(v.said)) }

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

// leaves lists the fields below an object. Of parts of records, which package
// garden explains, it lists what the table speaks of.
func leaves(t reflect.Type, path string, said map[string]string) []Field {
	var fields []Field
	for _, w := range wantsOf(t) {
		at, inner := opened(w.typ, within(path, w.name))
		below := []Field{}
		if inner.Kind() == reflect.Struct && !isText(inner) {
			below = leaves(inner, at, said)
		}
		if w.record {
			below = slices.DeleteFunc(below, func(f Field) bool { return f.Says == "" })
		}
		switch leaf := (Field{at, wanted(inner), w.optional, said[at]}); {
		case len(below) > 0:
			fields = append(fields, below...)
		case leaf.Says != "" || !w.record:
			fields = append(fields, leaf)
		}
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
