package media

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Progress is how much of an original is safely here.
type Progress struct {
	Offset   int64  // bytes on disk, from the start; after Complete, all of them
	Complete bool   // proven whole: only then may a sender forget its copy
	Facts    *Facts // what the original says, when Complete
}

// A Piece is a run of an original's bytes.
type Piece struct {
	Offset int64     // where the piece begins
	Length int64     // bytes of the whole original
	Body   io.Reader // the piece; it may end anywhere up to Length
}

// How large an original may be.
const (
	MaxPictureBytes = 64 << 20 // a 50-megapixel JPEG at the highest quality is about 30 MB
	MaxSoundBytes   = 16 << 20 // over an hour of speech at 32 kbit/s
)

// stretchBytes is written and synced at a time, so a piece cut short by the
// network loses nothing that had arrived, and an upload needs little memory.
const stretchBytes = 1 << 20

// Offset tells how much of an original is safely on disk. Nothing here is no
// error: it is offset 0. A damaged original counts as not here, so that it can
// be sent again.
func (s *Store) Offset(ctx context.Context, garden string, name Name) (Progress, error) {
	path, err := s.path(garden, name)
	if err != nil {
		return Progress{}, err
	}
	defer s.locks.lock(path)()
	return s.progress(ctx, upload{garden, name, path})
}

// Append adds a piece to what is here of an original, and settles the original
// when its last byte has come. What the returned Progress counts is on disk,
// also when an error comes with it: a piece whose Body fails midway is kept as
// far as it came. A piece for an original that is complete is left unread.
// A piece with an empty Body at Offset == Length settles what a crash left.
//
// Errors, all *Problem: BadName, BadLength, WrongOffset (with the true one),
// WrongContent (what was here is thrown away: begin at 0), TooLarge,
// UnknownType, NotAPicture, TooManyPixels, Storage; and Body's own.
func (s *Store) Append(ctx context.Context, garden string, name Name, piece Piece) (Progress, error) {
	path, err := s.path(garden, name)
	if err != nil {
		return Progress{}, err
	}
	if err := piece.check(name); err != nil {
		return Progress{}, err
	}
	u := upload{garden, name, path}
	if piece.Offset > piece.Length {
		return s.beyondEnd(ctx, u, piece)
	}
	stretch := s.buffers.Get().(*[]byte)
	defer s.buffers.Put(stretch)
	for at := piece.Offset; ; {
		n, readErr := io.ReadFull(piece.Body, (*stretch)[:min(stretchBytes, piece.Length-at)])
		progress, err := s.extend(ctx, u, at, piece.Length, (*stretch)[:n])
		at += int64(n)
		switch {
		case err != nil || progress.Complete:
			return progress, err
		case errors.Is(readErr, io.EOF) || errors.Is(readErr, io.ErrUnexpectedEOF):
			return progress, ctx.Err()
		case readErr != nil:
			return progress, fmt.Errorf("%s stopped arriving after byte %d: %w", name, progress.Offset, readErr)
		}
	}
}

func (p Piece) check(name Name) error {
	switch {
	case p.Length > MaxPictureBytes:
		return tooLarge(name, p.Length, MaxPictureBytes)
	case p.Length <= 0:
		return &Problem{Code: BadLength, Name: name, Text: "the file is empty, so there is nothing to keep"}
	case p.Offset < 0:
		return p.outside(name)
	}
	return nil
}

func (p Piece) outside(name Name) *Problem {
	return &Problem{Code: BadLength, Name: name, Text: fmt.Sprintf("offset %d is outside the %d bytes of the file", p.Offset, p.Length)}
}

func tooLarge(name Name, length, limit int64) *Problem {
	return &Problem{Code: TooLarge, Name: name, Limit: limit, Text: fmt.Sprintf(
		"the file has %.1f MB; at most %d MB are kept", float64(length)/(1<<20), limit>>20)}
}

// upload says which original an upload is of.
type upload struct {
	garden string
	name   Name
	path   string // of the original
}

func (u upload) partial() string { return partialPath(u.path) }

// progress tells what is here. The caller holds the medium's lock.
func (s *Store) progress(ctx context.Context, u upload) (Progress, error) {
	entry, err := s.settledEntry(ctx, u.garden, u.name, u.path)
	if err == nil {
		return Progress{Offset: entry.Facts.Bytes, Complete: true, Facts: entry.Facts}, nil
	}
	if !errors.Is(err, NotHere) && !errors.Is(err, Damaged) {
		return Progress{}, err
	}
	return s.partialProgress(ctx, u)
}

func (s *Store) partialProgress(ctx context.Context, u upload) (Progress, error) {
	info, err := os.Stat(u.partial())
	if errors.Is(err, fs.ErrNotExist) {
		return Progress{}, nil
	}
	if err != nil {
		return Progress{}, storageProblem(u.name, "looked up", err)
	}
	if s.synced.has(u.partial()) {
		return Progress{Offset: info.Size()}, nil
	}
	return s.adopt(ctx, u, info.Size())
}

// adopt takes over a partial file of an earlier process: what it holds may not
// be on disk yet, and it may lack nothing but its last step.
func (s *Store) adopt(ctx context.Context, u upload, size int64) (Progress, error) {
	if err := errors.Join(s.disk.syncFile(u.partial()), s.disk.syncFolder(filepath.Dir(u.path))); err != nil {
		return Progress{}, storageProblem(u.name, "synced", err)
	}
	s.synced.set(u.partial(), true)
	content, err := hashFile(u.partial())
	if err != nil {
		return Progress{}, storageProblem(u.name, "read", err)
	}
	if content == u.name {
		return s.settle(ctx, u)
	}
	return Progress{Offset: size}, nil
}

