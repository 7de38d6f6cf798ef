// Package synctest is what every log must pass, alone and with a journal on it.
//
// To add a log: write an Open that gives an empty one with a fold beside it, and
// call Run from a test, as synctest_test.go does for the two that are here. The
// log's own promises are in log.go; what a journal makes of it is listed in
// journal.go and tested in push.go (judging, replays), feed.go (what phones read),
// folding.go (the same state from the log alone) and private.go; phones that write
// apart, lose answers and have wrong clocks, and must agree in the end, in
// converge.go with phone.go.
package synctest

import (
	"context"
	"encoding/json"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
)

// Open gives an empty log and the fold that goes with it, both closed at the end
// of the test.
type Open func(t *testing.T) (entry.Log, *fold.Fold)

// Run runs the whole suite.
func Run(t *testing.T, open Open) {
	t.Run("log", func(t *testing.T) { runLog(t, open) })
	t.Run("journal", func(t *testing.T) { runJournal(t, open) })
	t.Run("private", func(t *testing.T) { runPrivate(t, open) })
	t.Run("converge", func(t *testing.T) { runConverge(t, open) })
}

const home = "0192aaaa-0000-7000-8000-000000000001"

// A wallClock is the server's clock in a test: it stands still until it is set.
type wallClock struct {
	mu sync.Mutex // guards at
	at time.Time
}

func newClock() *wallClock {
	return &wallClock{at: time.Date(2026, 6, 2, 9, 0, 0, 0, time.UTC)}
}

func (c *wallClock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at
}

func (c *wallClock) advance(by time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(by)
}

// A bench is a journal under test, with its parts.
type bench struct {
	*journal.Journal
	log   entry.Log
	fold  *fold.Fold
	clock *wallClock
}

// set opens a journal with one garden.
func set(t *testing.T, open Open) *bench {
	t.Helper()
	log, fold := open(t)
	b := &bench{log: log, fold: fold, clock: newClock()}
	b.Journal = on(t, log, fold, b.clock)
	must(t, b.CreateGarden(t.Context(), home))
	return b
}

func on(t *testing.T, log entry.Log, fold *fold.Fold, clock *wallClock) *journal.Journal {
	t.Helper()
	j, err := journal.OpenOn(t.Context(), log, fold, journal.Options{Now: clock.now})
	must(t, err)
	return j
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func planting(n byte) garden.Ref {
	return garden.Ref{Kind: garden.PlantingRecord, ID: "0192bbbb-0000-7000-8000-0000000000" + string([]byte{'0' + n/10, '0' + n%10})}
}

// written makes a change of one field, stamped by minute.
func written(ref garden.Ref, base uint64, minute int, field, value string) change.Change {
	at := time.Date(2026, 6, 2, 8, minute, 0, 0, time.UTC)
	return change.Change{ID: newID(), Record: ref, Base: base, At: change.MakeStamp(at, 0, "aaaaaa"), Set: garden.Fields{field: json.RawMessage(value)}}
}

func newID() string { return uuid.Must(uuid.NewV7()).String() }

func anna() journal.Writer { return journal.Writer{Member: "anna", Device: "phone-a"} }
func ben() journal.Writer  { return journal.Writer{Member: "ben", Device: "phone-b"} }

// push pushes and expects everything to be applied.
func (b *bench) push(t testing.TB, by journal.Writer, changes ...change.Change) []journal.Applied {
	t.Helper()
	answer, err := b.Push(context.Background(), home, by, changes)
	must(t, err)
	if len(answer.Refused) > 0 || len(answer.Applied) != len(changes) {
		t.Fatalf("refused: %+v", answer.Refused)
	}
	return answer.Applied
}

func (b *bench) pull(t testing.TB, cursor string) journal.Page {
	t.Helper()
	page, err := b.Pull(context.Background(), home, cursor, 0)
	must(t, err)
	return page
}

// field is the JSON of a record's field.
func (b *bench) field(t testing.TB, ref garden.Ref, name string) string {
	t.Helper()
	record, err := b.Get(context.Background(), home, ref)
	must(t, err)
	return string(record.State.Value(name))
}
