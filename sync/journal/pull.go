package journal

import (
	"context"
	"errors"
	"iter"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
)

// A Page is a part of the feed: records at their latest sequence, each once, in
// order of sequence, tombstones included.
type Page struct {
	Records []change.Record `json:"records"`
	Cursor  string          `json:"cursor"` // where to go on
	More    bool            `json:"more"`   // there is more to read at once
	Digest  string          `json:"digest,omitempty"`
}

// Limits of a page. A page of records as people write them has a third of a
// megabyte at the usual limit.
const (
	DefaultLimit = 500     // records, where none is given
	MaxLimit     = 5000    // records
	maxPageBytes = 1 << 20 // bytes of values, about; one record fits in any case
)

// Pull gives what changed after a cursor; the empty cursor is the beginning. The
// digest comes with the last page and is of the same moment. A cursor of another
// life of the garden is an *EpochError, and damage a *DamageError: nothing is
// left out silently.
func (j *Journal) Pull(_ context.Context, garden, cursor string, limit int) (Page, error) {
	view := j.fold.View(garden)
	defer view.Close()
	standing, after, err := place(view, garden, cursor)
	if err != nil {
		return Page{}, err
	}
	page, err := read(view, after.Seq, clampLimit(limit))
	if err != nil {
		return Page{}, err
	}
	head := standing.Head
	if page.More {
		head.Seq = page.Records[len(page.Records)-1].State.Seq
	} else {
		page.Digest = standing.Digest.String()
	}
	page.Cursor = head.String()
	return page, nil
}

func clampLimit(limit int) int {
	if limit <= 0 {
		return DefaultLimit
	}
	return min(limit, MaxLimit)
}

func read(view *fold.View, after uint64, limit int) (Page, error) {
	page, size := Page{Records: []change.Record{}}, 0
	for record, err := range view.Feed(after) {
		if err != nil {
			return Page{}, err
		}
		size += record.State.Size()
		if len(page.Records) == limit || len(page.Records) > 0 && size > maxPageBytes {
			page.More = true
			break
		}
		page.Records = append(page.Records, record)
	}
	return page, nil
}

// Check tells whether a cursor belongs to the garden's present epoch, as Pull
// does. A server asks it before it pushes what came with the cursor, since the
// bases of another epoch mean other sequences.
func (j *Journal) Check(_ context.Context, garden, cursor string) error {
	view := j.fold.View(garden)
	defer view.Close()
	_, _, err := place(view, garden, cursor)
	return err
}

func place(view *fold.View, garden, cursor string) (fold.Standing, entry.Head, error) {
	standing, err := view.Standing()
	if err != nil {
		return fold.Standing{}, entry.Head{}, err
	}
	after, err := entry.ParseCursor(cursor)
	if err != nil {
		return fold.Standing{}, entry.Head{}, err
	}
	if after != (entry.Head{}) && (after.Epoch != standing.Head.Epoch || after.Seq > standing.Head.Seq) {
		return fold.Standing{}, entry.Head{}, &EpochError{Garden: garden, Cursor: after, Now: standing.Head, Parent: standing.Parent, Fork: standing.Fork}
	}
	return standing, after, nil
}

// Get reads one record, gone or not; *MissingError when nobody wrote it.
func (j *Journal) Get(_ context.Context, name string, ref garden.Ref) (change.Record, error) {
	view := j.fold.View(name)
	defer view.Close()
	record, err := view.Record(ref)
	if errors.Is(err, fold.ErrMissing) {
		return change.Record{}, &MissingError{name, "record " + ref.String()}
	}
	return record, err
}

// Applied tells at which sequence, and with which stamp, a change was applied;
// *MissingError when none of that id was.
func (j *Journal) Applied(_ context.Context, name, id string) (Applied, error) {
	view := j.fold.View(name)
	defer view.Close()
	outcome, err := view.Outcome(id)
	if errors.Is(err, fold.ErrMissing) {
		return Applied{}, &MissingError{name, "change " + id}
	}
	return Applied{id, outcome.Seq, outcome.At}, err
}

// Each gives every record that is not gone, in order of sequence, as the garden
// was when the loop began. A damaged one comes as an error; the loop can go on.
func (j *Journal) Each(_ context.Context, garden string) iter.Seq2[change.Record, error] {
	return func(yield func(change.Record, error) bool) {
		view := j.fold.View(garden)
		defer view.Close()
		if _, err := view.Standing(); err != nil {
			yield(change.Record{}, err)
			return
		}
		for record, err := range view.Feed(0) {
			if err == nil && record.State.Gone.Value {
				continue
			}
			if !yield(record, err) {
				return
			}
		}
	}
}

// Cursor is where the garden stands, as Watch tells it.
func (j *Journal) Cursor(_ context.Context, garden string) (string, error) {
	view := j.fold.View(garden)
	defer view.Close()
	standing, err := view.Standing()
	return standing.Head.String(), err
}
