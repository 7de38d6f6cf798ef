package verbs

import (
	"bytes"
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"

	"haulm/garden"
)

// judge names the first place where a value is not what the verb's type wants.
func judge(text json.RawMessage, t reflect.Type, at *spot) error {
	if string(text) == "null" {
		return judgeNull(t, at)
	}
	switch {
	case t == reflect.TypeFor[json.RawMessage]():
		return nil
	case t.Kind() == reflect.Pointer:
		return judge(text, t.Elem(), at)
	case isText(t):
		return judgeText(text, t, at)
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Array:
		return judgeList(text, t, at)
	case t.Kind() == reflect.Map:
		return judgeMap(text, t.Elem(), at)
	case t.Kind() == reflect.Struct:
		return judgeObject(text, t, at)
	}
	return judgeLeaf(text, t, at)
}

func judgeNull(t reflect.Type, at *spot) error {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Map, reflect.Interface:
		return nil
	}
	return fmt.Errorf("field %q is null where %s is wanted", at, wanted(t))
}

// judgeLeaf reads numbers, of which there may be very many, the short way.
func judgeLeaf(text json.RawMessage, t reflect.Type, at *spot) error {
	if t.Kind() == reflect.Float64 && text[0] != '"' {
		if _, err := strconv.ParseFloat(string(text), 64); err != nil {
			return wrongType(text, t, at)
		}
		return nil
	}
	if json.Unmarshal(text, reflect.New(t).Interface()) != nil {
		return wrongType(text, t, at)
	}
	return nil
}

func wrongType(text json.RawMessage, t reflect.Type, at *spot) error {
	return fmt.Errorf("field %q is %s where %s is wanted", at, shown(text), wanted(t))
}

// isText tells the types that stand in JSON as a text of their own, such as
// dates.
func isText(t reflect.Type) bool {
	return reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]())
}

func judgeText(text json.RawMessage, t reflect.Type, at *spot) error {
	value := reflect.New(t)
	if json.Unmarshal(text, value.Interface()) != nil {
		return wrongType(text, t, at)
	}
	var first, last garden.Day
	switch date := value.Elem().Interface().(type) {
	case garden.Day:
		first, last = date, date
	case garden.PartialDate:
		first, last = date.First, date.Last
	default:
		return nil
	}
	if !garden.InYears(first) || !garden.InYears(last) {
		return fmt.Errorf("field %q is %s, outside the years %d to %d: check the year", at, shown(text), garden.FirstYear, garden.LastYear)
	}
	return nil
}

func judgeList(text json.RawMessage, t reflect.Type, at *spot) error {
	var items []json.RawMessage
	if json.Unmarshal(text, &items) != nil {
		return wrongType(text, t, at)
	}
	if t.Kind() == reflect.Array && len(items) != t.Len() {
		return fmt.Errorf("field %q has %d values where %d are wanted", at, len(items), t.Len())
	}
	for i, one := range items {
		if err := judge(one, t.Elem(), &spot{up: at, index: i}); err != nil {
			return err
		}
	}
	return nil
}

func judgeMap(text json.RawMessage, item reflect.Type, at *spot) error {
	members, err := membersOf(text, at)
	if err != nil {
		return err
	}
	for _, member := range members {
		if err := judge(member.value, item, &spot{up: at, name: member.name}); err != nil {
			return err
		}
	}
	return nil
}

func judgeObject(text json.RawMessage, t reflect.Type, at *spot) error {
	members, err := membersOf(text, at)
	if err != nil {
		return err
	}
	wants := wantsOf(t)
	there := make(map[string]bool, len(members))
	for _, member := range members {
		want, known := find(wants, member.name)
		if !known {
			return fmt.Errorf("field %q is not known here", (&spot{up: at, name: member.name}).String())
		}
		if err := judge(member.value, want.typ, &spot{up: at, name: member.name}); err != nil {
			return err
		}
		there[member.name] = true
	}
	for _, want := range wants {
		if !want.optional && !there[want.name] {
			return fmt.Errorf("field %q is missing", (&spot{up: at, name: want.name}).String())
		}
	}
	return nil
}

// A member is one field of a JSON object as written.
type member struct {
	name  string
	value json.RawMessage
}

// membersOf lists an object's fields in the order written.
func membersOf(text json.RawMessage, at *spot) ([]member, error) {
	decoder := json.NewDecoder(bytes.NewReader(text))
	if open, err := decoder.Token(); err != nil || open != json.Delim('{') {
		return nil, wrongType(text, reflect.TypeFor[struct{}](), at)
	}
	var members []member
	seen := map[string]bool{}
	for decoder.More() {
		key, err := decoder.Token()
		if err != nil {
			return nil, err
		}
		name, _ := key.(string)
		if seen[name] {
			return nil, fmt.Errorf("field %q is there twice", (&spot{up: at, name: name}).String())
		}
		var value json.RawMessage
		if err := decoder.Decode(&value); err != nil {
			return nil, err
		}
		seen[name] = true
		members = append(members, member{name, value})
	}
	return members, nil
}
