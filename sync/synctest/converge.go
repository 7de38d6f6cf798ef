package synctest

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
)

func runConverge(t *testing.T, open Open) {
	t.Run("phones that write apart agree in the end", func(t *testing.T) { agree(t, open) })
	t.Run("edits one after the other never look like a conflict", func(t *testing.T) { ordinary(t, open) })
	t.Run("a phone in 2030 wins for a minute and not for years", func(t *testing.T) { phoneIn2030(t, open) })
	t.Run("a phone in 1970 writes after what it had seen", func(t *testing.T) { phoneIn1970(t, open) })
}

// How far a phone's clock is off: right, half a minute, set to 2030, to 1970.
func clockErrors() []time.Duration {
	now := newClock().at
	return []time.Duration{0, 30 * time.Second, -30 * time.Second,
		time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC).Sub(now), time.Unix(5, 0).Sub(now)}
}

// A household is some phones in a garden of their own on a shared journal.
type household struct {
	bench  *bench
	phones []*phone
	ledger ledger
	next   int // number of the next text
}

func gather(t *rapid.T, b *bench, phones int) *household {
	name := "g" + newID()
	if err := b.CreateGarden(t.Context(), name); err != nil {
		t.Fatal(err)
	}
	h := &household{bench: b, ledger: ledger{map[slot]map[string]bool{}, map[slot]map[string]bool{}}}
	for i := range phones {
		device := fmt.Sprintf("phone%d", i)
		h.phones = append(h.phones, &phone{
			bench: b, garden: name, by: journal.Writer{Member: fmt.Sprint("member-", i), Device: device},
			off:     rapid.SampledFrom(clockErrors()).Draw(t, "clock error"),
			stamps:  change.Clock{Device: device},
			records: map[garden.Ref]change.Record{},
			mine:    map[slot][]string{},
		})
	}
	return h
}

// text makes a value that nobody else writes, or null.
func (h *household) text(t *rapid.T) string {
	if rapid.IntRange(0, 5).Draw(t, "clears") == 0 {
		return "null"
	}
	h.next++
	return fmt.Sprintf(`"text %d"`, h.next)
}

func drawSlot(t *rapid.T) slot {
	return slot{planting(byte(rapid.IntRange(1, 3).Draw(t, "record"))), rapid.SampledFrom([]string{"label", "note"}).Draw(t, "field")}
}

// act lets one phone do one thing.
func (h *household) act(t *rapid.T) {
	p := rapid.SampledFrom(h.phones).Draw(t, "phone")
	switch rapid.SampledFrom([]string{"write", "write", "write", "mark", "sync", "sync", "replay", "wait"}).Draw(t, "act") {
	case "write":
		p.write(&h.ledger, drawSlot(t), h.text(t))
	case "mark":
		p.mark(drawSlot(t).ref, rapid.Bool().Draw(t, "gone"))
	case "sync":
		n := rapid.IntRange(0, len(p.unsent)).Draw(t, "how many")
		p.sync(t, n, rapid.SampledFrom([]fate{arrives, isLost, answerLost, pullIsShort}).Draw(t, "fate"))
	case "replay":
		h.replay(t, p)
	case "wait":
		h.bench.clock.advance(time.Duration(rapid.IntRange(1, 200_000).Draw(t, "ms")) * time.Millisecond)
	}
}

// replay sends pushes of the past again, in any order, and sees that nothing
// changes.
func (h *household) replay(t *rapid.T, p *phone) {
	if len(p.sent) == 0 {
		return
	}
	before, err := h.bench.Pull(t.Context(), p.garden, "", journal.MaxLimit)
	if err != nil {
		t.Fatal(err)
	}
	batch := slices.Clone(rapid.SampledFrom(p.sent).Draw(t, "which push"))
	p.push(t, rapid.Permutation(batch).Draw(t, "in which order"))
	after, err := h.bench.Pull(t.Context(), p.garden, "", journal.MaxLimit)
	if err != nil || after.Digest != before.Digest || after.Cursor != before.Cursor {
		t.Fatalf("a replay moved the garden from %s %s to %s %s (%v)", before.Cursor, before.Digest, after.Cursor, after.Digest, err)
	}
}

func agree(t *testing.T, open Open) {
	b := set(t, open)
	rapid.Check(t, func(t *rapid.T) {
		h := gather(t, b, rapid.IntRange(2, 4).Draw(t, "phones"))
		for range rapid.IntRange(1, 40).Draw(t, "acts") {
			h.act(t)
		}
		for range 2 { // the second time all have what the others sent in the first
			for _, p := range h.phones {
				p.settle(t)
			}
		}
		h.checkAgreement(t)
		h.checkNothingLost(t)
		for _, p := range h.phones {
			h.replay(t, p)
		}
	})
	sameFromLog(t, b)
	report, err := b.Verify(t.Context(), nil)
	must(t, err)
	if len(report.Damage) > 0 {
		t.Errorf("%v", report.Damage[0])
	}
}

