package change

import (
	"encoding/json"
	"testing"
	"time"
)

// FuzzJudge takes any JSON as a change: it is refused with a code and a sentence,
// or accepted so that phones read the record's JSON to the same digest.
func FuzzJudge(f *testing.F) {
	type file struct {
		Cases []struct {
			Steps []struct{ Change json.RawMessage }
		}
	}
	seeds := 0
	for _, c := range vectors[file](f, "judge.json").Cases {
		for _, step := range c.Steps {
			f.Add([]byte(step.Change))
			seeds++
		}
	}
	if seeds == 0 {
		f.Fatal("no seeds")
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var c Change
		if json.Unmarshal(text, &c) != nil {
			return // not JSON at all
		}
		verdict, refusal := Judge(&State{}, c, Terms{Garden: "g", By: Writer{"anna", "phone-a"}, Seq: 1, Now: time.Unix(1780390800, 0)})
		if refusal != nil {
			if refusal.Code == "" || refusal.Why == "" {
				t.Fatalf("%s is refused without saying why", text)
			}
			return
		}
		record := Record{c.Record, *verdict.State}
		var phone Record
		if err := json.Unmarshal(record.AppendJSON(nil), &phone); err != nil {
			t.Fatalf("%s makes a record that nobody can read: %v", text, err)
		}
		if DigestOf(record.Ref, &record.State) != DigestOf(phone.Ref, &phone.State) {
			t.Fatalf("%s makes a record whose digest a phone reckons otherwise: %s", text, record.AppendJSON(nil))
		}
		var again Change
		if err := json.Unmarshal(verdict.Change.AppendJSON(nil), &again); err != nil || again.ContentHash() != verdict.Change.ContentHash() {
			t.Fatalf("%s is another change after the log: %s", text, verdict.Change.AppendJSON(nil))
		}
		if len(verdict.Change.AppendJSON(nil)) > verdict.Change.Size() {
			t.Fatalf("%s is larger than its Size", text)
		}
	})
}

// FuzzStateBinary reads any bytes as a stored state without trouble, and what it
// reads it writes back to something that reads the same.
func FuzzStateBinary(f *testing.F) {
	s := &State{Seq: 7, Fields: []Field{{Name: "label", Value: json.RawMessage(`"x"`), Write: Write{7, "2026-06-02T09:00:00.000Z-0000-aaaaaa", Writer{"anna", "a"}}}}}
	text, _ := s.AppendBinary(nil)
	f.Add(text)
	f.Fuzz(func(t *testing.T, text []byte) {
		var s, back State
		if s.UnmarshalBinary(text) != nil {
			return
		}
		again, _ := s.AppendBinary(nil)
		if err := back.UnmarshalBinary(again); err != nil || DigestOf(planting(), &s) != DigestOf(planting(), &back) {
			t.Fatalf("%q became %q: %v", text, again, err)
		}
	})
}
