package garden

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
)

// Fields is what a record says: each field's JSON under its name. Fields that
// this program does not know are kept as they came.
type Fields map[string]json.RawMessage

// A Record is one thing of a garden as every reader sees it.
type Record struct {
	Ref    Ref    `json:"record"`
	Fields Fields `json:"fields"`
}

// Check judges one field of a record. A field that this program does not know
// is allowed; null clears a field and is always allowed. The error is a
// *Problem.
func Check(kind RecordKind, field string, value json.RawMessage) error {
	if string(value) == "null" {
		return nil
	}
	if rule, known := schemas[kind][field]; known {
		if p := rule(field, value); p != nil {
			return p
		}
	}
	return nil
}

// A Decodable is one of the typed structs of this package.
type Decodable interface{ setID(string) }

// Decode reads a record's fields into one of the typed structs, such as
// *Planting, and gives it the id. Unknown fields are left aside, those too that
// differ from a known one by case alone, which encoding/json would take for it.
// Every field is checked first, so that what comes back is sound; the error is a
// *Problem and, of several, always the first by name. The struct must be fresh:
// encoding/json keeps what lies behind a shorter list.
func Decode(record Record, into Decodable) error {
	object := []byte{'{'}
	for _, name := range slices.Sorted(maps.Keys(record.Fields)) {
		value := record.Fields[name]
		if _, known := schemas[record.Ref.Kind][name]; !known || string(value) == "null" {
			continue
		}
		if err := Check(record.Ref.Kind, name, value); err != nil {
			return err
		}
		if len(object) > 1 {
			object = append(object, ',')
		}
		object = strconv.AppendQuote(object, name)
		object = append(append(object, ':'), value...)
	}
	if err := json.Unmarshal(append(object, '}'), into); err != nil {
		return fmt.Errorf("%s cannot be read: %w", record.Ref, err)
	}
	into.setID(record.Ref.ID)
	return nil
}