func (h *household) checkAgreement(t *rapid.T) {
	first := h.phones[0]
	for _, p := range h.phones {
		if p.own() != p.digest || p.digest != first.digest {
			t.Fatalf("%s holds %s, the server says %s, %s was told %s", p.by.Device, p.own(), p.digest, first.by.Device, first.digest)
		}
		if p.holds() != first.holds() {
			t.Fatalf("%s holds\n%s\nand %s\n%s", p.by.Device, p.holds(), first.by.Device, first.holds())
		}
	}
}

// checkNothingLost sees that each text is there, as value or as a loser, unless
// somebody who had it in view wrote something else.
func (h *household) checkNothingLost(t *rapid.T) {
	for s, texts := range h.ledger.written {
		record := h.phones[0].records[s.ref]
		there := map[string]bool{}
		for _, f := range record.State.Fields {
			if f.Name == s.field {
				there[string(f.Value)] = true
				for _, l := range f.Also {
					there[string(l.Value)] = true
				}
			}
		}
		for text := range texts {
			if !there[text] && !h.ledger.replaced[s][text] {
				t.Fatalf("%s of %s, which nobody replaced, is gone: %s", text, s.ref, record.AppendJSON(nil))
			}
		}
	}
}

// ordinary has phones take turns, each syncing before and after it writes, with
// any clocks: the last writer's text stands and nothing is kept beside it.
func ordinary(t *testing.T, open Open) {
	b := set(t, open)
	rapid.Check(t, func(t *rapid.T) {
		h := gather(t, b, 3)
		want := map[slot]string{}
		for range rapid.IntRange(1, 12).Draw(t, "turns") {
			p := rapid.SampledFrom(h.phones).Draw(t, "phone")
			p.settle(t)
			for range rapid.IntRange(1, 3).Draw(t, "writes") {
				s := drawSlot(t)
				want[s] = h.text(t)
				p.write(&h.ledger, s, want[s])
			}
			p.settle(t)
			b.clock.advance(time.Duration(rapid.IntRange(0, 90_000).Draw(t, "ms")) * time.Millisecond)
		}
		p := h.phones[0]
		p.settle(t)
		for s, text := range want {
			record := p.records[s.ref]
			if got := string(record.State.Value(s.field)); got != text {
				t.Fatalf("%s of %s is %s, want %s", s.field, s.ref, got, text)
			}
			for _, f := range record.State.Fields {
				if len(f.Also) > 0 {
					t.Fatalf("ordinary edits look like a conflict: %s", record.AppendJSON(nil))
				}
			}
		}
	})
}

func phoneIn2030(t *testing.T, open Open) {
	b := set(t, open)
	ahead := written(planting(1), 0, 0, "label", `"from 2030"`)
	ahead.At = "2030-01-01T00:00:00.000Z-0000-aaaaaa"
	next := written(planting(1), 0, 0, "note", `"a second after"`)
	next.At = "2030-01-01T00:00:01.000Z-0000-aaaaaa"
	applied := b.push(t, anna(), ahead, next)
	again := written(planting(2), 0, 0, "note", `"another second after, in a push of its own"`)
	again.At = "2030-01-01T00:00:02.000Z-0000-aaaaaa"
	applied = append(applied, b.push(t, anna(), again)...)
	for i, want := range []change.Stamp{"2026-06-02T09:01:00.000Z-0000-aaaaaa", "2026-06-02T09:01:00.000Z-0001-aaaaaa", "2026-06-02T09:01:00.000Z-0002-aaaaaa"} {
		if applied[i].At != want {
			t.Errorf("change %d of 2030 is stamped %s, want %s", i, applied[i].At, want)
		}
	}
	soon := written(planting(1), 0, 0, "label", `"half a minute later"`)
	soon.At = change.MakeStamp(b.clock.now().Add(30*time.Second), 0, "bbbbbb")
	b.push(t, ben(), soon)
	if got := b.field(t, planting(1), "label"); got != `"from 2030"` {
		t.Errorf("within the minute the label is %s", got)
	}
	b.clock.advance(2 * time.Minute)
	later := written(planting(1), 0, 0, "label", `"two minutes later"`)
	later.At = change.MakeStamp(b.clock.now(), 0, "bbbbbb")
	b.push(t, ben(), later)
	if got := b.field(t, planting(1), "label"); got != `"two minutes later"` {
		t.Errorf("after two minutes the label is %s", got)
	}
	record, err := b.Get(t.Context(), home, planting(1))
	must(t, err)
	if also := record.State.Fields[0].Also; len(also) != 1 || string(also[0].Value) != `"from 2030"` {
		t.Errorf("kept %+v", also)
	}
}

func phoneIn1970(t *testing.T, open Open) {
	b := set(t, open)
	seq := b.push(t, anna(), written(planting(1), 0, 0, "label", `"one"`))[0].Seq
	back := written(planting(1), seq, 0, "label", `"from 1970, having seen it"`)
	back.At = "1970-01-01T00:00:05.000Z-0000-bbbbbb"
	b.push(t, ben(), back)
	if got := b.field(t, planting(1), "label"); got != `"from 1970, having seen it"` {
		t.Errorf("the label is %s", got)
	}
}
