package entry

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"
	"iter"
	"time"
)

// A snapshot is a garden's entries, one a line, and a last line
// {"entries": n, "sha256": hex of everything before the line}, which tells a
// whole snapshot from one that was cut off or damaged.
type trailer struct {
	Entries *int   `json:"entries"`
	SHA256  string `json:"sha256"`
}

// WriteSnapshot writes the entries of a log and gives the last one's head.
func WriteSnapshot(to io.Writer, entries iter.Seq2[Entry, error]) (Head, error) {
	sum := sha256.New()
	out := bufio.NewWriter(io.MultiWriter(to, sum))
	var head Head
	count := 0
	for e, err := range entries {
		if err != nil {
			return Head{}, err
		}
		if _, err := out.Write(append(e.AppendJSON(nil), '\n')); err != nil {
			return Head{}, fmt.Errorf("writing a snapshot: %w", err)
		}
		head, count = e.Head, count+1
	}
	if err := out.Flush(); err != nil {
		return Head{}, fmt.Errorf("writing a snapshot: %w", err)
	}
	line, _ := json.Marshal(trailer{&count, hex.EncodeToString(sum.Sum(nil))})
	if _, err := to.Write(append(line, '\n')); err != nil {
		return Head{}, fmt.Errorf("writing a snapshot: %w", err)
	}
	return head, nil
}

// ErrSnapshot is a snapshot that is incomplete, damaged or none at all.
var ErrSnapshot = errors.New("this is not a whole snapshot of a garden's log")

// ReadSnapshot gives a snapshot's entries; it ends with an error wrapping
// ErrSnapshot unless all is there and sound.
func ReadSnapshot(from io.Reader) iter.Seq2[Entry, error] {
	return func(yield func(Entry, error) bool) {
		lines, sum, count := bufio.NewReader(from), sha256.New(), 0
		for {
			line, err := lines.ReadBytes('\n')
			if err != nil {
				yield(Entry{}, fmt.Errorf("%w: it is cut off after %d entries: %w", ErrSnapshot, count, err))
				return
			}
			if bytes.HasPrefix(line, []byte(`{"entries":`)) {
				if err := checkTrailer(line, count, sum); err != nil {
					yield(Entry{}, err)
				}
				return
			}
			sum.Write(line)
			count++
			e, err := Parse(line)
			if err != nil {
				err = fmt.Errorf("%w: entry %d: %w", ErrSnapshot, count, err)
			}
			if !yield(e, err) || err != nil {
				return
			}
		}
	}
}

func checkTrailer(line []byte, count int, sum hash.Hash) error {
	var end trailer
	if err := json.Unmarshal(line, &end); err != nil || end.Entries == nil {
		return fmt.Errorf("%w: its last line is damaged", ErrSnapshot)
	}
	if *end.Entries != count || end.SHA256 != hex.EncodeToString(sum.Sum(nil)) {
		return fmt.Errorf("%w: its last line tells of other entries than the %d it has", ErrSnapshot, count)
	}
	return nil
}

// RestoreInto is Log.Restore for a log that can append: it reads the snapshot
// once to see that it is whole and then again to append it.
func RestoreInto(ctx context.Context, log Log, garden string, from io.ReadSeeker, epoch string, now time.Time) (Head, error) {
	for _, err := range ReadSnapshot(from) {
		if err != nil {
			return Head{}, err
		}
	}
	if _, err := from.Seek(0, io.SeekStart); err != nil {
		return Head{}, fmt.Errorf("going back to the start of a snapshot: %w", err)
	}
	var head Head
	for e, err := range ReadSnapshot(from) {
		if err != nil {
			return Head{}, err
		}
		if head, err = log.Append(ctx, garden, head, e); err != nil {
			return Head{}, err
		}
	}
	return log.Append(ctx, garden, head, Start(head, epoch, now.UnixMilli()))
}

// Start is the entry that starts an epoch after a head; after the zero head it
// is a new garden's.
func Start(head Head, epoch string, now int64) Entry {
	return Entry{
		Version: Version,
		Head:    Head{Epoch: epoch, Seq: head.Seq + 1},
		Now:     now,
		Epoch:   &Epoch{Name: epoch, Parent: head.Epoch, Fork: head.Seq},
	}
}