// extend adds one stretch at its offset and settles the original with the last.
func (s *Store) extend(ctx context.Context, u upload, at, length int64, stretch []byte) (Progress, error) {
	defer s.locks.lock(u.path)()
	here, err := s.progress(ctx, u)
	if err != nil || here.Complete {
		return here, err
	}
	if here.Offset > length {
		return Progress{}, s.discard(u, tooMuchHere(u.name, here.Offset, length))
	}
	if at != here.Offset {
		return here, &Problem{Code: WrongOffset, Name: u.name, Offset: here.Offset, Text: fmt.Sprintf(
			"the piece begins at byte %d, but %d bytes are here; go on from there", at, here.Offset)}
	}
	if at == 0 {
		if err := refuseEarly(u.name, length, stretch); err != nil {
			return here, err
		}
	}
	if err := s.write(u, at, stretch); err != nil {
		return here, storageProblem(u.name, "written", err)
	}
	here.Offset += int64(len(stretch))
	if here.Offset == length {
		return s.finish(ctx, u)
	}
	return here, nil
}

// beyondEnd answers a piece that begins after its file's end: a mistake, unless
// the sender was told so because what is here is longer than the file.
func (s *Store) beyondEnd(ctx context.Context, u upload, piece Piece) (Progress, error) {
	defer s.locks.lock(u.path)()
	here, err := s.progress(ctx, u)
	switch {
	case err != nil || here.Complete:
		return here, err
	case here.Offset > piece.Length:
		return Progress{}, s.discard(u, tooMuchHere(u.name, here.Offset, piece.Length))
	}
	return here, piece.outside(u.name)
}

// tooMuchHere is a partial that is longer than its sender says the file is. One
// of them is wrong, and a partial that cannot end would keep the file out for
// ever.
func tooMuchHere(name Name, here, length int64) *Problem {
	return &Problem{Code: WrongContent, Name: name, Text: fmt.Sprintf(
		"%d bytes are here, but the file has %d; they were thrown away: send it again from the start", here, length)}
}

// refuseEarly spares a phone from sending what will not be kept anyway.
func refuseEarly(name Name, length int64, start []byte) error {
	if len(start) < sniffBytes {
		return nil
	}
	kind, err := sniff(name, start)
	if err != nil {
		return err
	}
	return checkSize(name, kind, length)
}

func checkSize(name Name, kind Type, length int64) error {
	if !kind.Picture() && length > MaxSoundBytes {
		return tooLarge(name, length, MaxSoundBytes)
	}
	return nil
}

// write appends and syncs. When the disk refuses, the file is cut back to what
// was safe before.
func (s *Store) write(u upload, at int64, stretch []byte) error {
	if len(stretch) == 0 {
		return nil
	}
	if at == 0 {
		if err := s.disk.ownFolder(filepath.Dir(u.path)); err != nil {
			return err
		}
	}
	f, err := os.OpenFile(u.partial(), os.O_CREATE|os.O_WRONLY, fileMode)
	if err != nil {
		return err
	}
	s.synced.set(u.partial(), false)
	_, err = f.WriteAt(stretch, at)
	err = errors.Join(err, s.disk.sync(f))
	if err != nil {
		return errors.Join(err, f.Truncate(at), f.Close())
	}
	if at == 0 {
		err = s.disk.syncFolder(filepath.Dir(u.path))
	}
	s.synced.set(u.partial(), err == nil)
	return errors.Join(err, f.Close())
}

// finish proves a partial that has all its bytes, and settles it.
func (s *Store) finish(ctx context.Context, u upload) (Progress, error) {
	content, err := hashFile(u.partial())
	if err != nil {
		return Progress{}, storageProblem(u.name, "read", err)
	}
	if content != u.name {
		return Progress{}, s.discard(u, &Problem{Code: WrongContent, Name: u.name, Text: "all bytes arrived, but they are not those of " +
			u.name.String() + " (they are those of " + content.String() + "); they were thrown away: send it again from the start"})
	}
	return s.settle(ctx, u)
}

// settle makes a proven partial an original, if it is something that is kept.
func (s *Store) settle(ctx context.Context, u upload) (Progress, error) {
	facts, err := readFacts(u.partial(), u.name)
	if err != nil {
		return Progress{}, s.discard(u, err)
	}
	if err := s.disk.renameSynced(u.partial(), u.path); err != nil {
		return Progress{}, storageProblem(u.name, "put in its place", err)
	}
	s.synced.set(u.partial(), false)
	if info, err := os.Stat(u.path); err == nil {
		s.proven.add(u.path, stateOf(info))
	}
	entry, err := s.entry(ctx, u.garden, u.name)
	if err != nil {
		return Progress{}, err
	}
	entry.Facts = &facts
	if err := s.index.PutEntry(ctx, u.garden, u.name, entry); err != nil {
		return Progress{}, err
	}
	return Progress{Offset: facts.Bytes, Complete: true, Facts: &facts}, nil
}

// discard throws the partial away and gives the reason.
func (s *Store) discard(u upload, reason error) error {
	if problem := (*Problem)(nil); errors.As(reason, &problem) && problem.Code == Storage {
		return reason // the disk's fault, not the file's
	}
	s.synced.set(u.partial(), false)
	if err := s.disk.removeSynced(u.partial()); err != nil {
		return errors.Join(reason, storageProblem(u.name, "thrown away", err))
	}
	return reason
}
