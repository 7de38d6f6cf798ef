// Package change is one change that a phone wrote, the clock it carries, and
// how the server judges it against a record.
//
// The nouns, in the order in which they meet:
//
//   - A Stamp is the writer's hybrid logical clock at the moment of writing. It
//     is text and sorts as text (stamp.go); a Clock makes stamps (clock.go).
//   - A Change sets or clears fields of one record, or marks it gone or back
//     (this file). Its base is the sequence of the record that its writer had
//     seen.
//   - A State is a record as the server keeps it: each field with the stamp,
//     sequence and writer of the write that won, and the texts that lost to it
//     unseen (state.go; its compact form for a store in binary.go).
//   - Judge holds a change against a state and the garden's rules and gives the
//     verdict; Merge folds an accepted change into the state (judge.go,
//     merge.go).
//   - A Record is a State on its way to a phone, with its JSON (record.go), and
//     Overlay is what the phone shows of it with its own unsent changes on top
//     (overlay.go).
//   - A Digest sums up records so that two copies can be compared (digest.go).
//
// Everything here is a pure function of its arguments: no I/O, no clock of its
// own. The vectors in testdata/vectors/sync hold this package and the phone's
// TypeScript to the same answers.
package change

import (
	"crypto/sha256"
	"encoding/json"
	"maps"
	"slices"
	"strconv"

	"haulm/garden"
)

// A Change is one act of one writer on one record: fields set (null clears
// one), and Gone true or false to remove the record or bring it back.
type Change struct {
	ID     string        // made by the writer (UUIDv7); names the change for ever
	Record garden.Ref    // what is changed
	Base   uint64        // the record's sequence that the writer had seen; 0: none
	At     Stamp         // the writer's clock
	Set    garden.Fields // raw JSON by field name; null clears
	Gone   *bool         // nil: says nothing about it

	malformed *Refusal // what UnmarshalJSON could not read; Judge answers with it
}

// changeJSON is the wire shape of a Change, lenient where Judge refuses later.
type changeJSON struct {
	ID     string        `json:"id"`
	Record string        `json:"record"`
	Base   uint64        `json:"base"`
	At     string        `json:"at"`
	Set    garden.Fields `json:"set"`
	Gone   *bool         `json:"gone"`
}

// UnmarshalJSON reads a change. It fails only on broken JSON: a change of a
// wrong shape is kept with what is wrong about it, and Judge refuses it by
// itself, so that one bad change does not spoil the request that carries it.
func (c *Change) UnmarshalJSON(text []byte) error {
	var wire changeJSON
	err := json.Unmarshal(text, &wire)
	*c = Change{ID: wire.ID, Base: wire.Base, Set: wire.Set, Gone: wire.Gone}
	if err != nil {
		c.malformed = refuse("invalid_change", "this change cannot be read: %v", err)
		return nil
	}
	if c.Record, err = garden.ParseRef(wire.Record); err != nil {
		c.malformed = RefusalOf(err)
		return nil
	}
	if c.At, err = ParseStamp(wire.At); err != nil {
		c.malformed = RefusalOf(err)
	}
	return nil
}

// Malformed is what UnmarshalJSON found wrong with the change's shape; nil for a
// sound one.
func (c Change) Malformed() *Refusal { return c.malformed }

// MarshalJSON writes what UnmarshalJSON reads, fields in order of name.
func (c Change) MarshalJSON() ([]byte, error) { return c.AppendJSON(nil), nil }

// AppendJSON appends the change's JSON to buf; field values go in as they are.
func (c Change) AppendJSON(buf []byte) []byte {
	buf = appendText(append(buf, `{"id":`...), c.ID)
	buf = appendText(append(buf, `,"record":`...), c.Record.String())
	buf = strconv.AppendUint(append(buf, `,"base":`...), c.Base, 10)
	buf = appendText(append(buf, `,"at":`...), string(c.At))
	if len(c.Set) > 0 {
		buf = append(buf, `,"set":{`...)
		for i, name := range c.Names() {
			buf = appendMember(buf, i, name)
			buf = append(buf, c.Set[name]...)
		}
		buf = append(buf, '}')
	}
	if c.Gone != nil {
		buf = strconv.AppendBool(append(buf, `,"gone":`...), *c.Gone)
	}
	return append(buf, '}')
}

// Names lists the fields that the change sets, bytewise sorted.
func (c Change) Names() []string { return slices.Sorted(maps.Keys(c.Set)) }

// Size is about what AppendJSON takes, from above, but for text that needs
// escapes, of which names and ids have none to speak of.
func (c Change) Size() int {
	size := 256 + len(c.ID) + len(c.Record.ID) + len(c.At) // 256: the names, the base and an entry's hash
	for name, value := range c.Set {
		size += 6*len(name) + len(value) + 4
	}
	return size
}

// ContentHash is the first 16 bytes of SHA-256 over what the change says:
// record, stamp, fields and gone. The base is left out: a phone lowers it to
// the fork when the server starts a new epoch, and the act stays the same.
func (c Change) ContentHash() [16]byte {
	c.ID, c.Base = "", 0
	sum := sha256.Sum256(c.AppendJSON(make([]byte, 0, 512)))
	return [16]byte(sum[:16])
}

// A Writer is who wrote a change: a member of the garden, on a device. The
// server fills it in from the device's token, never from what was sent.
type Writer struct {
	Member string // empty: the program itself, as when a demo garden is sown
	Device string
}

func appendMember(buf []byte, i int, name string) []byte {
	if i > 0 {
		buf = append(buf, ',')
	}
	return append(appendText(buf, name), ':')
}

// appendText appends text as a JSON string. Ids, refs and stamps need no
// escape, which is the short way.
func appendText(buf []byte, text string) []byte {
	for i := range len(text) {
		if c := text[i]; c < ' ' || c == '"' || c == '\\' || c >= 0x7f {
			quoted, _ := json.Marshal(text) // a string always has a JSON form
			return append(buf, quoted...)
		}
	}
	buf = append(buf, '"')
	buf = append(buf, text...)
	return append(buf, '"')
}
