package unsent

import (
	"archive/zip"
	"context"
	"encoding/json"
	"errors"
	"io"

	"haulm/media"
	"haulm/server/household"
	"haulm/server/refusal"
	"haulm/sync/change"
	"haulm/sync/journal"
)

// A Taker takes saved files into the gardens of a server.
type Taker struct {
	Journal   *journal.Journal
	Household *household.Household
	Media     *media.Store
}

// Terms are how a file is taken.
type Terms struct {
	Garden string          // the file must be of it; "" for whichever it is of
	By     *household.Seat // who brings it; nil for whoever has the machine
	Check  bool            // look only, and tell what would be taken
}

// pushChanges are judged at a time, as many as a phone sends.
const pushChanges = 500

// Take takes what is in a file, notes before photos. What is counted New is on
// disk when it returns, also when an error comes with it; taking the file again
// goes on from there. The error is a *refusal.Refusal when the file as a whole
// is not taken, or trouble with the disk.
func (t Taker) Take(ctx context.Context, from io.ReaderAt, size int64, terms Terms) (Summary, error) {
	f, err := open(from, size)
	if err != nil {
		return Summary{}, err
	}
	if terms.Garden == "" {
		terms.Garden = f.manifest.Garden
	}
	if err := t.admit(ctx, f.manifest, terms); err != nil {
		return Summary{}, err
	}
	run := &run{Taker: t, Terms: terms, file: f, summary: Summary{
		Garden: terms.Garden, Device: f.manifest.Device, Part: f.manifest.Part, Parts: f.manifest.Parts,
		Checked: terms.Check, Problems: []Problem{}}}
	err = run.all(ctx)
	return run.summary, err
}

func (t Taker) admit(ctx context.Context, m Manifest, terms Terms) error {
	if terms.By != nil && terms.By.Member.Role == household.Viewer {
		return refusal.New(refusal.Forbidden, "role_viewer", "a viewer may look but not bring files: ask a keeper of the garden for another role")
	}
	if m.Garden != terms.Garden {
		return refusal.New(refusal.Unprocessable, "other_garden",
			"this file was saved from the garden %s and not from %s: take it into the garden that it is of", shorten(m.Garden), terms.Garden)
	}
	_, err := t.Journal.Cursor(ctx, terms.Garden)
	return err
}

// A run is the taking of one file.
type run struct {
	Taker
	Terms
	file    *file
	summary Summary
	writer  journal.Writer
}

func (r *run) all(ctx context.Context) error {
	var err error
	if r.writer, err = r.writtenBy(ctx); err != nil {
		return err
	}
	for _, name := range r.file.strange {
		r.summary.strange(name, "strange_entry", "the format has no such entry, or it is there twice: it was left aside")
	}
	if err := r.changes(ctx, r.file.changes, plainChange); err != nil {
		return err
	}
	if err := r.changes(ctx, r.file.refused, refusedChange); err != nil {
		return err
	}
	for _, m := range r.file.media {
		if err := r.medium(ctx, m); err != nil {
			return err
		}
	}
	return nil
}

// plainChange and refusedChange read one line.
func plainChange(line []byte) (change.Change, error) {
	var one change.Change
	err := json.Unmarshal(line, &one)
	return one, err
}

func refusedChange(line []byte) (change.Change, error) {
	var one refusedLine
	if err := json.Unmarshal(line, &one); err != nil {
		return change.Change{}, err
	}
	return plainChange(one.Change)
}

// A lined change knows where in the file it stands.
type lined struct {
	change.Change
	entry string
}

// changes takes the changes of one entry, in their order.
func (r *run) changes(ctx context.Context, entry *zip.File, read func([]byte) (change.Change, error)) error {
	if entry == nil {
		return nil
	}
	var batch []lined
	err := lines(entry, func(number int, line []byte) error {
		where := lineName(entry.Name, number)
		one, err := read(line)
		if err != nil {
			r.summary.aside(&r.summary.Changes, where, "invalid_change", "this line is not a change in JSON, or is too long")
			return nil
		}
		if batch = append(batch, lined{one, where}); len(batch) < pushChanges {
			return nil
		}
		err = r.push(ctx, batch)
		batch = nil
		return err
	})
	if damaged(err) {
		r.summary.strange(entry.Name, "damaged_entry", "the entry is damaged from here on: what stood before it was taken")
		err = nil
	}
	return errors.Join(err, r.push(ctx, batch))
}

// damaged reports whether the zip itself, and not the disk, is at fault.
func damaged(err error) bool {
	return errors.Is(err, zip.ErrChecksum) || errors.Is(err, zip.ErrFormat) || errors.Is(err, zip.ErrAlgorithm) ||
		errors.Is(err, io.ErrUnexpectedEOF) || isCorruptDeflate(err)
}
