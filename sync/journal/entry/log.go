// Package entry is what a garden's log holds, and the interface of a log.
//
// A garden's log is a row of entries (entry.go). An entry is one judged batch:
// changes with their final stamps and sequences, or private writes, or the start
// of an epoch. Every act in it has a sequence of its own, counted up without
// gaps, and the log's Head is the epoch and the last sequence. A Cursor is a
// Head as phones hold it.
//
// A Log (this file) orders and keeps entries; what they add up to is the
// business of the fold. The suite in sync/synctest says what a Log must do.
package entry

import (
	"context"
	"fmt"
	"io"
	"iter"
	"time"
)

// A Log keeps the ordered entries of many gardens. It is for concurrent use.
// The log of the name Global is the server's own and has private writes alone.
type Log interface {
	// Append puts entries at the end of a garden's log, all or none, and gives
	// the new head. It is durable when it returns without an error. It fails
	// with a *HeadError when head is not the log's head: of several writers one
	// wins. The first append to a garden has the zero head and starts an epoch.
	Append(ctx context.Context, garden string, head Head, entries ...Entry) (Head, error)

	// Read gives the entries after a head, in order, each once. It ends at the
	// head that the log has when it is called. A garden that does not exist
	// gives none. After an error it ends.
	Read(ctx context.Context, garden string, after Head) iter.Seq2[Entry, error]

	// Gardens lists the gardens that have a log, sorted, Global not among them.
	Gardens(ctx context.Context) ([]string, error)

	// Snapshot writes a garden's whole log, in a form that Restore reads and
	// that shows whether it is complete, and gives the head it was taken at.
	Snapshot(ctx context.Context, garden string, to io.Writer) (Head, error)

	// Restore fills a garden that has no log from a snapshot and then starts
	// the given epoch, whose parent and fork are the snapshot's head. A
	// snapshot that is incomplete or damaged leaves no garden behind; the error
	// wraps ErrSnapshot.
	Restore(ctx context.Context, garden string, from io.ReadSeeker, epoch string, now time.Time) (Head, error)
}

// Global is the name of the log that belongs to no garden.
const Global = ""

// A Head is how far a log has come. The zero Head is of no log.
type Head struct {
	Epoch string
	Seq   uint64
}

// A HeadError says that a writer's head was not the log's: somebody else wrote
// first. The writer reads on and judges again.
type HeadError struct {
	Garden      string
	Given, Have Head
}

func (e *HeadError) Error() string {
	return fmt.Sprintf("the log of garden %q stands at %s and not at %s: another writer was first", e.Garden, e.Have, e.Given)
}
