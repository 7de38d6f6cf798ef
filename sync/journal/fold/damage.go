package fold

import (
	"encoding/hex"
	"errors"
	"fmt"

	"haulm/sync/journal/internal/store"
)

// A DamageError names a stored thing whose bytes are not what was written. It is
// never served.
type DamageError struct {
	Garden string
	What   string // such as "record" or "log entry"
	Name   string // such as "planting/0192…" or the sequence
	Reason string
}

func (e *DamageError) Error() string {
	return fmt.Sprintf("the %s %s of garden %q is damaged on disk (%s): run haulm verify to see what else is, and restore a backup",
		e.What, e.Name, e.Garden, e.Reason)
}

// Damage gives a read's error the name of what was read; nil and errors that
// are no damage stay as they are.
func Damage(err error, garden, what, name string) error {
	if errors.Is(err, store.ErrDamaged) {
		return &DamageError{Garden: garden, What: what, Name: name, Reason: err.Error()}
	}
	return err
}

func damaged(garden, what, name string, reason any) error {
	var already *DamageError
	if err, ok := reason.(error); ok && errors.As(err, &already) {
		reason = already.Reason // a better name for the same damage
	}
	return &DamageError{Garden: garden, What: what, Name: name, Reason: fmt.Sprint(reason)}
}

// NameOf gives the words for the thing under a key: what it is and its name.
func NameOf(key []byte) (garden, what, name string) {
	table, garden, rest, err := store.SplitKey(key)
	if err != nil {
		return "", "key", hex.EncodeToString(key)
	}
	switch table {
	case store.StandingTable:
		return garden, "standing", "of the fold"
	case store.LogTable:
		return garden, "log entry", seqName(rest)
	case store.FeedTable:
		return garden, "record at sequence", seqName(rest)
	case store.RecordTable:
		return garden, "record", rest
	case store.OutcomeTable:
		return garden, "outcome of change", rest
	case store.SumTable:
		return garden, "sum of bucket", hex.EncodeToString([]byte(rest))
	case store.PrivateTable:
		return garden, "private entry", rest
	case store.TipTable:
		return garden, "number", "of commits"
	}
	return garden, "unknown table's value", fmt.Sprintf("%q", key)
}

func seqName(rest string) string {
	if seq, ok := seqOf(rest); ok {
		return fmt.Sprint(seq)
	}
	return hex.EncodeToString([]byte(rest))
}
