// Package memory is a log that lives in memory: the plainest one that does what
// a log must, for tests and as the example of how to write another.
package memory

import (
	"context"
	"io"
	"iter"
	"maps"
	"slices"
	"sync"
	"time"

	"haulm/sync/journal/entry"
)

// A Log keeps entries as their JSON, as a log on another machine would. The
// zero Log is empty and ready.
type Log struct {
	mu      sync.Mutex // guards gardens
	gardens map[string][]kept
}

type kept struct {
	head entry.Head
	text []byte
}

var _ entry.Log = (*Log)(nil)

// Append implements entry.Log.
func (l *Log) Append(_ context.Context, garden string, head entry.Head, entries ...entry.Entry) (entry.Head, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if have := headOf(l.gardens[garden]); have != head {
		return have, &entry.HeadError{Garden: garden, Given: head, Have: have}
	}
	if err := entry.CheckRow(garden, head, entries); err != nil {
		return head, err
	}
	if l.gardens == nil {
		l.gardens = map[string][]kept{}
	}
	for i := range entries {
		l.gardens[garden] = append(l.gardens[garden], kept{entries[i].Head, entries[i].AppendJSON(nil)})
	}
	return headOf(l.gardens[garden]), nil
}

// Read implements entry.Log.
func (l *Log) Read(ctx context.Context, garden string, after entry.Head) iter.Seq2[entry.Entry, error] {
	return func(yield func(entry.Entry, error) bool) {
		l.mu.Lock()
		all := l.gardens[garden]
		l.mu.Unlock()
		for _, k := range all {
			if k.head.Seq <= after.Seq {
				continue
			}
			e, err := entry.Parse(k.text)
			if err == nil {
				err = ctx.Err()
			}
			if !yield(e, err) || err != nil {
				return
			}
		}
	}
}

// Gardens implements entry.Log.
func (l *Log) Gardens(context.Context) ([]string, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	names := slices.Sorted(maps.Keys(l.gardens))
	return slices.DeleteFunc(names, func(name string) bool { return name == entry.Global }), nil
}

// Snapshot implements entry.Log.
func (l *Log) Snapshot(ctx context.Context, garden string, to io.Writer) (entry.Head, error) {
	return entry.WriteSnapshot(to, l.Read(ctx, garden, entry.Head{}))
}

// Restore implements entry.Log.
func (l *Log) Restore(ctx context.Context, garden string, from io.ReadSeeker, epoch string, now time.Time) (entry.Head, error) {
	return entry.RestoreInto(ctx, l, garden, from, epoch, now)
}

func headOf(all []kept) entry.Head {
	if len(all) == 0 {
		return entry.Head{}
	}
	return all[len(all)-1].head
}
