package change

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"haulm/garden"
)

func valueOf(t *testing.T, text []byte) any {
	t.Helper()
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	var value any
	if err := decoder.Decode(&value); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return value
}

func planting() garden.Ref {
	return garden.Ref{Kind: garden.PlantingRecord, ID: "0192bbbb-0000-7000-8000-000000000001"}
}

// TestAlgebra names the four ways in which two writes can stand to each other,
// by value: the one before (lesser), the one after (greater), the same write
// again (equal), and two written apart (concurrent).
func TestAlgebra(t *testing.T) {
	early, late := Stamp("2026-06-02T09:00:00.000Z-0000-aaaaaa"), Stamp("2026-06-02T09:05:00.000Z-0000-bbbbbb")
	ours, theirs := Writer{"anna", "phone-a"}, Writer{"ben", "phone-b"}
	for _, c := range []struct {
		name      string
		present   Stamp
		incoming  Stamp
		by        Writer
		base      uint64
		winner    string
		loser     string
		unchanged bool
	}{
		{"greater: it had seen the present one", early, late, theirs, 7, `"new"`, "", false},
		{"greater by having seen, although its clock is lesser", late, early, theirs, 7, `"new"`, "", false},
		{"greater by the same device, although its clock is lesser", late, early, ours, 0, `"new"`, "", false},
		{"concurrent, greater clock", early, late, theirs, 6, `"new"`, `"old"`, false},
		{"concurrent, lesser clock", late, early, theirs, 6, `"old"`, `"new"`, false},
		{"concurrent, equal clock", early, early, theirs, 6, `"old"`, `"new"`, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := &State{Seq: 7, Fields: []Field{{Name: "label", Value: json.RawMessage(`"old"`), Write: Write{7, c.present, ours}}}}
			incoming := Change{Record: planting(), Base: c.base, At: c.incoming, Set: garden.Fields{"label": json.RawMessage(`"new"`)}}
			if changed := Merge(s, incoming, c.by, 8); changed == c.unchanged {
				t.Errorf("changed: %v", changed)
			}
			if got := string(s.Value("label")); got != c.winner {
				t.Errorf("%s won, want %s", got, c.winner)
			}
			lost := ""
			for _, l := range s.Fields[0].Also {
				lost += string(l.Value)
			}
			if lost != c.loser {
				t.Errorf("kept %s, want %s", lost, c.loser)
			}
		})
	}
}

func TestMergingTheSameAgainChangesNoValue(t *testing.T) {
	s := &State{}
	c := Change{Record: planting(), At: "2026-06-02T09:00:00.000Z-0000-aaaaaa", Set: garden.Fields{"label": json.RawMessage(`"x"`), "count": json.RawMessage(`3`)}}
	Merge(s, c, Writer{"anna", "phone-a"}, 1)
	before := DigestOf(c.Record, s)
	Merge(s, c, Writer{"anna", "phone-a"}, 2)
	if after := DigestOf(c.Record, s); after != before || len(s.Fields[0].Also)+len(s.Fields[1].Also) != 0 {
		t.Errorf("%s became %s: %+v", before, after, s)
	}
}

func TestRefusedSentencesNameTheBound(t *testing.T) {
	ref := garden.Ref{Kind: garden.ObservationRecord, ID: "0192cccc-0000-7000-8000-000000000001"}
	c := Change{ID: "0192dddd-0000-7000-8000-000000000001", Record: ref, At: "2026-06-02T09:00:00.000Z-0000-aaaaaa", Set: garden.Fields{"stage": json.RawMessage(`140`)}}
	_, refusal := Judge(&State{}, c, Terms{Garden: "g", By: Writer{"anna", "phone-a"}, Seq: 1, Now: time.Now()})
	if refusal == nil || refusal.Code != "invalid_stage" || !strings.Contains(refusal.Why, "140") || !strings.Contains(refusal.Why, "99") {
		t.Errorf("%+v", refusal)
	}
}

func TestARecordThatGrowsTooBigIsRefused(t *testing.T) {
	present := &State{}
	c := Change{ID: "0192dddd-0000-7000-8000-000000000001", Record: planting(), At: "2026-06-02T09:00:00.000Z-0000-aaaaaa",
		Set: garden.Fields{"futureThing": json.RawMessage(`"` + strings.Repeat("x", MaxRecordBytes) + `"`)}}
	_, refusal := Judge(present, c, Terms{Garden: "g", By: Writer{"anna", "phone-a"}, Seq: 1, Now: time.Now()})
	if refusal == nil || refusal.Code != "record_too_big" || present.Seq != 0 {
		t.Errorf("%+v, %+v", refusal, present)
	}
}

