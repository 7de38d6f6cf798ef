package journal

import (
	"context"

	"haulm/sync/change"
)

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
