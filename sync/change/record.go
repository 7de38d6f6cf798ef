package change

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"haulm/garden"
)

// A Record is a state under its name, as the feed carries it:
//
//	{"record": "planting/0192…", "seq": 9398, "fields": {…}, "at": {field: stamp},
//	 "also": {field: [{"value", "at", "by", "seq"}]}, "gone": true, "goneAt": stamp}
//
// A cleared field has no value in fields and keeps its stamp in at. also, gone
// and goneAt are absent where there is nothing to say; a tombstone keeps its
// fields, so that bringing a record back can be shown at once.
type Record struct {
	Ref   garden.Ref
	State State
}

// Garden gives the record as readers see it, in a new map.
func (r Record) Garden() garden.Record {
	return garden.Record{Ref: r.Ref, Fields: r.State.Known()}
}

// MarshalJSON writes the feed's form.
func (r Record) MarshalJSON() ([]byte, error) { return r.AppendJSON(nil), nil }

// AppendJSON appends the feed's form to buf; values go in as they are.
func (r Record) AppendJSON(buf []byte) []byte {
	buf = appendText(append(buf, `{"record":`...), r.Ref.String())
	buf = strconv.AppendUint(append(buf, `,"seq":`...), r.State.Seq, 10)
	buf = r.State.appendFields(append(buf, `,"fields":{`...))
	buf = r.State.appendStamps(append(buf, `},"at":{`...))
	buf = r.State.appendAlso(append(buf, '}'))
	if r.State.Gone.Value {
		buf = append(buf, `,"gone":true`...)
	}
	if r.State.Gone.At != "" {
		buf = appendText(append(buf, `,"goneAt":`...), string(r.State.Gone.At))
	}
	return append(buf, '}')
}

func (s *State) appendFields(buf []byte) []byte {
	written := 0
	for _, f := range s.Fields {
		if !isNull(f.Value) {
			buf = append(appendMember(buf, written, f.Name), f.Value...)
			written++
		}
	}
	return buf
}

func (s *State) appendStamps(buf []byte) []byte {
	for i, f := range s.Fields {
		buf = appendText(appendMember(buf, i, f.Name), string(f.At))
	}
	return buf
}

func (s *State) appendAlso(buf []byte) []byte {
	opened := 0
	for _, f := range s.Fields {
		if len(f.Also) == 0 {
			continue
		}
		if opened == 0 {
			buf = append(buf, `,"also":{`...)
		}
		buf = appendLosers(appendMember(buf, opened, f.Name), f.Also)
		opened++
	}
	if opened > 0 {
		buf = append(buf, '}')
	}
	return buf
}

func appendLosers(buf []byte, losers []Loser) []byte {
	for i, l := range losers {
		if i == 0 {
			buf = append(buf, '[')
		} else {
			buf = append(buf, ',')
		}
		buf = append(append(buf, `{"value":`...), l.Value...)
		buf = appendText(append(buf, `,"at":`...), string(l.At))
		buf = appendText(append(buf, `,"by":`...), l.By.Member)
		buf = append(strconv.AppendUint(append(buf, `,"seq":`...), l.Seq, 10), '}')
	}
	return append(buf, ']')
}

type recordJSON struct {
	Record garden.Ref             `json:"record"`
	Seq    uint64                 `json:"seq"`
	Fields garden.Fields          `json:"fields"`
	At     map[string]Stamp       `json:"at"`
	Also   map[string][]loserJSON `json:"also"`
	Gone   bool                   `json:"gone"`
	GoneAt Stamp                  `json:"goneAt"`
}

type loserJSON struct {
	Value json.RawMessage `json:"value"`
	At    Stamp           `json:"at"`
	By    string          `json:"by"`
	Seq   uint64          `json:"seq"`
}

// UnmarshalJSON reads the feed's form, as a phone does: what the feed leaves
// out (the sequences and writers of single fields) stays zero.
func (r *Record) UnmarshalJSON(text []byte) error {
	var wire recordJSON
	if err := json.Unmarshal(text, &wire); err != nil {
		return fmt.Errorf("a record of the feed cannot be read: %w", err)
	}
	gone := Mark{Value: wire.Gone, Write: Write{At: wire.GoneAt}}
	*r = Record{Ref: wire.Record, State: State{Seq: wire.Seq, Gone: gone}}
	for name, at := range wire.At {
		f := Field{Name: name, Value: null(), Write: Write{At: at}}
		if value, found := wire.Fields[name]; found {
			f.Value = value
		}
		for _, l := range wire.Also[name] {
			f.Also = append(f.Also, Loser{l.Value, Write{l.Seq, l.At, Writer{Member: l.By}}})
		}
		r.State.Fields = append(r.State.Fields, f)
	}
	slices.SortFunc(r.State.Fields, func(a, b Field) int { return strings.Compare(a.Name, b.Name) })
	return nil
}
