package verbs

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"haulm/garden"
)

// read judges an input before its verb sees it: one JSON object, no unknown
// field, none missing, none of the wrong type.
func read(text []byte, into any) error {
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(text, &fields); err != nil || fields == nil {
		return fmt.Errorf("the input is not one JSON object%s", where(text, err))
	}
	if err := complete(text, reflect.TypeOf(into).Elem(), ""); err != nil {
		return err
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(into); err != nil {
		return sentence(err)
	}
	return nil
}

// complete names the first place where a value is missing or null that is wanted,
// or where a list of fixed length has another: encoding/json would read 0 there.
// What is of another type altogether is left to the decoder.
func complete(text json.RawMessage, t reflect.Type, path string) error {
	if string(bytes.TrimSpace(text)) == "null" {
		switch t.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Map, reflect.Interface:
			return nil
		}
		return fmt.Errorf("field %q is null where %s is wanted", path, wanted(t))
	}
	switch {
	case t == reflect.TypeFor[json.RawMessage]():
		return nil
	case t.Kind() == reflect.Pointer:
		return complete(text, t.Elem(), path)
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Array:
		return completeList(text, t, path)
	case t.Kind() == reflect.Map:
		return completeMap(text, t.Elem(), path)
	case t.Kind() == reflect.Struct:
		return completeObject(text, t, path)
	}
	return nil
}

func completeList(text json.RawMessage, t reflect.Type, path string) error {
	var items []json.RawMessage
	if json.Unmarshal(text, &items) != nil {
		return nil
	}
	if t.Kind() == reflect.Array && len(items) != t.Len() {
		return fmt.Errorf("field %q has %d values where %d are wanted", path, len(items), t.Len())
	}
	for i, one := range items {
		if err := complete(one, t.Elem(), fmt.Sprintf("%s[%d]", path, i)); err != nil {
			return err
		}
	}
	return nil
}

func completeMap(text json.RawMessage, item reflect.Type, path string) error {
	var items map[string]json.RawMessage
	if json.Unmarshal(text, &items) != nil {
		return nil
	}
	for _, name := range slices.Sorted(maps.Keys(items)) {
		if err := complete(items[name], item, path+"."+name); err != nil {
			return err
		}
	}
	return nil
}

func completeObject(text json.RawMessage, t reflect.Type, path string) error {
	var fields map[string]json.RawMessage
	if json.Unmarshal(text, &fields) != nil {
		return nil
	}
	for i := range t.NumField() {
		field := t.Field(i)
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		place := strings.TrimPrefix(path+"."+name, ".")
		one, there := fields[name]
		var err error
		switch {
		case field.Anonymous:
			err = completeObject(text, field.Type, path)
		case there:
			err = complete(one, field.Type, place)
		case field.Type.Kind() != reflect.Pointer && !strings.Contains(options, "omitempty") && !isRecord(t):
			err = fmt.Errorf("field %q is missing", place)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// isRecord tells the types of package garden, which are parts of records and may
// lack any field; but a place always has both its numbers.
func isRecord(t reflect.Type) bool {
	return t.PkgPath() == reflect.TypeFor[garden.Kind]().PkgPath() && t != reflect.TypeFor[garden.Place]()
}

// sentence says what encoding/json found in words for a person.
func sentence(err error) error {
	var wrong *json.UnmarshalTypeError
	if errors.As(err, &wrong) {
		return fmt.Errorf("field %q is a %s where %s is wanted", wrong.Field, wrong.Value, wanted(wrong.Type))
	}
	if name, found := strings.CutPrefix(err.Error(), "json: unknown field "); found {
		return fmt.Errorf("field %s is not known here", name)
	}
	return errors.New(strings.TrimPrefix(err.Error(), "json: "))
}

func wanted(t reflect.Type) string {
	if reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
		return "a date"
	}
	switch t.Kind() {
	case reflect.Float64, reflect.Float32:
		return "a number"
	case reflect.Int, reflect.Int32, reflect.Int64:
		return "a whole number"
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

func where(text []byte, err error) string {
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		line := 1 + bytes.Count(text[:min(int(syntax.Offset), len(text))], []byte("\n"))
		return fmt.Sprintf(": %s in line %d", strings.TrimPrefix(syntax.Error(), "json: "), line)
	}
	return ""
}
