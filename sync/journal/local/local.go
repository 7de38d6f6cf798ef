// Package local is the log of a single server: entries and what they fold to in
// one Badger in the data folder, written in one transaction, so that the two
// never differ. The tables are in the package comment of sync/journal.
package local

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"log/slog"
	"sync"
	"time"

	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
	"haulm/sync/journal/internal/store"
)

// A Log is a local log and its fold. It is for concurrent use.
type Log struct {
	store *store.Store
	fold  *fold.Fold

	mu    sync.Mutex             // guards locks
	locks map[string]*sync.Mutex // one writer at a time to each garden
}

var _ entry.Log = (*Log)(nil)

// Open opens or creates the log in a data folder. One process at a time can
// have it open.
func Open(dir string, logger *slog.Logger) (*Log, error) {
	s, err := store.Open(dir, logger)
	if err != nil {
		return nil, err
	}
	return &Log{store: s, fold: fold.On(s), locks: map[string]*sync.Mutex{}}, nil
}

// Fold is the fold that is kept with the log. Closing it closes both.
func (l *Log) Fold() *fold.Fold { return l.fold }

// Append implements entry.Log.
func (l *Log) Append(ctx context.Context, garden string, head entry.Head, entries ...entry.Entry) (entry.Head, error) {
	sheet := l.fold.Begin(garden)
	defer sheet.Close()
	if err := l.checkHead(sheet, garden, head); err != nil {
		return head, err
	}
	if err := entry.CheckRow(garden, head, entries); err != nil {
		return head, err
	}
	for _, e := range entries {
		if err := sheet.Fold(e); err != nil {
			return head, err
		}
	}
	return l.AppendFolded(ctx, garden, head, entries, sheet)
}

// AppendFolded is Append for a writer that has folded the entries already, on a
// sheet that it began when the log stood at head.
func (l *Log) AppendFolded(ctx context.Context, garden string, head entry.Head, entries []entry.Entry, sheet *fold.Sheet) (entry.Head, error) {
	if err := ctx.Err(); err != nil {
		return head, err
	}
	lock := l.lock(garden)
	lock.Lock()
	defer lock.Unlock()
	now := l.fold.Begin(garden)
	defer now.Close()
	if err := l.checkHead(now, garden, head); err != nil {
		return head, err
	}
	writes := sheet.Writes()
	for i := range entries {
		key := store.SeqKey(store.LogTable, garden, entries[i].Head.Seq)
		writes = append(writes, store.Write{Key: key, Value: entries[i].AppendJSON(make([]byte, 0, entry.MaxBytes/4))})
	}
	if err := l.store.Commit(writes); err != nil {
		return head, err
	}
	return entries[len(entries)-1].Head, nil
}

func (l *Log) lock(garden string) *sync.Mutex {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.locks[garden] == nil {
		l.locks[garden] = &sync.Mutex{}
	}
	return l.locks[garden]
}

func (l *Log) checkHead(sheet *fold.Sheet, garden string, head entry.Head) error {
	standing, err := sheet.Standing()
	var unknown *fold.UnknownGardenError
	if err != nil && !errors.As(err, &unknown) {
		return err
	}
	if standing.Head != head {
		return &entry.HeadError{Garden: garden, Given: head, Have: standing.Head}
	}
	return nil
}

// Read implements entry.Log.
func (l *Log) Read(ctx context.Context, garden string, after entry.Head) iter.Seq2[entry.Entry, error] {
	return func(yield func(entry.Entry, error) bool) {
		view := l.store.View()
		defer view.Close()
		last := after.Seq
		for pair, err := range view.Scan(store.Key(store.LogTable, garden, ""), store.Seq(after.Seq+1)) {
			var e entry.Entry
			if err == nil {
				e, err = entry.Parse(pair.Value)
			}
			if err == nil && e.First() != last+1 {
				err = fmt.Errorf("%w: the entry before it is missing", store.ErrDamaged)
			}
			if err == nil {
				err = ctx.Err()
			}
			if err != nil {
				_, what, name := fold.NameOf(pair.Key)
				err = fold.Damage(err, garden, what, name)
			}
			last = e.Head.Seq
			if !yield(e, err) || err != nil {
				return
			}
		}
	}
}

// Gardens implements entry.Log.
func (l *Log) Gardens(context.Context) ([]string, error) { return l.fold.Gardens() }

// Snapshot implements entry.Log.
func (l *Log) Snapshot(ctx context.Context, garden string, to io.Writer) (entry.Head, error) {
	return entry.WriteSnapshot(to, l.Read(ctx, garden, entry.Head{}))
}

// Restore implements entry.Log.
func (l *Log) Restore(ctx context.Context, garden string, from io.ReadSeeker, epoch string, now time.Time) (entry.Head, error) {
	return entry.RestoreInto(ctx, l, garden, from, epoch, now)
}
