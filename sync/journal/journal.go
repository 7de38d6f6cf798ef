// Package journal keeps gardens: it judges what phones push, puts it durably
// into the garden's log, and gives phones and the reckoning what the log folds
// to. Start with Journal.Push (push.go), which goes through a desk (desk.go), and
// Journal.Pull (pull.go).
//
// Two parts lie below. A log (package entry) orders entries: local keeps it in
// the data folder, memory in memory. The fold (package fold) is what the entries
// add up to, always in Badger; its key and value tables, with the log's own where
// the log is local, are:
//
//	table | rest of the key          | value
//	h     |                          | where the fold stands: head, parent, fork, greatest stamp,
//	      |                          | latest time of judging, digest, count, rules (JSON)
//	l     | an entry's last sequence | the entry (JSON); local logs only
//	f     | sequence                 | the record that last changed then: its ref and change.State
//	r     | ref                      | the sequence under which f has the record
//	i     | change id                | outcome: 16 bytes of content hash, sequence, final stamp
//	s     | bucket, 1 byte           | sum of the digests of the bucket's records, 32 hex digits
//	p     | the private key          | version (sequence), then the value's JSON
//	c     |                          | number of commits, under no garden
//
// A key is the table's byte, the garden's id, NUL, the rest. The garden of the
// empty id is the server's own space. Sequences are 8 bytes, big endian, so that
// f is the feed in order. Every value has in front of it the 64-bit xxHash of its
// key and itself; an empty value is damage.
//
// Outcomes are kept for good, which is more than the 400 days that are promised:
// a household's changes take some megabytes in a lifetime, and folding stays a
// function of the log alone.
package journal

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"sync/atomic"
	"time"

	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
	"haulm/sync/journal/local"
)

// Options say where and by which clock.
type Options struct {
	Dir    string           // the folder of the local log
	Now    func() time.Time // the server's clock
	Logger *slog.Logger     // may be nil
}

// A Journal keeps the gardens of one server. It is for concurrent use.
type Journal struct {
	log  entry.Log
	fold *fold.Fold
	now  func() time.Time
	mark atomic.Int64 // the latest time of judging, Unix milliseconds

	mu     sync.Mutex // guards desks and watch
	desks  map[string]*desk
	watch  map[string]map[chan string]struct{}
	closed bool
}

// Global is the server's own space of private entries.
const Global = entry.Global

// Open opens or creates the journal in a data folder, on a local log.
func Open(ctx context.Context, options Options) (*Journal, error) {
	log, err := local.Open(options.Dir, options.Logger)
	if err != nil {
		return nil, err
	}
	if missing := log.Missing(); missing > 0 {
		if options.Logger != nil {
			options.Logger.Error("the write-ahead log was damaged and acknowledged writes are lost; every garden starts a new epoch, so that phones compare and send again what they hold",
				"folder", options.Dir, "lost", missing)
		}
		err = log.Fork(ctx, options.Now(), NewEpoch)
	}
	if err == nil {
		var journal *Journal
		if journal, err = OpenOn(ctx, log, log.Fold(), options); err == nil {
			return journal, nil
		}
	}
	return nil, errors.Join(err, log.Fold().Close())
}

// OpenOn opens a journal on any log and a fold, which is brought up to the log
// first. The options' folder is not used.
func OpenOn(ctx context.Context, log entry.Log, fold *fold.Fold, options Options) (*Journal, error) {
	j := &Journal{log: log, fold: fold, now: options.Now, desks: map[string]*desk{}, watch: map[string]map[chan string]struct{}{}}
	if err := j.catchUp(ctx); err != nil {
		return nil, err
	}
	mark, err := fold.Mark()
	if err != nil {
		return nil, err
	}
	j.mark.Store(mark)
	return j, j.ownSpace(ctx)
}

func (j *Journal) catchUp(ctx context.Context) error {
	gardens, err := j.log.Gardens(ctx)
	if err != nil {
		return err
	}
	for _, garden := range append(gardens, Global) {
		if err := j.fold.CatchUp(ctx, garden, j.log); err != nil {
			return err
		}
	}
	return nil
}

// ownSpace makes the server's own space at the first start. Where it is there,
// nothing is written, so that a server with a wrong clock starts and says so.
func (j *Journal) ownSpace(ctx context.Context) error {
	_, err := j.Cursor(ctx, Global)
	var unknown *UnknownGardenError
	if errors.As(err, &unknown) {
		return j.create(ctx, Global)
	}
	return err
}

// Close ends the journal and every watch. What was acknowledged is safe without
// it.
func (j *Journal) Close() error {
	j.closeWatches()
	return j.fold.Close()
}

// Ready tells whether changes can be judged: nil, a *ClockError while the
// server's clock is below the latest time at which it judged, or what broke the
// disk.
func (j *Journal) Ready() error {
	if err := j.fold.Err(); err != nil {
		return err
	}
	return j.checkClock(j.now())
}

func (j *Journal) checkClock(now time.Time) error {
	if mark := j.mark.Load(); now.UnixMilli() < mark {
		return &ClockError{Now: now.UTC(), Mark: time.UnixMilli(mark).UTC()}
	}
	return nil
}

// judgedAt moves the mark up.
func (j *Journal) judgedAt(now time.Time) {
	for mark := j.mark.Load(); now.UnixMilli() > mark; mark = j.mark.Load() {
		if j.mark.CompareAndSwap(mark, now.UnixMilli()) {
			return
		}
	}
}
