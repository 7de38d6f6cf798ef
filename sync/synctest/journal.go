package synctest

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
	"haulm/sync/journal/entry"
)

func runJournal(t *testing.T, open Open) {
	for name, test := range map[string]func(*testing.T, Open){
		"answers a replay as it did the first time":         replays,
		"refuses another content under an id that was used": idReused,
		"refuses a bad change by itself and forgets it":     refusals,
		"lets the server say who may":                       permission,
		"stamps who observed, the program's word taken":     stampsBy,
		"knows its gardens":                                 gardens,
		"feeds each record once, at its latest sequence":    feed,
		"feeds in pages that miss nothing":                  pages,
		"adds up digests and buckets as phones do":          digests,
		"refuses the cursor of another life":                cursors,
		"tells watchers the newest cursor":                  watchers,
		"stops while its clock is behind itself":            clockBehind,
		"cuts what is big so that it fits":                  bigPushes,
		"refuses what loses and is too big for the log":     losingPush,
		"gives the same state from the log alone":           refolding,
		"takes pushes that come together, all of them":      together,
		"verifies sound":                                    verifies,
	} {
		t.Run(name, func(t *testing.T) { test(t, open) })
	}
}

func clockBehind(t *testing.T, open Open) {
	b := set(t, open)
	b.push(t, anna(), written(planting(1), 0, 1, "label", `"one"`))
	must(t, b.Ready())
	b.clock.advance(-time.Millisecond)
	for name, j := range map[string]*journal.Journal{"before": b.Journal, "after a new start": on(t, b.log, b.fold, b.clock)} {
		var behind *journal.ClockError
		if err := j.Ready(); !errors.As(err, &behind) {
			t.Errorf("%s it is ready: %v", name, err)
		}
		if _, err := j.Push(t.Context(), home, anna(), []change.Change{written(planting(1), 0, 1, "label", `"two"`)}); !errors.As(err, &behind) {
			t.Errorf("%s it takes a push: %v", name, err)
		}
	}
	b.clock.advance(time.Millisecond)
	must(t, b.Ready())
	b.push(t, anna(), written(planting(1), 2, 3, "label", `"three"`))
}

func bigPushes(t *testing.T, open Open) {
	b := set(t, open)
	var changes []change.Change
	for i := range 300 { // some 9 MB: many transactions
		changes = append(changes, written(planting(byte(i%90)), 0, i%60, "note", `"`+strings.Repeat(string(rune('a'+i%26)), 30_000)+`"`))
	}
	for range 3000 { // more changes than one transaction holds writes
		seen := garden.Ref{Kind: garden.ObservationRecord, ID: newID()}
		changes = append(changes, written(seen, 0, 1, "stage", `61`))
	}
	applied := b.push(t, anna(), changes...)
	for i, a := range applied {
		if want := applied[0].Seq + uint64(i); a.Seq != want || a.ID != changes[i].ID {
			t.Fatalf("change %d was applied as %+v, want sequence %d", i, a, want)
		}
	}
	entriesFit(t, b)
	records := 0
	for _, err := range b.Each(t.Context(), home) {
		must(t, err)
		records++
	}
	if records != 90+3000 {
		t.Errorf("%d records", records)
	}
}

// losingPush pushes values that lose to what is there and are too big for the
// log: they are refused by themselves, and what came with them is taken.
func losingPush(t *testing.T, open Open) {
	b := set(t, open)
	b.push(t, anna(), written(planting(1), 0, 30, "futureThing", `1`))
	for _, size := range []int{60_000, 7_000_000} {
		losing := written(planting(1), 0, 1, "futureThing", `["`+strings.Repeat("x", size)+`"]`)
		answer, err := b.Push(t.Context(), home, ben(), []change.Change{losing, written(planting(2), 0, 2, "label", `"two"`)})
		must(t, err)
		if len(answer.Applied) != 1 || len(answer.Refused) != 1 || answer.Refused[0].Code != "change_too_big" {
			t.Errorf("of %d bytes: %+v", size, answer)
		}
	}
	entriesFit(t, b)
}

// entriesFit holds every entry of the log to the bound.
func entriesFit(t testing.TB, b *bench) {
	t.Helper()
	for e, err := range b.log.Read(t.Context(), home, entry.Head{}) {
		must(t, err)
		if size := len(e.AppendJSON(nil)); size > entry.MaxBytes {
			t.Errorf("the entry at %s has %d bytes", e.Head, size)
		}
	}
}

func samePage(t testing.TB, got, want journal.Page) {
	t.Helper()
	a, _ := json.Marshal(got)
	b, _ := json.Marshal(want)
	if string(a) != string(b) {
		t.Errorf("the feed is\n%s\nand was\n%s", a, b)
	}
}
