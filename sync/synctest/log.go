package synctest

import (
	"bytes"
	"errors"
	"slices"
	"sync"
	"testing"
	"time"

	"haulm/sync/change"
	"haulm/sync/journal/entry"
)

func runLog(t *testing.T, open Open) {
	t.Run("gives back what was appended, in order", func(t *testing.T) { logOrder(t, open) })
	t.Run("refuses a head that is not its own, and keeps nothing", func(t *testing.T) { logHead(t, open) })
	t.Run("refuses entries that do not follow", func(t *testing.T) { logGap(t, open) })
	t.Run("lets one of many writers win", func(t *testing.T) { logRace(t, open) })
	t.Run("lists gardens and not its own space", func(t *testing.T) { logGardens(t, open) })
	t.Run("restores a snapshot in a new epoch", func(t *testing.T) { logSnapshot(t, open) })
	t.Run("takes no damaged snapshot", func(t *testing.T) { logDamagedSnapshot(t, open) })
}

// row makes the start of a garden and n entries of one change each.
func row(n int) []entry.Entry {
	entries := []entry.Entry{entry.Start(entry.Head{}, "one", 1)}
	for i := range n {
		c := written(planting(byte(i)), 0, i, "label", `"x"`)
		entries = append(entries, entry.Entry{
			Version: entry.Version, Head: entry.Head{Epoch: "one", Seq: uint64(i + 2)}, Now: int64(i + 2),
			Writer:  change.Writer{Member: "anna", Device: "phone-a"},
			Changes: []entry.Change{{Change: c, Hash: c.ContentHash()}},
		})
	}
	return entries
}

func texts(t testing.TB, log entry.Log, garden string, after entry.Head) (lines []string) {
	t.Helper()
	for e, err := range log.Read(t.Context(), garden, after) {
		must(t, err)
		lines = append(lines, string(e.AppendJSON(nil)))
	}
	return lines
}

func linesOf(entries []entry.Entry) (lines []string) {
	for i := range entries {
		lines = append(lines, string(entries[i].AppendJSON(nil)))
	}
	return lines
}

func logOrder(t *testing.T, open Open) {
	log, _ := open(t)
	entries := row(5)
	head, err := log.Append(t.Context(), home, entry.Head{}, entries[:3]...)
	must(t, err)
	if head != entries[2].Head {
		t.Errorf("the head is %s", head)
	}
	_, err = log.Append(t.Context(), home, head, entries[3:]...)
	must(t, err)
	if got := texts(t, log, home, entry.Head{}); !slices.Equal(got, linesOf(entries)) {
		t.Errorf("read %q", got)
	}
	if got := texts(t, log, home, head); !slices.Equal(got, linesOf(entries[3:])) {
		t.Errorf("read after %s: %q", head, got)
	}
	if got := texts(t, log, "nowhere", entry.Head{}); len(got) != 0 {
		t.Errorf("a garden that is not there has %q", got)
	}
}

func logHead(t *testing.T, open Open) {
	log, _ := open(t)
	entries := row(3)
	head, err := log.Append(t.Context(), home, entry.Head{}, entries[:2]...)
	must(t, err)
	for _, wrong := range []entry.Head{{}, {Epoch: "one", Seq: 1}, {Epoch: "one", Seq: 3}, {Epoch: "two", Seq: 2}} {
		_, err := log.Append(t.Context(), home, wrong, entries[2])
		var stale *entry.HeadError
		if !errors.As(err, &stale) || stale.Have != head || stale.Given != wrong {
			t.Errorf("at %s: %v", wrong, err)
		}
	}
	if got := texts(t, log, home, entry.Head{}); len(got) != 2 {
		t.Errorf("%d entries are there", len(got))
	}
}

