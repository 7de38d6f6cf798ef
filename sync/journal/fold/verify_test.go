package fold

import (
	"encoding/json"
	"fmt"
	"testing"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/internal/store"
)

func planting(n int) garden.Ref {
	return garden.Ref{Kind: garden.PlantingRecord, ID: fmt.Sprint("p", n)}
}

// folded makes a fold of three records, at sequences 2 to 4.
func folded(t *testing.T) *Fold {
	f, err := Open("", nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	entries := []entry.Entry{entry.Start(entry.Head{}, "one", 1)}
	for i := range 3 {
		c := change.Change{ID: fmt.Sprint("change-", i), Record: planting(i), At: "2026-06-02T09:00:00.000Z-0000-aaaaaa", Set: garden.Fields{"label": json.RawMessage(`"x"`)}}
		entries = append(entries, entry.Entry{Version: entry.Version, Head: entry.Head{Epoch: "one", Seq: uint64(i + 2)}, Now: 2,
			Writer: change.Writer{Member: "anna", Device: "a"}, Changes: []entry.Change{{Change: c, Hash: c.ContentHash()}}})
	}
	for _, e := range entries {
		if err := f.foldOne("g", e); err != nil {
			t.Fatal(err)
		}
	}
	return f
}

// TestVerifyFindsWhatDoesNotAddUp takes away or replaces sound values, which no
// checksum of a single value can show.
func TestVerifyFindsWhatDoesNotAddUp(t *testing.T) {
	standing := func(change func(*Standing)) store.Write {
		f := folded(t)
		view := f.View("g")
		defer view.Close()
		s, err := view.Standing()
		if err != nil {
			t.Fatal(err)
		}
		change(&s)
		return store.Write{Key: store.Key(store.StandingTable, "g", ""), Value: encodeStanding(s)}
	}
	older := &change.State{Seq: 3, Fields: []change.Field{{Name: "label", Value: json.RawMessage(`"y"`), Write: change.Write{Seq: 3, At: "2026-06-02T08:00:00.000Z-0000-aaaaaa"}}}}
	for name, write := range map[string]store.Write{
		"a record of the feed is missing":      {Key: store.SeqKey(store.FeedTable, "g", 3)},
		"a record's place is missing":          {Key: store.Key(store.RecordTable, "g", planting(1).String())},
		"a record's place is another":          {Key: store.Key(store.RecordTable, "g", planting(1).String()), Value: store.Seq(2)},
		"an older state of a record came back": {Key: store.SeqKey(store.FeedTable, "g", 3), Value: encodeRecord(planting(1), older)},
		"a record is there twice":              {Key: store.SeqKey(store.FeedTable, "g", 9), Value: encodeRecord(planting(1), &change.State{Seq: 9})},
		"a sum is missing":                     {Key: sumKey("g", change.BucketOf(planting(1)))},
		"the standing is missing":              {Key: store.Key(store.StandingTable, "g", "")},
		"the standing has another digest":      standing(func(s *Standing) { s.Digest = s.Digest.Plus(s.Digest) }),
		"the standing has other rules":         standing(func(s *Standing) { s.Rules++ }),
		"a value is of no table":               {Key: []byte("xg\x00y"), Value: []byte("1")},
		"a log entry is of another place":      {Key: store.SeqKey(store.LogTable, "g", 3), Value: []byte(`{"v":1,"head":"one.3","now":1}`)},
	} {
		f := folded(t)
		if report, err := f.Verify(t.Context(), nil); err != nil || len(report.Damage) > 0 || report.Values == 0 {
			t.Fatal(report, err)
		}
		if err := f.store.Commit([]store.Write{write}); err != nil {
			t.Fatal(err)
		}
		report, err := f.Verify(t.Context(), nil)
		if err != nil || len(report.Damage) == 0 {
			t.Errorf("%s, and nothing is found (%v)", name, err)
		}
	}
}

// TestARecordThatIsNotWhereItWasPut is damage, not a missing record.
func TestARecordThatIsNotWhereItWasPut(t *testing.T) {
	for name, write := range map[string]store.Write{
		"missing": {Key: store.SeqKey(store.FeedTable, "g", 3)},
		"another": {Key: store.SeqKey(store.FeedTable, "g", 3), Value: encodeRecord(planting(2), &change.State{Seq: 3})},
	} {
		f := folded(t)
		if err := f.store.Commit([]store.Write{write}); err != nil {
			t.Fatal(err)
		}
		view := f.View("g")
		_, err := view.Record(planting(1))
		view.Close()
		if damage, ok := err.(*DamageError); !ok || damage.Name != planting(1).String() {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestFoldRefusesAnEntryThatDoesNotFollow(t *testing.T) {
	f := folded(t)
	sheet := f.Begin("g")
	defer sheet.Close()
	if err := sheet.Fold(entry.Entry{Version: entry.Version, Head: entry.Head{Epoch: "one", Seq: 9}, Private: []entry.Private{{Key: "k"}}}); err == nil {
		t.Error("an entry was folded over a gap")
	}
}
