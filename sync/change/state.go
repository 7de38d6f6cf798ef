package change

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
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

// AppendBinary appends the state's compact form, for a store: version 1, gone,
// the writers, then each field. Numbers are varints, texts have their length
// first. It never fails.
func (s *State) AppendBinary(buf []byte) ([]byte, error) {
	writers := s.writers()
	buf = append(buf, stateVersion)
	buf = binary.AppendUvarint(buf, s.Seq)
	buf = binary.AppendUvarint(buf, uint64(len(writers)))
	for _, w := range writers {
		buf = appendBytes(appendBytes(buf, w.Member), w.Device)
	}
	buf = appendWrite(append(buf, boolByte(s.Gone.Value)), s.Gone.Write, writers)
	buf = binary.AppendUvarint(buf, uint64(len(s.Fields)))
	for _, f := range s.Fields {
		buf = appendWrite(appendBytes(appendBytes(buf, f.Name), f.Value), f.Write, writers)
		buf = binary.AppendUvarint(buf, uint64(len(f.Also)))
		for _, l := range f.Also {
			buf = appendWrite(appendBytes(buf, l.Value), l.Write, writers)
		}
	}
	return buf, nil
}

const stateVersion = 1

func (s *State) writers() []Writer {
	var all []Writer
	note := func(w Writer) {
		if !slices.Contains(all, w) {
			all = append(all, w)
		}
	}
	note(s.Gone.By)
	for _, f := range s.Fields {
		note(f.By)
		for _, l := range f.Also {
			note(l.By)
		}
	}
	return all
}

func appendWrite(buf []byte, w Write, writers []Writer) []byte {
	buf = appendBytes(binary.AppendUvarint(buf, w.Seq), w.At)
	return binary.AppendUvarint(buf, uint64(slices.Index(writers, w.By)))
}

func boolByte(b bool) byte {
	if b {
		return 1
	}
	return 0
}

// UnmarshalBinary reads what AppendBinary wrote. Values point into buf, which
// must not change afterwards.
func (s *State) UnmarshalBinary(buf []byte) error {
	r := reader{buf: buf}
	if v := r.byte(); v != stateVersion {
		return fmt.Errorf("a record of form %d, where this program reads form %d: use a newer haulm", v, stateVersion)
	}
	*s = State{Seq: r.number()}
	writers := make([]Writer, r.count())
	for i := range writers {
		writers[i] = Writer{Member: r.text(), Device: r.text()}
	}
	s.Gone = Mark{Value: r.byte() == 1, Write: r.write(writers)}
	s.Fields = make([]Field, r.count())
	for i := range s.Fields {
		s.Fields[i] = r.field(writers)
	}
	if r.broken || len(r.buf) > 0 {
		return errors.New("a record whose bytes end in the wrong place")
	}
	return nil
}

// A reader takes values off buf and remembers that it ran short.
type reader struct {
	buf    []byte
	broken bool
}

func (r *reader) byte() byte {
	if len(r.buf) == 0 {
		r.broken = true
		return 0
	}
	b := r.buf[0]
	r.buf = r.buf[1:]
	return b
}

func (r *reader) number() uint64 {
	n, size := binary.Uvarint(r.buf)
	if size <= 0 {
		r.broken = true
		return 0
	}
	r.buf = r.buf[size:]
	return n
}

// count reads the number of things that follow; each takes at least a byte.
func (r *reader) count() int {
	n := r.number()
	if n > uint64(len(r.buf)) {
		r.broken = true
		return 0
	}
	return int(n)
}

func (r *reader) bytes() []byte {
	n := r.count()
	b := r.buf[:n:n]
	r.buf = r.buf[n:]
	return b
}

func (r *reader) text() string { return string(r.bytes()) }

func (r *reader) write(writers []Writer) Write {
	w := Write{Seq: r.number(), At: Stamp(r.bytes())}
	if i := r.number(); i < uint64(len(writers)) {
		w.By = writers[i]
	} else {
		r.broken = true
	}
	return w
}

func (r *reader) field(writers []Writer) Field {
	f := Field{Name: r.text(), Value: r.bytes(), Write: r.write(writers)}
	if n := r.count(); n > 0 {
		f.Also = make([]Loser, n)
		for i := range f.Also {
			f.Also[i] = Loser{Value: r.bytes(), Write: r.write(writers)}
		}
	}
	return f
}
