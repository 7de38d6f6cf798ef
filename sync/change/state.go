package change

import (
	"encoding/json"
	"slices"
	"strings"

	"haulm/garden"
)

// A State is a record as the server keeps it. The zero State is a record that
// nobody has written.
type State struct {
	Seq    uint64  // the sequence at which the record last changed; 0: never written
	Gone   Mark    // the tombstone and its own clock
	Fields []Field // bytewise sorted by name; a cleared field stays, with null
}

// A Mark is whether a record is gone, and who said so last.
type Mark struct {
	Value bool
	Write // zero while nobody has said anything
}

// A Write is when and by whom something was written.
type Write struct {
	Seq uint64 // the garden's sequence that the change was given
	At  Stamp
	By  Writer
}

// A Field is a field's present value and the write that won.
type Field struct {
	Name  string
	Value json.RawMessage // compact JSON; null when cleared
	Write
	Also []Loser // texts that were written apart and lost, oldest first
}

// A Loser is a text that lost to one written apart from it, and its write.
type Loser struct {
	Value json.RawMessage
	Write
}

// Value gives a field's JSON; null for one that was never set or was cleared.
func (s *State) Value(name string) json.RawMessage {
	if i, found := s.find(name); found {
		return s.Fields[i].Value
	}
	return null()
}

// Known gives the fields that have a value, in a new map.
func (s *State) Known() garden.Fields {
	fields := make(garden.Fields, len(s.Fields))
	for _, f := range s.Fields {
		if !isNull(f.Value) {
			fields[f.Name] = f.Value
		}
	}
	return fields
}

// Clone gives a state that can be changed apart from s; the JSON of values is
// shared and is never changed in place.
func (s *State) Clone() *State {
	clone := *s
	clone.Fields = slices.Clone(s.Fields)
	for i, f := range clone.Fields {
		clone.Fields[i].Also = slices.Clone(f.Also)
	}
	return &clone
}

func (s *State) find(name string) (int, bool) {
	return slices.BinarySearchFunc(s.Fields, name, func(f Field, name string) int {
		return strings.Compare(f.Name, name)
	})
}

func null() json.RawMessage             { return json.RawMessage("null") }
func isNull(value json.RawMessage) bool { return string(value) == "null" }
func isText(value json.RawMessage) bool { return len(value) > len(`""`) && value[0] == '"' }
