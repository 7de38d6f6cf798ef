package media

import (
	"context"
	"errors"
	"fmt"
	"os"
)

// Preview gives a small picture as a JPEG, and makes it from the original when
// no phone has sent it. It is upright and carries no EXIF, so no place leaks
// with it. Errors: BadName, NotHere (neither it nor the original has come),
// NoPreview (sound, HEIC, too many pixels, undecodable), Damaged, Storage.
func (s *Store) Preview(ctx context.Context, garden string, name Name, side Side) ([]byte, error) {
	path, err := s.path(garden, name)
	if err != nil {
		return nil, err
	}
	content, err := s.storedPreview(ctx, garden, name, path, side)
	if !errors.Is(err, NotHere) && !errors.Is(err, Damaged) {
		return content, err
	}
	defer s.locks.lock(path + " previews")()
	if content, err := s.storedPreview(ctx, garden, name, path, side); err == nil {
		return content, nil // made while this call waited
	}
	made, makeErr := s.makePreviews(ctx, garden, name, path)
	if errors.Is(makeErr, NotHere) {
		return nil, err // what was wrong with the stored one, if anything
	}
	return made[side], makeErr
}

// HasPreview tells whether a small picture is here already.
func (s *Store) HasPreview(ctx context.Context, garden string, name Name, side Side) (bool, error) {
	path, err := s.path(garden, name)
	if err != nil {
		return false, err
	}
	_, err = s.storedPreview(ctx, garden, name, path, side)
	if errors.Is(err, NotHere) || errors.Is(err, Damaged) {
		return false, nil
	}
	return err == nil, err
}

func (s *Store) storedPreview(ctx context.Context, garden string, name Name, path string, side Side) ([]byte, error) {
	entry, err := s.entry(ctx, garden, name)
	if err != nil {
		return nil, err
	}
	preview, known := entry.preview(side)
	if !known {
		return nil, notHere(name)
	}
	return readPreview(path, name, preview)
}

// readPreview reads a small picture and checks it against the index.
func readPreview(path string, name Name, p Preview) ([]byte, error) {
	file := previewPath(path, p.Side)
	content, err := os.ReadFile(file)
	if errors.Is(err, os.ErrNotExist) {
		return nil, damaged(file, name)
	}
	if err != nil {
		return nil, storageProblem(name, "read", err)
	}
	if NameOf(content) != p.SHA256 {
		return nil, damaged(file, name)
	}
	return content, nil
}

// makePreviews decodes an original and stores the small pictures that are
// missing or damaged; it gives all it made. The caller holds the lock that
// keeps others from making them too.
func (s *Store) makePreviews(ctx context.Context, garden string, name Name, path string) (map[Side][]byte, error) {
	facts, err := s.Facts(ctx, garden, name)
	if err != nil {
		return nil, err
	}
	if err := canShrink(name, facts); err != nil {
		return nil, err
	}
	pictures, err := s.shrinkFile(ctx, path, facts)
	if err != nil {
		return nil, s.noteUndecodable(ctx, garden, name, path, err)
	}
	made := map[Side][]byte{}
	for _, p := range pictures {
		made[p.side] = p.jpeg
		if err := s.keepPreview(ctx, garden, name, path, p, ByServer); err != nil {
			return nil, err
		}
	}
	return made, nil
}

func canShrink(name Name, facts Facts) error {
	if !facts.Type.Inline() {
		return &Problem{Code: NoPreview, Name: name, Text: fmt.Sprintf(
			"this server makes no small pictures of %s; the phone that took it sends them", facts.Type)}
	}
	for _, note := range facts.Notes {
		if note == NoteManyPixels || note == NoteUndecodable {
			return &Problem{Code: NoPreview, Name: name, Text: fmt.Sprintf(
				"the original is kept, but no small picture can be made of it (%s)", note)}
		}
	}
	return nil
}

// shrinkFile decodes when it is this picture's turn.
func (s *Store) shrinkFile(ctx context.Context, path string, facts Facts) ([]smallPicture, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	defer s.decoderTurn(ctx)()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return shrink(file, facts)
}

// decoderTurn waits for the decoder, or for the end of ctx; the caller looks at
// ctx before it decodes.
func (s *Store) decoderTurn(ctx context.Context) (done func()) {
	select {
	case s.decoder <- struct{}{}:
		return func() { <-s.decoder }
	case <-ctx.Done():
		return func() {}
	}
}

// noteUndecodable remembers that decoding failed, so that it isn't tried for
// every glance at a list. A disk or caller that gave up is no such failure.
func (s *Store) noteUndecodable(ctx context.Context, garden string, name Name, path string, cause error) error {
	if !errors.Is(cause, errUndecodable) {
		return cause
	}
	defer s.locks.lock(path)()
	entry, err := s.entry(ctx, garden, name)
	if err != nil {
		return err
	}
	if entry.Facts != nil {
		facts := entry.Facts.withNote(NoteUndecodable)
		entry.Facts = &facts
		if err := s.index.PutEntry(ctx, garden, name, entry); err != nil {
			return err
		}
	}
	return &Problem{Code: NoPreview, Name: name, Err: cause,
		Text: "the original is kept, but it is damaged or cut short and no small picture can be made of it"}
}

// keepPreview stores a small picture unless a sound one is there.
func (s *Store) keepPreview(ctx context.Context, garden string, name Name, path string, p smallPicture, by Maker) error {
	defer s.locks.lock(path)()
	entry, err := s.entry(ctx, garden, name)
	if err != nil {
		return err
	}
	if old, known := entry.preview(p.side); known {
		if _, err := readPreview(path, name, old); err == nil {
			return nil
		}
	}
	if err := s.disk.writeWhole(previewPath(path, p.side), p.jpeg); err != nil {
		return storageProblem(name, "written", err)
	}
	return s.index.PutEntry(ctx, garden, name, entry.withPreview(Preview{
		Side: p.side, SHA256: NameOf(p.jpeg), Bytes: int64(len(p.jpeg)), Width: p.width, Height: p.height, Maker: by}))
}
