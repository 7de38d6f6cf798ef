package entry

import (
	"fmt"
	"strconv"
	"strings"
)

// String is the head as a cursor, "epoch.seq"; empty for the zero Head.
func (h Head) String() string {
	if h == (Head{}) {
		return ""
	}
	return h.Epoch + "." + strconv.FormatUint(h.Seq, 10)
}

// ParseCursor reads what String wrote. The error is a *CursorError.
func ParseCursor(text string) (Head, error) {
	if text == "" {
		return Head{}, nil
	}
	epoch, digits, _ := strings.Cut(text, ".")
	seq, err := strconv.ParseUint(digits, 10, 64)
	if err != nil || !ValidEpoch(epoch) {
		return Head{}, &CursorError{Cursor: text}
	}
	return Head{Epoch: epoch, Seq: seq}, nil
}

// A CursorError says that a text is no cursor.
type CursorError struct{ Cursor string }

func (e *CursorError) Error() string {
	return fmt.Sprintf("cursor %.80q is not one that this server gave: start with an empty one", e.Cursor)
}

// An EpochError says that a cursor belongs to another life of the garden: the
// server was restored from a backup since, or its data folder was put back. The
// phone starts the feed again, keeps its unsent work, and lowers each unsent
// base to at most Fork.
type EpochError struct {
	Garden string
	Cursor Head   // what the phone held
	Now    Head   // where the garden stands
	Parent string // the epoch that the present one was restored from; may be empty
	Fork   uint64 // the last sequence that the present epoch shares with Parent
}

func (e *EpochError) Error() string {
	return fmt.Sprintf("this phone last read epoch %s up to %d, and the garden is now in epoch %s at %d: the server was restored from a backup; start the feed again, unsent entries are kept",
		e.Cursor.Epoch, e.Cursor.Seq, e.Now.Epoch, e.Now.Seq)
}

// MaxEpochBytes bounds an epoch's name.
const MaxEpochBytes = 32

// ValidEpoch tells whether text can name an epoch: letters a to z and digits.
func ValidEpoch(text string) bool {
	if text == "" || len(text) > MaxEpochBytes {
		return false
	}
	return !strings.ContainsFunc(text, func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9') })
}
