package journal

import (
	"context"

	"haulm/sync/journal/fold"
)

// A Report is what Verify found: how many values it looked at, and each damaged
// one by name.
type Report = fold.Report

// Verify reads every value in the data folder and holds the sums against what
// they are the sums of, telling progress (which may be nil) now and then. It
// works beside everything else, on the moment at which it was called.
func (j *Journal) Verify(ctx context.Context, progress func(values int)) (Report, error) {
	return j.fold.Verify(ctx, progress)
}