// A change that loses leaves no trace in its record, but it is written into the
// log all the same.
func TestAChangeTooBigForTheLogIsRefusedEvenIfItLoses(t *testing.T) {
	anna, ben := Writer{"anna", "phone-a"}, Writer{"ben", "phone-b"}
	present := &State{Seq: 7, Fields: []Field{{Name: "futureThing", Value: json.RawMessage(`1`), Write: Write{7, "2026-06-02T09:00:00.000Z-0000-aaaaaa", anna}}}}
	earlier := func(size int) Change {
		return Change{ID: "0192dddd-0000-7000-8000-000000000001", Record: planting(), At: "2026-06-02T08:00:00.000Z-0000-bbbbbb",
			Set: garden.Fields{"futureThing": json.RawMessage(`["` + strings.Repeat("x", size) + `"]`)}}
	}
	terms := Terms{Garden: "g", By: ben, Seq: 8, Now: time.Now()}
	if verdict, refusal := Judge(present, earlier(100), terms); refusal != nil || verdict.Changed {
		t.Fatalf("the small change was to be accepted and lose: %+v, %+v", verdict, refusal)
	}
	if _, refusal := Judge(present, earlier(MaxChangeBytes), terms); refusal == nil || refusal.Code != "change_too_big" {
		t.Errorf("%+v", refusal)
	}
}

func TestFieldsNestedTooDeepAreRefused(t *testing.T) {
	nested := func(levels int) Change {
		value := strings.Repeat(`{"]":[`, levels/2) + `"[[\"{{"` + strings.Repeat(`]}`, levels/2)
		return Change{ID: "0192dddd-0000-7000-8000-000000000001", Record: planting(), At: "2026-06-02T08:00:00.000Z-0000-bbbbbb",
			Set: garden.Fields{"futureThing": json.RawMessage(value)}}
	}
	terms := Terms{Garden: "g", By: Writer{"anna", "phone-a"}, Seq: 1, Now: time.Now()}
	if _, refusal := Judge(&State{}, nested(MaxNesting), terms); refusal != nil {
		t.Errorf("%d levels: %+v", MaxNesting, refusal)
	}
	if _, refusal := Judge(&State{}, nested(MaxNesting+2), terms); refusal == nil || refusal.Code != "nested_too_deep" {
		t.Errorf("%d levels: %+v", MaxNesting+2, refusal)
	}
}

func TestContentHash(t *testing.T) {
	base := Change{ID: "one", Record: planting(), Base: 4, At: "2026-06-02T09:00:00.000Z-0000-aaaaaa", Set: garden.Fields{"a": json.RawMessage(`1`), "b": json.RawMessage(`2`)}}
	same := base
	same.ID, same.Base = "two", 9
	if base.ContentHash() != same.ContentHash() {
		t.Error("the id or the base counts as content")
	}
	gone := true
	for name, other := range map[string]Change{
		"record": {Record: garden.Ref{Kind: garden.BedRecord, ID: planting().ID}, At: base.At, Set: base.Set},
		"stamp":  {Record: base.Record, At: "2026-06-02T09:00:00.001Z-0000-aaaaaa", Set: base.Set},
		"value":  {Record: base.Record, At: base.At, Set: garden.Fields{"a": json.RawMessage(`1`), "b": json.RawMessage(`3`)}},
		"name":   {Record: base.Record, At: base.At, Set: garden.Fields{"a": json.RawMessage(`1`), "c": json.RawMessage(`2`)}},
		"gone":   {Record: base.Record, At: base.At, Set: base.Set, Gone: &gone},
	} {
		if base.ContentHash() == other.ContentHash() {
			t.Errorf("another %s has the same hash", name)
		}
	}
}

