package media

import (
	"context"
	"crypto/sha256"
	"errors"
	"hash"
	"io"
	"io/fs"
	"os"
)

// prove checks that an original is what its name says, once for each state of
// the file in this process: reading 64 MB for every range of a sound file would
// be waste. Errors: NotHere, Damaged, Storage.
func (s *Store) prove(path string, name Name) error {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return notHere(name)
	}
	if err != nil {
		return storageProblem(name, "looked up", err)
	}
	if s.proven.has(path, stateOf(info)) {
		return nil
	}
	content, err := hashFile(path)
	if err != nil {
		return storageProblem(name, "read", err)
	}
	if content != name {
		return damaged(path, name)
	}
	s.proven.add(path, stateOf(info))
	return nil
}

// damaged names the file in the error alone: the sentence goes to phones, which
// have no business with the server's folders.
func damaged(path string, name Name) *Problem {
	return &Problem{Code: Damaged, Name: name, Err: errors.New("the file is " + path), Text: name.String() +
		" is no longer what its name says and is not shown; restore it from a backup, or send it again from a phone that has it"}
}

// An Original is an open original: its bytes, to be read whole or in ranges.
// Close it.
type Original struct {
	Facts Facts

	file  *os.File
	name  Name
	whole hash.Hash // of what has been read from the start without a gap
	at    int64     // where the next Read begins
	gap   bool      // a range was asked for, so whole says nothing
}

var _ io.ReadSeekCloser = (*Original)(nil)

// Original opens an original that has been proven. Errors: BadName, NotHere,
// Damaged, Storage.
func (s *Store) Original(ctx context.Context, garden string, name Name) (*Original, error) {
	facts, err := s.Facts(ctx, garden, name)
	if err != nil {
		return nil, err
	}
	path, err := s.path(garden, name)
	if err != nil {
		return nil, err
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, storageProblem(name, "opened", err)
	}
	return &Original{Facts: facts, file: file, name: name, whole: sha256.New()}, nil
}

// Read reads on. Read from start to end without Seek it proves the bytes once
// more, and gives Damaged instead of the last of them when they have changed,
// so that nobody takes a damaged file for a whole one.
func (o *Original) Read(into []byte) (int, error) {
	n, err := o.file.Read(into)
	if o.gap || n == 0 {
		return n, err
	}
	o.whole.Write(into[:n])
	o.at += int64(n)
	if o.at >= o.Facts.Bytes && Name(o.whole.Sum(nil)) != o.name {
		return 0, damaged(o.file.Name(), o.name)
	}
	return n, err
}

// Seek moves to a range. Back to the very start before anything was read, and
// asking for the length, leave the proof of a whole reading intact.
func (o *Original) Seek(offset int64, whence int) (int64, error) {
	to, err := o.file.Seek(offset, whence)
	if err == nil && to == 0 {
		o.whole.Reset()
		o.at, o.gap = 0, false
		return to, nil
	}
	o.gap = true
	return to, err
}

// Close closes the file.
func (o *Original) Close() error { return o.file.Close() }

// Verify reads an original and its small pictures again from disk and compares
// them with their names, whatever was proven before. Errors: NotHere, Damaged,
// Storage.
func (s *Store) Verify(ctx context.Context, garden string, name Name) error {
	path, err := s.path(garden, name)
	if err != nil {
		return err
	}
	defer s.locks.lock(path)()
	s.proven.forget(path)
	entry, err := s.entry(ctx, garden, name)
	if err != nil {
		return err
	}
	problem := s.prove(path, name)
	if len(entry.Previews) > 0 && entry.Facts == nil && errors.Is(problem, NotHere) {
		problem = nil // the phone sent the small pictures ahead
	}
	for _, p := range entry.Previews {
		_, err := readPreview(path, name, p)
		problem = errors.Join(problem, err)
	}
	return problem
}
