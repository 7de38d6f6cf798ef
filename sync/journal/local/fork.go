package local

import (
	"context"
	"time"

	"haulm/sync/journal/entry"
)

// Missing is the number of acknowledged writes that the folder had lost when it
// was opened, through damage to Badger's write-ahead log.
func (l *Log) Missing() uint64 { return l.store.Missing() }

// Fork starts a new epoch in every garden after writes went missing: sequences
// beyond the heads were given out and will be given again, for other changes. A
// crash on the way makes the next Open do it again.
func (l *Log) Fork(ctx context.Context, now time.Time, newEpoch func() string) error {
	gardens, err := l.Gardens(ctx)
	if err != nil {
		return err
	}
	for _, garden := range append(gardens, entry.Global) {
		if err := l.forkOne(ctx, garden, now, newEpoch()); err != nil {
			return err
		}
	}
	return l.store.Forget()
}

func (l *Log) forkOne(ctx context.Context, garden string, now time.Time, epoch string) error {
	view := l.fold.View(garden)
	defer view.Close()
	standing, err := view.Standing()
	if err != nil {
		return err
	}
	at := max(now.UnixMilli(), standing.Mark)
	_, err = l.Append(ctx, garden, standing.Head, entry.Start(standing.Head, epoch, at))
	return err
}
