package httpapi

import (
	"errors"
	"io"
	"net/http"
	"strconv"

	"github.com/gofiber/fiber/v2"

	"haulm/media"
	"haulm/server/household"
	"haulm/server/refusal"
)

// Headers of the upload protocol; the names are those of the IETF's resumable
// uploads draft, the semantics those of architecture.
const (
	headerOffset         = "Upload-Offset"
	headerLength         = "Upload-Length"
	headerComplete       = "Upload-Complete"
	headerOriginalLength = "Haulm-Original-Length"
)

func (a *App) mediaOffset(c *fiber.Ctx) error {
	name, err := media.ParseName(param(c, "sha256"))
	if err != nil {
		return err
	}
	progress, err := a.Media.Offset(c.UserContext(), seat(c).Garden, name)
	if err != nil {
		return err
	}
	tellProgress(c, progress)
	return c.SendStatus(http.StatusOK)
}

// tellProgress says how much is safely here. Only Upload-Complete: ?1 (RFC 8941
// booleans) means that a sender may forget its copy.
func tellProgress(c *fiber.Ctx, progress media.Progress) {
	c.Set(headerOffset, strconv.FormatInt(progress.Offset, 10))
	if progress.Complete {
		c.Set(headerComplete, "?1")
		c.Set(headerLength, strconv.FormatInt(progress.Offset, 10))
		return
	}
	c.Set(headerComplete, "?0")
}

func (a *App) mediaAppend(c *fiber.Ctx) error {
	name, err := a.mayAddMedia(c)
	if err != nil {
		return err
	}
	offset, err := numberHeader(c, headerOffset)
	if err != nil {
		return err
	}
	length, err := numberHeader(c, headerLength)
	if err != nil {
		return err
	}
	piece := body(c, media.MaxPictureBytes)
	progress, err := a.Media.Append(c.UserContext(), seat(c).Garden, name, media.Piece{Offset: offset, Length: length, Body: piece})
	a.metrics.received(piece.read)
	if err != nil {
		return withOffset(c, err)
	}
	tellProgress(c, progress)
	return c.SendStatus(http.StatusNoContent)
}

// withOffset adds the true offset to a refusal that has one.
func withOffset(c *fiber.Ctx, err error) error {
	var problem *media.Problem
	if errors.As(err, &problem) && (problem.Code == media.WrongOffset || problem.Code == media.WrongContent) {
		c.Set(headerOffset, strconv.FormatInt(problem.Offset, 10))
	}
	return err
}

// mayAddMedia reads the name and refuses members who may not write.
func (a *App) mayAddMedia(c *fiber.Ctx) (media.Name, error) {
	if seat(c).Member.Role == household.Viewer {
		return media.Name{}, refusal.New(refusal.Forbidden, "role_viewer",
			"a viewer may look but not send photos: ask a keeper of the garden for another role")
	}
	return media.ParseName(param(c, "sha256"))
}

func numberHeader(c *fiber.Ctx, name string) (int64, error) {
	text := header(c, name)
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 0 {
		return 0, refusal.New(refusal.Invalid, "bad_header", "the header %s must be a count of bytes, not %q", name, shorten(text))
	}
	return n, nil
}

func (a *App) mediaPreview(c *fiber.Ctx) error {
	name, err := a.mayAddMedia(c)
	if err != nil {
		return err
	}
	side, err := media.ParseSide(param(c, "side"))
	if err != nil {
		return err
	}
	length, err := numberHeader(c, headerOriginalLength)
	if err != nil {
		return err
	}
	picture := body(c, media.MaxPictureBytes)
	err = a.Media.PutPreview(c.UserContext(), seat(c).Garden, name, side, length, picture)
	a.metrics.received(picture.read)
	if err != nil {
		return err
	}
	return c.SendStatus(http.StatusNoContent)
}

// mediaSend gives a small picture with ?w=, else the original. Their bytes never
// change under their name, so a browser may keep them; only its own user's
// cache, since they are the garden's.
func (a *App) mediaSend(c *fiber.Ctx) error {
	name, err := media.ParseName(param(c, "sha256"))
	if err != nil {
		return err
	}
	if width := query(c, "w"); width != "" {
		return a.sendPreview(c, name, width)
	}
	return a.sendOriginal(c, name)
}

const cacheOwn = "private, max-age=31536000, immutable"

func uploadHeaders(c *fiber.Ctx, kind media.Type) {
	c.Set(fiber.HeaderContentSecurityPolicy, uploadPolicy)
	c.Set(fiber.HeaderCacheControl, cacheOwn)
	c.Set(fiber.HeaderContentType, string(kind))
	if !kind.Inline() {
		c.Set(fiber.HeaderContentDisposition, "attachment")
	}
}

func (a *App) sendPreview(c *fiber.Ctx, name media.Name, width string) error {
	side, err := media.ParseSide(width)
	if err != nil {
		return err
	}
	picture, err := a.Media.Preview(c.UserContext(), seat(c).Garden, name, side)
	if err != nil {
		return err
	}
	uploadHeaders(c, media.JPEG)
	a.metrics.sent(int64(len(picture)))
	return c.Send(picture)
}

func (a *App) sendOriginal(c *fiber.Ctx, name media.Name) error {
	original, err := a.Media.Original(c.UserContext(), seat(c).Garden, name)
	if err != nil {
		return err
	}
	tag := `"` + name.String() + `"`
	c.Set(fiber.HeaderETag, tag)
	uploadHeaders(c, original.Facts.Type) // a cache takes those of a 304 for the photo's
	if c.Get(fiber.HeaderIfNoneMatch) == tag {
		original.Close()
		return c.SendStatus(http.StatusNotModified)
	}
	span, err := a.rangeOf(c, original.Facts.Bytes, tag)
	if err != nil {
		original.Close()
		return err
	}
	if _, err := original.Seek(span.from, io.SeekStart); err != nil {
		original.Close()
		return err
	}
	c.Set(fiber.HeaderAcceptRanges, "bytes")
	if span.partial {
		c.Set(fiber.HeaderContentRange, span.header(original.Facts.Bytes))
		c.Status(http.StatusPartialContent)
	}
	a.metrics.sent(span.length)
	c.Context().SetBodyStream(readCloser{io.LimitReader(original, span.length), original}, int(span.length))
	return nil
}

// readCloser closes the file when the last byte was sent, or the client left.
type readCloser struct {
	io.Reader
	io.Closer
}