// drawState draws a state by merging random changes, as states come about.
func drawState(t *rapid.T) *State {
	s := &State{}
	for seq := range rapid.Uint64Range(1, 12).Draw(t, "changes") {
		c := Change{Record: planting(), Base: rapid.Uint64Range(0, seq).Draw(t, "base"), Set: garden.Fields{}}
		c.At = MakeStamp(time.UnixMilli(rapid.Int64Range(0, 4).Draw(t, "ms")), rapid.IntRange(0, 2).Draw(t, "counter"), "aaaaaa")
		for _, name := range rapid.SliceOfDistinct(rapid.SampledFrom([]string{"a", "label", "né"}), rapid.ID).Draw(t, "names") {
			c.Set[name] = json.RawMessage(rapid.SampledFrom([]string{"null", "1", `"x"`, `"y<é"`}).Draw(t, "value"))
		}
		if rapid.Bool().Draw(t, "says gone") {
			gone := rapid.Bool().Draw(t, "gone")
			c.Gone = &gone
		}
		Merge(s, c, Writer{"m", rapid.SampledFrom([]string{"p", "q", "r"}).Draw(t, "device")}, seq+1)
	}
	return s
}

func TestStateSurvivesItsBinaryForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawState(t)
		text, _ := s.AppendBinary(nil)
		var back State
		if err := back.UnmarshalBinary(text); err != nil {
			t.Fatal(err)
		}
		again, _ := back.AppendBinary(nil)
		if !bytes.Equal(text, again) || DigestOf(planting(), s) != DigestOf(planting(), &back) {
			t.Fatalf("%+v became %+v", s, back)
		}
		for n := range text {
			if err := new(State).UnmarshalBinary(text[:n]); err == nil {
				t.Fatalf("%d of %d bytes were taken for whole", n, len(text))
			}
		}
	})
}

func TestRecordSurvivesItsJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		record := Record{planting(), *drawState(t)}
		var back Record
		if err := json.Unmarshal(record.AppendJSON(nil), &back); err != nil {
			t.Fatal(err)
		}
		if got, want := back.AppendJSON(nil), record.AppendJSON(nil); !bytes.Equal(got, want) {
			t.Fatalf("%s became %s", want, got)
		}
		if DigestOf(record.Ref, &record.State) != DigestOf(back.Ref, &back.State) {
			t.Fatal("a phone reckons another digest from the feed's JSON")
		}
	})
}

func TestChangeSurvivesItsJSON(t *testing.T) {
	gone := false
	c := Change{ID: "0192dddd-0000-7000-8000-000000000001", Record: planting(), Base: 3, At: "2026-06-02T09:00:00.000Z-0000-aaaaaa",
		Set: garden.Fields{"né\"": json.RawMessage(`{"b": [1, 2.50]}`), "a": json.RawMessage(`null`)}, Gone: &gone}
	var back Change
	if err := json.Unmarshal(c.AppendJSON(nil), &back); err != nil || back.Malformed() != nil {
		t.Fatal(err, back.Malformed())
	}
	if got, want := back.AppendJSON(nil), c.AppendJSON(nil); !bytes.Equal(got, want) {
		t.Errorf("%s became %s", want, got)
	}
	if len(c.AppendJSON(nil)) > c.Size() {
		t.Error("Size is too small")
	}
}

func TestClockOnlyGoesForward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clock := Clock{Device: "aaaaaa"}
		for range rapid.IntRange(1, 20).Draw(t, "steps") {
			before := clock.Last
			now := time.UnixMilli(rapid.Int64Range(0, 5).Draw(t, "ms"))
			if rapid.Bool().Draw(t, "see") {
				clock.See(MakeStamp(now, rapid.SampledFrom([]int{0, 1, maxCounter}).Draw(t, "counter"), "zzzzzz"))
				continue
			}
			if stamp := clock.Next(now); stamp <= before {
				t.Fatalf("%s after %s", stamp, before)
			} else if _, err := ParseStamp(string(stamp)); err != nil {
				t.Fatal(err)
			}
		}
	})
}

func TestCapKeepsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clock, top, now := Clock{Device: "aaaaaa"}, Stamp(""), int64(0)
		for range rapid.IntRange(1, 30).Draw(t, "changes") {
			now += rapid.Int64Range(0, 40_000).Draw(t, "server ms")
			stamp := clock.Next(time.UnixMilli(rapid.Int64Range(0, 300_000).Draw(t, "phone ms")))
			capped := Cap(stamp, time.UnixMilli(now), top)
			limit := time.UnixMilli(now).Add(MaxAhead + time.Millisecond)
			if capped.Time().After(limit) {
				t.Fatalf("%s is beyond %s", capped, limit)
			}
			if stamp.Time().UnixMilli() > now+MaxAhead.Milliseconds() && capped <= top {
				t.Fatalf("%s was moved to %s, before %s", stamp, capped, top)
			}
			top = max(top, capped)
		}
	})
}
