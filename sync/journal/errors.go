package journal

import (
	"fmt"
	"time"

	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
)

// The errors of the parts below, under the names by which callers know them.
type (
	DamageError        = fold.DamageError
	UnknownGardenError = fold.UnknownGardenError
	EpochError         = entry.EpochError
	CursorError        = entry.CursorError
)

// A ClockError says that the server's clock is below its own high-water mark:
// it was set back, or a machine without a clock battery has just started.
type ClockError struct{ Now, Mark time.Time }

func (e *ClockError) Error() string {
	return fmt.Sprintf("the server's clock says %s, and it has already worked at %s: nothing is taken until the clock is set right",
		e.Now.Format(time.RFC3339), e.Mark.Format(time.RFC3339))
}

// An ExistsError says that a garden of that id is there already.
type ExistsError struct{ Garden string }

func (e *ExistsError) Error() string {
	return fmt.Sprintf("there is already a garden %q on this server", e.Garden)
}

// A MissingError says that there is no such record or private entry.
type MissingError struct{ Garden, Name string }

func (e *MissingError) Error() string {
	return fmt.Sprintf("there is no %s in garden %q", e.Name, e.Garden)
}

// A ConflictError says that a private entry is not what its writer had seen.
type ConflictError struct {
	Garden, Key string
	Seen, Have  uint64 // versions; 0: not there
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("the private entry %s of garden %q was written by somebody else in between (version %d, not %d): read it again", e.Key, e.Garden, e.Have, e.Seen)
}
