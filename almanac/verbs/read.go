package verbs

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"strings"
)

// read judges an input before its verb sees it: one JSON object, no unknown
// field, none missing, none of the wrong type.
func read(text []byte, into any) error {
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(text, &fields); err != nil || fields == nil {
		return fmt.Errorf("the input is not one JSON object%s", where(text, err))
	}
	if err := required(fields, reflect.TypeOf(into).Elem()); err != nil {
		return err
	}
	if err := nulls(text, reflect.TypeOf(into).Elem(), ""); err != nil {
		return err
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(into); err != nil {
		return sentence(err)
	}
	return nil
}

// required names the first field of the type that the input lacks.
func required(fields map[string]json.RawMessage, t reflect.Type) error {
	if t.Kind() != reflect.Struct {
		return nil
	}
	for i := range t.NumField() {
		if t.Field(i).Anonymous {
			if err := required(fields, t.Field(i).Type); err != nil {
				return err
			}
			continue
		}
		name, options, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		optional := t.Field(i).Type.Kind() == reflect.Pointer || strings.Contains(options, "omitempty")
		if _, there := fields[name]; !there && name != "" && name != "-" && !optional {
			return fmt.Errorf("field %q is missing", name)
		}
	}
	return nil
}

// nulls names the first null that stands where a value is wanted; encoding/json
// would read it as 0. Only pointers, lists and raw JSON may be null.
func nulls(text json.RawMessage, t reflect.Type, path string) error {
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
		return nulls(text, t.Elem(), path)
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Array:
		return nullsInList(text, t.Elem(), path)
	case t.Kind() == reflect.Struct:
		return nullsInObject(text, t, path)
	}
	return nil
}

func nullsInList(text json.RawMessage, item reflect.Type, path string) error {
	var items []json.RawMessage
	if json.Unmarshal(text, &items) != nil {
		return nil // of another type: the decoder says so
	}
	for i, one := range items {
		if err := nulls(one, item, fmt.Sprintf("%s[%d]", path, i)); err != nil {
			return err
		}
	}
	return nil
}

func nullsInObject(text json.RawMessage, t reflect.Type, path string) error {
	var fields map[string]json.RawMessage
	if json.Unmarshal(text, &fields) != nil {
		return nil
	}
	for i := range t.NumField() {
		name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
		if one, there := fields[name]; there && name != "" {
			if err := nulls(one, t.Field(i).Type, strings.TrimPrefix(path+"."+name, ".")); err != nil {
				return err
			}
		}
		if t.Field(i).Anonymous && name == "" {
			if err := nullsInObject(text, t.Field(i).Type, path); err != nil {
				return err
			}
		}
	}
	return nil
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
