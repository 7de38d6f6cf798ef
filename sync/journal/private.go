package journal

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"math"
	"strings"

	"haulm/sync/change"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
	"haulm/sync/journal/internal/store"
)

// A Private is an entry that phones never get: a member, a device, an invite,
// what is known of a photo. Its version changes with every write.
type Private = fold.Private

// A PrivateWrite replaces a private entry, if it is what its writer had seen.
type PrivateWrite struct {
	Key   string          // 1 to 200 bytes, no NUL
	Value json.RawMessage // nil removes the entry
	Seen  uint64          // the version read; 0: there was none; Any: whatever is there
}

// Any writes over whatever is there.
const Any uint64 = math.MaxUint64

// Limits of private entries: a write of several must fit one entry of the log.
const (
	MaxPrivateKeyBytes   = 200
	MaxPrivateValueBytes = 40 << 10
)

// WritePrivate writes private entries, all or none, durably, and gives the
// version of the last. Where one is not what its writer had seen the error is a
// *ConflictError, so of two that use up an invite one fails.
func (j *Journal) WritePrivate(ctx context.Context, garden string, writes ...PrivateWrite) (uint64, error) {
	if err := ctx.Err(); err != nil {
		return 0, err
	}
	acts, err := checkPrivate(writes)
	if err != nil {
		return 0, err
	}
	var version uint64
	err = j.desk(garden).ask(ctx, func(d *draft) error {
		version, err = d.keep(writes, acts)
		return err
	})
	return version, err
}

func checkPrivate(writes []PrivateWrite) ([]entry.Private, error) {
	acts, size := make([]entry.Private, 0, len(writes)), 0
	for _, w := range writes {
		act, err := w.act()
		if err != nil {
			return nil, err
		}
		acts = append(acts, act)
		size += privateBytes(act)
	}
	if len(acts) == 0 || size > entry.MaxBytes-entryBytes {
		return nil, fmt.Errorf("%d private entries of %d bytes together: 1 or more and at most %d bytes can be written at once", len(acts), size, entry.MaxBytes-entryBytes)
	}
	return acts, nil
}

func (w PrivateWrite) act() (entry.Private, error) {
	if w.Key == "" || len(w.Key) > MaxPrivateKeyBytes || strings.Contains(w.Key, "\x00") {
		return entry.Private{}, fmt.Errorf("private key %.60q is not allowed: it must be 1 to %d bytes without NUL", w.Key, MaxPrivateKeyBytes)
	}
	if w.Value == nil {
		return entry.Private{Key: w.Key}, nil
	}
	var compact bytes.Buffer
	if err := json.Compact(&compact, w.Value); err != nil {
		return entry.Private{}, fmt.Errorf("private entry %s is not proper JSON: %w", w.Key, err)
	}
	if compact.Len() > MaxPrivateValueBytes {
		return entry.Private{}, fmt.Errorf("private entry %s has %d bytes: at most %d fit", w.Key, compact.Len(), MaxPrivateValueBytes)
	}
	return entry.Private{Key: w.Key, Value: compact.Bytes()}, nil
}

// privateBytes is more than a private entry takes in the log's JSON, where
// angle brackets and ampersands take six bytes.
func privateBytes(p entry.Private) int {
	escaped := 0
	for _, c := range p.Value {
		if c == '<' || c == '>' || c == '&' {
			escaped++
		}
	}
	return 6*len(p.Key) + len(p.Value) + 5*escaped + 32
}

func (d *draft) keep(writes []PrivateWrite, acts []entry.Private) (uint64, error) {
	size := 0
	for _, act := range acts {
		size += privateBytes(act)
	}
	sheet, standing, err := d.open(store.Room{Bytes: 2*size + len(acts)*512, Count: len(acts) + 2})
	if err != nil {
		return 0, err
	}
	for _, w := range writes {
		have, err := sheet.Private(w.Key)
		if err != nil {
			return 0, err
		}
		if w.Seen != Any && w.Seen != have.Version {
			return 0, &ConflictError{d.desk.garden, w.Key, w.Seen, have.Version}
		}
	}
	e := d.entry(entry.Entry{Private: acts, Writer: change.Writer{}}, size)
	for _, act := range acts {
		sheet.Keep(act, d.now.UnixMilli())
	}
	head := entry.Head{Epoch: standing.Head.Epoch, Seq: standing.Head.Seq + uint64(len(acts))}
	e.Private, e.Head = append(e.Private, acts...), head
	return head.Seq, nil
}

// GetPrivate reads a private entry; *MissingError when there is none.
func (j *Journal) GetPrivate(_ context.Context, garden, key string) (Private, error) {
	view := j.fold.View(garden)
	defer view.Close()
	private, err := view.Private(key)
	if errors.Is(err, fold.ErrMissing) {
		return Private{}, &MissingError{garden, "private entry " + key}
	}
	return private, err
}

// EachPrivate gives the private entries whose keys begin with prefix, in order
// of keys, as they were when it was called.
func (j *Journal) EachPrivate(_ context.Context, garden, prefix string) iter.Seq2[Private, error] {
	return func(yield func(Private, error) bool) {
		view := j.fold.View(garden)
		defer view.Close()
		for private, err := range view.Privates(prefix) {
			if !yield(private, err) {
				return
			}
		}
	}
}
