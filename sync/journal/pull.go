package journal

import (
	"context"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"iter"
	"strings"

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

// Sums are the digests of a garden's buckets, and the cursor of that moment.
type Sums struct {
	Cursor string                        `json:"cursor"`
	Sums   [change.Buckets]change.Digest `json:"sums"`
}

// PullSums gives the digests of the garden's 256 buckets, which together are the
// digest; a record's bucket is change.BucketOf. A phone whose digest differs
// finds with them what to mend.
func (j *Journal) PullSums(_ context.Context, garden string) (Sums, error) {
	view := j.fold.View(garden)
	defer view.Close()
	standing, err := view.Standing()
	if err != nil {
		return Sums{}, err
	}
	sums, err := view.Sums()
	return Sums{standing.Head.String(), sums}, err
}

// PullBucket gives all records of a bucket, tombstones included, sorted by ref
// as text, and the cursor of that moment. It looks at every ref of the garden.
func (j *Journal) PullBucket(_ context.Context, garden string, bucket int) (Page, error) {
	view := j.fold.View(garden)
	defer view.Close()
	standing, err := view.Standing()
	if err != nil {
		return Page{}, err
	}
	page := Page{Records: []change.Record{}, Cursor: standing.Head.String()}
	for ref, err := range view.Refs() {
		if err != nil {
			return Page{}, err
		}
		if change.BucketOf(ref) != bucket {
			continue
		}
		record, err := view.Record(ref)
		if err != nil {
			return Page{}, err
		}
		page.Records = append(page.Records, record)
	}
	return page, nil
}

// Sums are the digests of the garden's 256 buckets; a record's bucket is
// change.BucketOf. Together they are the digest.
func (j *Journal) Sums(_ context.Context, garden string) ([change.Buckets]change.Digest, error) {
	view := j.fold.View(garden)
	defer view.Close()
	if _, err := view.Standing(); err != nil {
		return [change.Buckets]change.Digest{}, err
	}
	return view.Sums()
}

// A RefDigest is one record's digest.
type RefDigest struct {
	Record garden.Ref    `json:"record"`
	Digest change.Digest `json:"digest"`
}

// Bucket lists the digests of a bucket's records that are not gone, sorted by
// ref as text, so that a phone finds the ones to mend. It reads every ref.
func (j *Journal) Bucket(_ context.Context, name string, bucket int) ([]RefDigest, error) {
	view := j.fold.View(name)
	defer view.Close()
	if _, err := view.Standing(); err != nil {
		return nil, err
	}
	list := []RefDigest{}
	for ref, err := range view.Refs() {
		if err != nil {
			return nil, err
		}
		if change.BucketOf(ref) != bucket {
			continue
		}
		record, err := view.Record(ref)
		if err != nil {
			return nil, err
		}
		if !record.State.Gone.Value {
			list = append(list, RefDigest{ref, change.DigestOf(ref, &record.State)})
		}
	}
	return list, nil
}

// NewEpoch makes a name for an epoch that no other has: 80 random bits.
func NewEpoch() string {
	var random [10]byte
	rand.Read(random[:]) // never fails
	return strings.ToLower(base32.HexEncoding.EncodeToString(random[:]))
}
