package journal

import (
	"context"
	"errors"
	"time"

	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
	"haulm/sync/journal/internal/store"
	"haulm/sync/journal/internal/together"
)

// A desk is where one garden's new acts are judged, one after the other. Jobs
// that come while others are being written are judged together next, and made
// durable together.
type desk struct {
	journal *Journal
	garden  string
	queue   together.Queue[*job]
}

// A job is something that a desk is asked to do.
type job struct {
	do  func(*draft) error
	err error
}

// maxTogether bounds how many jobs share one write, so that none waits long for
// the others to be judged.
const maxTogether = 64

func (j *Journal) desk(garden string) *desk {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.desks[garden] == nil {
		j.desks[garden] = &desk{journal: j, garden: garden}
	}
	return j.desks[garden]
}

// ask has a job done; what it did is durable when ask returns nil.
func (d *desk) ask(ctx context.Context, do func(*draft) error) error {
	mine := &job{do: do, err: errUnfinished}
	d.queue.Do(mine, func(waiting []*job) int { return min(len(waiting), maxTogether) }, func(jobs []*job) {
		d.serve(context.WithoutCancel(ctx), jobs)
	})
	return mine.err
}

// errUnfinished is what a job has until it is known to be durable, so that a
// panic in one job is no success of the others.
var errUnfinished = errors.New("judging changes came to an unexpected end: nothing of this request is known to be kept, send it again")

// maxRetries bounds how often a desk judges again because another server wrote
// to the same log first.
const maxRetries = 100

// serve does jobs. When another writer was first, it reads what was written and
// does them again: acts that did get into the log are then known as replays.
func (d *desk) serve(ctx context.Context, jobs []*job) {
	for range maxRetries {
		err := d.attempt(ctx, jobs)
		var head *entry.HeadError
		if !errors.As(err, &head) {
			return
		}
		if err := d.journal.fold.CatchUp(ctx, d.garden, d.journal.log); err != nil {
			finish(jobs, nil, err)
			return
		}
	}
}

func (d *desk) attempt(ctx context.Context, jobs []*job) error {
	now := d.journal.now()
	if err := d.journal.checkClock(now); err != nil {
		finish(jobs, nil, err)
		return nil
	}
	draft := &draft{desk: d, ctx: ctx, now: now}
	defer draft.close()
	own := make([]error, len(jobs))
	for i, job := range jobs {
		own[i] = job.do(draft)
	}
	err := draft.flush()
	finish(jobs, own, err)
	return err
}

// finish gives each job its own error, or where it has none that of all.
func finish(jobs []*job, own []error, all error) {
	for i, job := range jobs {
		job.err = all
		if own != nil && own[i] != nil {
			job.err = own[i]
		}
	}
}

// A draft is what a desk is writing: a sheet and the entries that made it.
type draft struct {
	desk    *desk
	ctx     context.Context
	now     time.Time
	sheet   *fold.Sheet // nil: begun anew when needed
	from    entry.Head  // the log's head under the sheet
	entries []entry.Entry
	last    int   // bytes of the last entry, at most
	bytes   int   // bytes of all entries, at most
	written bool  // a change that phones get is among the entries
	failed  error // the first failed flush; nothing is drafted after it
}

func (d *draft) close() {
	if d.sheet != nil {
		d.sheet.Close()
	}
}

// flush makes the draft durable and starts a new one.
func (d *draft) flush() error {
	if d.failed != nil || len(d.entries) == 0 {
		return d.failed
	}
	d.failed = d.desk.journal.commit(d.ctx, d.desk.garden, d.from, d.entries, d.sheet)
	if d.failed != nil {
		return d.failed
	}
	d.desk.journal.judgedAt(d.now)
	if d.written {
		d.desk.journal.tell(d.desk.garden, d.entries[len(d.entries)-1].Head)
	}
	d.sheet.Close()
	d.sheet, d.entries, d.last, d.bytes, d.written = nil, nil, 0, 0, false
	return nil
}

// open gives a sheet with room for an act, and where it stands.
func (d *draft) open(act store.Room) (*fold.Sheet, fold.Standing, error) {
	if d.sheet != nil && !d.room().Plus(act).Within(d.desk.journal.fold.Limit()) {
		if err := d.flush(); err != nil {
			return nil, fold.Standing{}, err
		}
	}
	if d.failed != nil {
		return nil, fold.Standing{}, d.failed
	}
	if d.sheet == nil {
		d.sheet = d.desk.journal.fold.Begin(d.desk.garden)
	}
	standing, err := d.sheet.Standing()
	if len(d.entries) == 0 {
		d.from = standing.Head
	}
	return d.sheet, standing, err
}

func (d *draft) room() store.Room {
	return d.sheet.Room().Plus(store.Room{Bytes: d.bytes, Count: len(d.entries)})
}

// A folder is a log that writes a sheet in the transaction of its entries.
type folder interface {
	AppendFolded(ctx context.Context, garden string, head entry.Head, entries []entry.Entry, sheet *fold.Sheet) (entry.Head, error)
}

func (j *Journal) commit(ctx context.Context, garden string, head entry.Head, entries []entry.Entry, sheet *fold.Sheet) error {
	if log, both := j.log.(folder); both {
		_, err := log.AppendFolded(ctx, garden, head, entries, sheet)
		return err
	}
	if _, err := j.log.Append(ctx, garden, head, entries...); err != nil {
		return err
	}
	return j.fold.Commit(sheet)
}

// entry gives the entry that the next act goes into: the last one when it has
// the same writer and room for the act, else a new one. The caller adds the act
// and its sequence.
func (d *draft) entry(like entry.Entry, bytes int) *entry.Entry {
	if n := len(d.entries); n > 0 {
		last := &d.entries[n-1]
		sameKind := (len(last.Private) > 0) == (len(like.Private) > 0) && last.Epoch == nil && like.Epoch == nil
		if sameKind && last.Writer == like.Writer && d.last+bytes <= entry.MaxBytes {
			d.last, d.bytes = d.last+bytes, d.bytes+bytes
			return last
		}
	}
	d.entries = append(d.entries, entry.Entry{Version: entry.Version, Now: d.now.UnixMilli(), Writer: like.Writer})
	d.last = entryBytes + bytes
	d.bytes += d.last
	return &d.entries[len(d.entries)-1]
}

// entryBytes is more than what an entry takes beside its acts: version, head,
// time, and the two names of the writer.
const entryBytes = 512