func logGap(t *testing.T, open Open) {
	log, _ := open(t)
	entries := row(3)
	_, err := log.Append(t.Context(), home, entry.Head{}, entries[0])
	must(t, err)
	if _, err := log.Append(t.Context(), home, entries[0].Head, entries[2]); err == nil {
		t.Error("an entry that leaves a gap was taken")
	}
	if _, err := log.Append(t.Context(), home, entries[0].Head, entries[1], entries[3]); err == nil {
		t.Error("entries with a gap between them were taken")
	}
	foreign := entries[1]
	foreign.Head.Epoch = "two"
	if _, err := log.Append(t.Context(), home, entries[0].Head, foreign); err == nil {
		t.Error("an entry of another epoch was taken")
	}
	if got := texts(t, log, home, entry.Head{}); len(got) != 1 {
		t.Errorf("%d entries are there: appending is all or none", len(got))
	}
}

func logRace(t *testing.T, open Open) {
	log, _ := open(t)
	entries := row(1)
	head, err := log.Append(t.Context(), home, entry.Head{}, entries[0])
	must(t, err)
	var wait sync.WaitGroup
	won := make(chan bool, 8)
	for range cap(won) {
		wait.Go(func() {
			_, err := log.Append(t.Context(), home, head, entries[1])
			won <- err == nil
		})
	}
	wait.Wait()
	close(won)
	winners := 0
	for w := range won {
		if w {
			winners++
		}
	}
	if got := texts(t, log, home, entry.Head{}); winners != 1 || len(got) != 2 {
		t.Errorf("%d writers won, %d entries are there", winners, len(got))
	}
}

func logGardens(t *testing.T, open Open) {
	log, _ := open(t)
	for _, garden := range []string{"b", entry.Global, "a", "a-1"} {
		_, err := log.Append(t.Context(), garden, entry.Head{}, row(0)...)
		must(t, err)
	}
	gardens, err := log.Gardens(t.Context())
	must(t, err)
	if !slices.Equal(gardens, []string{"a", "a-1", "b"}) {
		t.Errorf("the gardens are %q", gardens)
	}
}

func logSnapshot(t *testing.T, open Open) {
	from, _ := open(t)
	entries := row(4)
	head, err := from.Append(t.Context(), home, entry.Head{}, entries...)
	must(t, err)
	var file bytes.Buffer
	at, err := from.Snapshot(t.Context(), home, &file)
	must(t, err)
	if at != head {
		t.Errorf("the snapshot is of %s", at)
	}
	to, _ := open(t)
	restored, err := to.Restore(t.Context(), home, bytes.NewReader(file.Bytes()), "two", time.UnixMilli(99))
	must(t, err)
	if want := (entry.Head{Epoch: "two", Seq: head.Seq + 1}); restored != want {
		t.Errorf("the head is %s, want %s", restored, want)
	}
	want := linesOf(append(entries, entry.Start(head, "two", 99)))
	if got := texts(t, to, home, entry.Head{}); !slices.Equal(got, want) {
		t.Errorf("read %q\nwant %q", got, want)
	}
	if _, err := to.Restore(t.Context(), home, bytes.NewReader(file.Bytes()), "three", time.UnixMilli(99)); err == nil {
		t.Error("a garden that is there was restored over")
	}
}

func logDamagedSnapshot(t *testing.T, open Open) {
	from, _ := open(t)
	_, err := from.Append(t.Context(), home, entry.Head{}, row(2)...)
	must(t, err)
	var file bytes.Buffer
	_, err = from.Snapshot(t.Context(), home, &file)
	must(t, err)
	to, _ := open(t)
	whole := file.Bytes()
	var bad [][]byte
	for n := 0; n < len(whole); n += 37 {
		bad = append(bad, whole[:n])
	}
	flipped := bytes.Replace(whole, []byte(`"x"`), []byte(`"y"`), 1)
	dropped := append(bytes.Clone(whole[:bytes.IndexByte(whole, '\n')+1]), whole[bytes.LastIndexByte(whole[:len(whole)-1], '\n')+1:]...)
	for i, damaged := range append(bad, flipped, dropped) {
		if _, err := to.Restore(t.Context(), home, bytes.NewReader(damaged), "two", time.UnixMilli(99)); !errors.Is(err, entry.ErrSnapshot) {
			t.Errorf("damaged snapshot %d: %v", i, err)
		}
	}
	if got := texts(t, to, home, entry.Head{}); len(got) != 0 {
		t.Errorf("a damaged snapshot left %q behind", got)
	}
}
