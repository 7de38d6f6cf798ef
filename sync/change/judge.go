package change

import (
	"bytes"
	"encoding/json"
	"strings"
	"time"
	"unicode/utf8"

	"haulm/garden"
)

// Terms are what a change is judged by, besides the record it changes.
type Terms struct {
	Garden string    // the garden's id; its own record must bear it
	By     Writer    // who wrote the change
	Seq    uint64    // the sequence that the change gets when accepted
	Now    time.Time // the server's time
	Top    Stamp     // the greatest stamp that the garden has accepted
}

// A Verdict is an accepted change: as it goes into the log, with its final
// stamp and the fields that the server stamps, and the record after it.
type Verdict struct {
	Change  Change
	State   *State
	Changed bool // false: the change lost to what is there and left no trace
}

// Judge holds a change against the present state of its record, which it leaves
// as it is. The refusal is nil for an accepted change. References to other
// records are not checked: they may still be on their way.
func Judge(present *State, c Change, terms Terms) (Verdict, *Refusal) {
	if refusal := CheckShape(c, terms.Garden); refusal != nil {
		return Verdict{}, refusal
	}
	accepted, refusal := checkFields(c)
	if refusal != nil {
		return Verdict{}, refusal
	}
	stampBy(&accepted, present, terms.By)
	if len(accepted.Set) == 0 && accepted.Gone == nil {
		return Verdict{}, refuse("empty_change", "this change says nothing: it needs a field to set, or gone")
	}
	accepted.At = Cap(c.At, terms.Now, terms.Top)
	state := present.Clone()
	changed := Merge(state, accepted, terms.By, terms.Seq)
	if size := state.Size(); size > MaxRecordBytes {
		return Verdict{}, refuse("record_too_big", "%s would take %d bytes, and at most %d fit: shorten its texts", c.Record, size, MaxRecordBytes)
	}
	return Verdict{Change: accepted, State: state, Changed: changed}, nil
}

// Limits of what is taken in. They keep every stored value below the size at
// which the store would put it elsewhere, and are far above what a person types.
const (
	MaxRecordBytes    = 40 << 10 // names, values and losers of one record
	MaxChangeBytes    = 48 << 10 // a change's Size: all that a record holds, and below an entry of the log, which takes changes that lose, too
	MaxFieldNameBytes = 64
	MaxNesting        = 32 // levels of lists and objects in a field; beds' outlines have 2, and readers of JSON end at some thousands
	MinIDBytes        = 8
	MaxIDBytes        = 64
)

// CheckShape tells whether a change can be read at all: its id, size, record and
// stamp.
// ownGarden is the id of the garden that it was sent to.
func CheckShape(c Change, ownGarden string) *Refusal {
	switch {
	case c.malformed != nil:
		return c.malformed
	case !validID(c.ID):
		return refuse("invalid_id", "id %q is not allowed: it must be %d to %d letters, digits and hyphens", shorten(c.ID), MinIDBytes, MaxIDBytes)
	case c.Size() > MaxChangeBytes:
		return refuse("change_too_big", "this change to %s takes about %d bytes, and at most %d fit: shorten its texts", c.Record, c.Size(), MaxChangeBytes)
	case c.Record.Kind == garden.GardenRecord && c.Record.ID != ownGarden:
		return refuse("other_garden", "%s is another garden: only garden/%s can be written here", c.Record, ownGarden)
	}
	if _, err := garden.ParseRef(c.Record.String()); err != nil {
		return RefusalOf(err)
	}
	if _, err := ParseStamp(string(c.At)); err != nil {
		return RefusalOf(err)
	}
	return nil
}

// checkFields judges every field and gives the change with compact values.
func checkFields(c Change) (Change, *Refusal) {
	set := make(garden.Fields, len(c.Set)+1)
	for _, name := range c.Names() {
		value, refusal := checkField(c.Record.Kind, name, c.Set[name])
		if refusal != nil {
			return Change{}, refusal
		}
		set[name] = value
	}
	c.Set = set
	return c, nil
}

func checkField(kind garden.RecordKind, name string, raw json.RawMessage) (json.RawMessage, *Refusal) {
	if !validFieldName(name) {
		return nil, refuse("invalid_field", "field %q is not allowed: a field's name is 1 to %d bytes of text", shorten(name), MaxFieldNameBytes)
	}
	var compact bytes.Buffer
	compact.Grow(len(raw))
	if err := json.Compact(&compact, raw); err != nil || !utf8.Valid(raw) {
		return nil, refuse("invalid_json", "field %s holds no proper JSON text", name)
	}
	if levels := nesting(compact.Bytes()); levels > MaxNesting {
		return nil, refuse("nested_too_deep", "field %s has lists or objects %d levels deep, and at most %d are kept", name, levels, MaxNesting)
	}
	if err := garden.Check(kind, name, compact.Bytes()); err != nil {
		return nil, RefusalOf(err)
	}
	return compact.Bytes(), nil
}

// stampBy writes who made an observation or did a piece of work: the member
// whose change first says anything about it. What a phone says of it does not
// count; the program itself may say it.
func stampBy(c *Change, present *State, by Writer) {
	if !hasBy(c.Record.Kind) || by.Member == "" {
		return
	}
	delete(c.Set, byField)
	if isNull(present.Value(byField)) && len(c.Set) > 0 {
		c.Set[byField] = appendText(nil, by.Member)
	}
}

const byField = "by"

func hasBy(kind garden.RecordKind) bool {
	return kind == garden.ObservationRecord || kind == garden.WorkRecord
}

// Size is what MaxRecordBytes bounds.
func (s *State) Size() int {
	size := 0
	for _, f := range s.Fields {
		size += len(f.Name) + len(f.Value) + len(f.At)
		for _, l := range f.Also {
			size += len(l.Value) + len(l.At)
		}
	}
	return size
}

func validID(id string) bool {
	if len(id) < MinIDBytes || len(id) > MaxIDBytes {
		return false
	}
	for i := range len(id) {
		c := id[i] | 0x20 // letters in lower case
		if id[i] != '-' && !isDevice(id[i]) && !(c >= 'a' && c <= 'z') {
			return false
		}
	}
	return true
}

func validFieldName(name string) bool {
	control := func(r rune) bool { return r < ' ' || r == 0x7f }
	return name != "" && len(name) <= MaxFieldNameBytes && utf8.ValidString(name) && !strings.ContainsFunc(name, control)
}
