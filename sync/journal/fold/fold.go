// Package fold is what a garden's log adds up to, kept in Badger: each record at
// its latest sequence, the outcome of each change, the digest, and the private
// values. The tables are in the package comment of sync/journal.
//
// A Fold is opened on a folder and may be lost at any time: CatchUp makes it
// again from the log. Folding is pure: the state after an entry depends on the
// state before it and the entry alone (sheet.go). Readers use a View (view.go),
// which shows one moment.
package fold

import (
	"context"
	"errors"
	"fmt"
	"log/slog"

	"haulm/sync/journal/entry"
	"haulm/sync/journal/internal/store"
)

// A Fold keeps the folded state of many gardens. It is for concurrent use;
// folding into one garden is for one writer at a time.
type Fold struct{ store *store.Store }

// Open opens the fold in a folder of its own; an empty dir is memory alone.
func Open(dir string, logger *slog.Logger) (*Fold, error) {
	s, err := store.Open(dir, logger)
	if err != nil {
		return nil, err
	}
	return On(s), nil
}

// On puts the fold on a store that something else is kept in too.
func On(s *store.Store) *Fold { return &Fold{s} }

// Close closes the store.
func (f *Fold) Close() error { return f.store.Close() }

// Err is the failed write after which nothing more is taken.
func (f *Fold) Err() error { return f.store.Err() }

// Limit is the room that one sheet, with what is written beside it, may take.
func (f *Fold) Limit() store.Room { return f.store.Limit() }

// Commit writes a sheet down. Losing it to a power cut is no harm where the log
// is kept elsewhere.
func (f *Fold) Commit(sheet *Sheet) error { return f.store.Commit(sheet.Writes()) }

// CatchUp folds what a log has beyond the fold.
func (f *Fold) CatchUp(ctx context.Context, garden string, log entry.Log) error {
	from, err := f.head(garden)
	if err != nil {
		return err
	}
	for e, err := range log.Read(ctx, garden, from) {
		if err != nil {
			return fmt.Errorf("reading the log of garden %q: %w", garden, err)
		}
		if err := f.foldOne(garden, e); err != nil {
			return err
		}
	}
	return nil
}

// foldOne folds and writes one entry; an entry was cut so that it fits.
func (f *Fold) foldOne(garden string, e entry.Entry) error {
	sheet := f.Begin(garden)
	defer sheet.Close()
	if err := sheet.Fold(e); err != nil {
		return err
	}
	return f.Commit(sheet)
}

func (f *Fold) head(garden string) (entry.Head, error) {
	view := f.View(garden)
	defer view.Close()
	standing, err := view.Standing()
	var unknown *UnknownGardenError
	if errors.As(err, &unknown) {
		return entry.Head{}, nil
	}
	return standing.Head, err
}

// An UnknownGardenError says that there is no such garden here.
type UnknownGardenError struct{ Garden string }

func (e *UnknownGardenError) Error() string {
	return fmt.Sprintf("there is no garden %q on this server", e.Garden)
}
