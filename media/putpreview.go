package media

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
)

// maxPreviewBytes is what a phone may send as a small picture. A 1600 px JPEG of
// dense foliage at quality 95 has about 1.3 MB.
func maxPreviewBytes(side Side) int64 {
	if side == Small {
		return 192 << 10
	}
	return 2 << 20
}

// PutPreview takes a small picture that a phone made of an original, which may
// come later. originalBytes is the original's size. What is not a real, upright
// JPEG of at most side pixels is refused; metadata is cut out. A second one is
// left aside without an error: the first that came stays.
//
// Errors: BadName, BadLength (originalBytes is not the size of the original that
// is here, or not positive), TooLarge, UnknownType, NotAPicture, Storage, and
// body's own.
func (s *Store) PutPreview(ctx context.Context, garden string, name Name, side Side, originalBytes int64, body io.Reader) error {
	path, err := s.path(garden, name)
	if err != nil {
		return err
	}
	if err := s.checkOriginalBytes(name, path, originalBytes); err != nil {
		return err
	}
	content, err := readLimited(name, body, maxPreviewBytes(side))
	if err != nil {
		return err
	}
	picture, err := s.checkPreview(ctx, name, side, content)
	if err != nil {
		return err
	}
	return s.keepPreview(ctx, garden, name, path, picture, ByPhone)
}

func (s *Store) checkOriginalBytes(name Name, path string, claimed int64) error {
	if claimed <= 0 || claimed > MaxPictureBytes {
		return &Problem{Code: BadLength, Name: name, Text: fmt.Sprintf("an original of %d bytes is not kept, so neither is its small picture", claimed)}
	}
	info, err := os.Stat(path)
	if err == nil && info.Size() != claimed {
		return &Problem{Code: BadLength, Name: name, Text: fmt.Sprintf(
			"the small picture is said to be of an original of %d bytes, but the one here has %d", claimed, info.Size())}
	}
	return nil
}

func readLimited(name Name, body io.Reader, limit int64) ([]byte, error) {
	var content bytes.Buffer
	n, err := content.ReadFrom(io.LimitReader(body, limit+1))
	if err != nil {
		return nil, fmt.Errorf("the small picture of %s stopped arriving: %w", name, err)
	}
	if n > limit {
		return nil, &Problem{Code: TooLarge, Name: name, Limit: limit, Text: fmt.Sprintf("the small picture has more than %d kB", limit>>10)}
	}
	return content.Bytes(), nil
}

// checkPreview decodes what a phone sent, to be sure that screens can show it.
func (s *Store) checkPreview(ctx context.Context, name Name, side Side, content []byte) (smallPicture, error) {
	kind, err := sniff(name, content)
	if err != nil {
		return smallPicture{}, err
	}
	if kind != JPEG {
		return smallPicture{}, &Problem{Code: UnknownType, Name: name, Text: "small pictures are JPEG, not " + string(kind)}
	}
	head, err := readJPEGHead(bytes.NewReader(content))
	if err != nil {
		return smallPicture{}, notAPicture(name, err)
	}
	if max(head.width, head.height) > int(side) {
		return smallPicture{}, &Problem{Code: TooManyPixels, Name: name, Limit: int64(side), Text: fmt.Sprintf(
			"the small picture is %d × %d pixels; its longer side may have %d", head.width, head.height, side)}
	}
	if facts, _ := readEXIF(head.exif); facts.Orientation > 1 {
		return smallPicture{}, &Problem{Code: NotAPicture, Name: name, Text: "the small picture is not upright; turn it before sending it"}
	}
	defer s.decoderTurn(ctx)()
	if err := ctx.Err(); err != nil {
		return smallPicture{}, err
	}
	if _, err := decode(bytes.NewReader(content), JPEG); err != nil {
		return smallPicture{}, notAPicture(name, err)
	}
	return smallPicture{side: side, width: head.width, height: head.height, jpeg: withoutMetadata(content)}, nil
}

func notAPicture(name Name, cause error) *Problem {
	return &Problem{Code: NotAPicture, Name: name, Err: cause, Text: "the file begins like a picture but is none that can be read"}
}
