package change

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"testing"
	"time"

	"haulm/garden"
)

// The vectors are shared with the phone's TypeScript; each file says how its
// answers were made.
func vectors[T any](t testing.TB, name string) T {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "vectors", "sync", name))
	if err != nil {
		t.Fatal(err)
	}
	var file T
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return file
}

type judgeFile struct {
	Cases []struct {
		Name   string
		Garden string
		Steps  []judgeStep
		Record json.RawMessage
	}
}

type judgeStep struct {
	Change         Change
	Member, Device string
	Seq            uint64
	Now            time.Time
	Applied        *struct{ At Stamp }
	Refused        *struct{ Code string }
}

func TestJudgeVectors(t *testing.T) {
	file := vectors[judgeFile](t, "judge.json")
	if len(file.Cases) == 0 {
		t.Fatal("no cases")
	}
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			state, top := &State{}, Stamp("")
			for i, step := range c.Steps {
				state = judgeOne(t, i, state, step, Terms{c.Garden, Writer{step.Member, step.Device}, step.Seq, step.Now, top})
				if step.Applied != nil {
					top = max(top, step.Applied.At)
				}
			}
			if string(c.Record) == "null" {
				if state.Seq != 0 {
					t.Fatalf("something was written: %+v", state)
				}
				return
			}
			sameJSON(t, Record{c.Steps[len(c.Steps)-1].Change.Record, *state}.AppendJSON(nil), c.Record)
		})
	}
}

func judgeOne(t *testing.T, i int, state *State, step judgeStep, terms Terms) *State {
	t.Helper()
	before, _ := state.AppendBinary(nil)
	verdict, refusal := Judge(state, step.Change, terms)
	if after, _ := state.AppendBinary(nil); !slices.Equal(before, after) {
		t.Fatalf("step %d: judging changed the state it was given", i)
	}
	if step.Refused != nil {
		if refusal == nil || refusal.Code != step.Refused.Code || refusal.Why == "" {
			t.Fatalf("step %d: refused with %+v, want %s", i, refusal, step.Refused.Code)
		}
		return state
	}
	if refusal != nil {
		t.Fatalf("step %d: refused: %+v", i, refusal)
	}
	if verdict.Change.At != step.Applied.At {
		t.Fatalf("step %d: applied at %s, want %s", i, verdict.Change.At, step.Applied.At)
	}
	return verdict.State
}

func TestOverlayVectors(t *testing.T) {
	file := vectors[struct {
		Cases []struct {
			Name    string
			Server  *Record
			Pending []struct {
				Change  Change
				Seq     uint64
				Refused bool
			}
			Passed uint64
			Shows  *struct{ Fields garden.Fields }
		}
	}](t, "overlay.json")
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			var pending []Pending
			for _, p := range c.Pending {
				pending = append(pending, Pending{p.Change, p.Seq, p.Refused})
			}
			fields, shown := Overlay(c.Server, pending, c.Passed)
			if shown != (c.Shows != nil) {
				t.Fatalf("shown %v", shown)
			}
			if shown {
				got, _ := json.Marshal(fields)
				want, _ := json.Marshal(c.Shows.Fields)
				sameJSON(t, got, want)
			}
		})
	}
}

func TestDigestVectors(t *testing.T) {
	file := vectors[struct {
		Cases []struct {
			Name    string
			Records []Record
			Digest  Digest
			Buckets map[string]Digest
		}
	}](t, "digest.json")
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			var sum Digest
			var buckets [Buckets]Digest
			for _, r := range c.Records {
				digest := DigestOf(r.Ref, &r.State)
				sum = sum.Plus(digest)
				buckets[BucketOf(r.Ref)] = buckets[BucketOf(r.Ref)].Plus(digest)
			}
			if sum != c.Digest {
				t.Errorf("digest %s, want %s", sum, c.Digest)
			}
			for i, got := range buckets {
				if want := c.Buckets[strconv.Itoa(i)]; got != want {
					t.Errorf("bucket %d: %s, want %s", i, got, want)
				}
			}
		})
	}
}

func TestStampVectors(t *testing.T) {
	file := vectors[struct {
		Order []string
		Cap   []struct {
			Stamp  Stamp
			Now    time.Time
			Top    Stamp
			Capped Stamp
		}
		Cases []struct {
			Name   string
			Device string
			Steps  []struct {
				Now   *time.Time
				Stamp Stamp
				See   Stamp
			}
		}
	}](t, "stamp.json")
	for _, text := range file.Order {
		if _, err := ParseStamp(text); err != nil {
			t.Error(err)
		}
	}
	if !slices.IsSorted(file.Order) {
		t.Error("the stamps of order are not in order")
	}
	for _, c := range file.Cap {
		if got := Cap(c.Stamp, c.Now, c.Top); got != c.Capped {
			t.Errorf("%s at %s above %s is capped to %s, want %s", c.Stamp, c.Now, c.Top, got, c.Capped)
		}
	}
	for _, c := range file.Cases {
		clock := Clock{Device: c.Device}
		for i, step := range c.Steps {
			if step.Now == nil {
				clock.See(step.See)
			} else if got := clock.Next(*step.Now); got != step.Stamp {
				t.Errorf("%s, step %d: %s, want %s", c.Name, i, got, step.Stamp)
			}
		}
	}
}

// sameJSON compares two texts as JSON values, with numbers as they are written.
func sameJSON(t *testing.T, got, want []byte) {
	t.Helper()
	if !reflect.DeepEqual(valueOf(t, got), valueOf(t, want)) {
		t.Fatalf("got  %s\nwant %s", got, want)
	}
}
