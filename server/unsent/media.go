package unsent

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"

	"haulm/media"
)

// medium takes one original or preview. Only trouble with the disk, or the end
// of the context, is an error.
func (r *run) medium(ctx context.Context, m medium) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	count := &r.summary.Originals
	take := r.original
	if m.side != 0 {
		count, take = &r.summary.Previews, r.preview
	}
	known, err := take(ctx, m)
	var problem *media.Problem
	switch {
	case damaged(err):
		r.summary.aside(count, m.entry.Name, "damaged_entry", "the entry is damaged: save the file on the phone again")
	case errors.As(err, &problem) && problem.Code != media.Storage:
		r.summary.aside(count, m.entry.Name, string(problem.Code), problem.Text)
	case err != nil:
		return err
	case known:
		count.Known++
	default:
		count.New++
	}
	return nil
}

// original adds what the garden lacks of an original; it is proven against its
// name before it counts. Where what was here of it is thrown away, being of other
// bytes, it is added from the beginning.
func (r *run) original(ctx context.Context, m medium) (known bool, err error) {
	here, err := r.Media.Offset(ctx, r.Garden, m.name)
	if err != nil || here.Complete {
		return here.Complete, err
	}
	if r.Check {
		return false, prove(m)
	}
	err = r.addFrom(ctx, m, here.Offset)
	if here.Offset > 0 && errors.Is(err, media.WrongContent) {
		err = r.addFrom(ctx, m, 0)
	}
	return false, err
}

func (r *run) addFrom(ctx context.Context, m medium, offset int64) error {
	content, err := m.entry.Open()
	if err != nil {
		return err
	}
	defer content.Close()
	length := int64(m.entry.UncompressedSize64)
	offset = min(offset, length) // one past the end is for the store to throw away
	if _, err := io.CopyN(io.Discard, content, offset); err != nil {
		return err
	}
	return r.append(ctx, m, media.Piece{Offset: offset, Length: length, Body: content})
}

func (r *run) append(ctx context.Context, m medium, piece media.Piece) error {
	told, err := r.Media.Append(ctx, r.Garden, m.name, piece)
	if err == nil && !told.Complete {
		return fmt.Errorf("%s ended early: %w", m.entry.Name, io.ErrUnexpectedEOF)
	}
	return err
}

// prove reads an original that is only looked at.
func prove(m medium) error {
	if m.entry.UncompressedSize64 > media.MaxPictureBytes {
		return &media.Problem{Code: media.TooLarge, Name: m.name, Limit: media.MaxPictureBytes,
			Text: fmt.Sprintf("the file has %.1f MB; at most %d MB are kept", float64(m.entry.UncompressedSize64)/(1<<20), media.MaxPictureBytes>>20)}
	}
	content, err := m.entry.Open()
	if err != nil {
		return err
	}
	defer content.Close()
	hash := sha256.New()
	if _, err := io.Copy(hash, io.LimitReader(content, media.MaxPictureBytes+1)); err != nil {
		return err
	}
	if media.Name(hash.Sum(nil)) != m.name {
		return &media.Problem{Code: media.WrongContent, Name: m.name, Text: "the bytes are not those that the name says: save the file on the phone again"}
	}
	return nil
}

// preview takes a small picture; one that is here stays.
func (r *run) preview(ctx context.Context, m medium) (known bool, err error) {
	if known, err = r.Media.HasPreview(ctx, r.Garden, m.name, m.side); known || err != nil {
		return known, err
	}
	content, err := m.entry.Open()
	if err != nil {
		return false, err
	}
	defer content.Close()
	if r.Check {
		_, err := io.Copy(io.Discard, io.LimitReader(content, media.MaxPictureBytes))
		return false, err
	}
	return false, r.Media.PutPreview(ctx, r.Garden, m.name, m.side, r.file.originalBytes(m.name), content)
}
