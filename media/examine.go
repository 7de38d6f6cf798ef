package media

import (
	"fmt"
	"io"
	"os"
)

// readFacts says what a file that has been proven is, or why it isn't kept.
// Errors: UnknownType, TooLarge, NotAPicture, TooManyPixels, Storage.
func readFacts(path string, name Name) (Facts, error) {
	f, err := os.Open(path)
	if err != nil {
		return Facts{}, storageProblem(name, "opened", err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return Facts{}, storageProblem(name, "looked up", err)
	}
	start := make([]byte, sniffBytes)
	n, err := io.ReadFull(f, start)
	if err != nil && err != io.ErrUnexpectedEOF && err != io.EOF {
		return Facts{}, storageProblem(name, "read", err)
	}
	kind, err := sniff(name, start[:n])
	if err != nil {
		return Facts{}, err
	}
	if err := checkSize(name, kind, info.Size()); err != nil {
		return Facts{}, err
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return Facts{}, storageProblem(name, "read", err)
	}
	facts, err := pictureFacts(f, name, kind)
	facts.Type, facts.Bytes = kind, info.Size()
	return facts, err
}

// pictureFacts reads the header of a picture; HEIC and sound are kept unread.
func pictureFacts(f io.Reader, name Name, kind Type) (Facts, error) {
	switch kind {
	case JPEG:
		return jpegFacts(f, name)
	case PNG:
		return pngFacts(f, name)
	}
	return Facts{}, nil
}

func jpegFacts(f io.Reader, name Name) (Facts, error) {
	head, err := readJPEGHead(f)
	if err != nil {
		return Facts{}, notAPicture(name, err)
	}
	facts, _ := readEXIF(head.exif)
	if head.exotic {
		facts = facts.withNote(NoteUndecodable)
	}
	facts.Width, facts.Height = head.width, head.height
	if turned(facts.Orientation) {
		facts.Width, facts.Height = head.height, head.width
	}
	return checkPixels(name, facts, int64(head.width), int64(head.height), head.decodeBytes())
}

func pngFacts(f io.Reader, name Name) (Facts, error) {
	head, err := readPNGHead(f)
	if err != nil {
		return Facts{}, notAPicture(name, err)
	}
	if err := refuseHuge(name, head.width, head.height); err != nil {
		return Facts{}, err
	}
	return checkPixels(name, Facts{Width: int(head.width), Height: int(head.height)}, head.width, head.height, head.decodeBytes())
}

// Limits on pictures, in pixels and in bytes of memory.
const (
	// mostKeptPixels: phones' sensors go up to 200 megapixels; beyond that a
	// file is no photograph but a trap for whoever opens it.
	mostKeptPixels = 250_000_000
	// mostDecodedPixels: the size up to which this server shrinks a picture.
	mostDecodedPixels = 50_000_000
	// mostDecodeBytes: a 12-megapixel progressive JPEG needs 89 MB, a
	// 50-megapixel plain one 72 MB; more, and what resizing needs besides, does
	// not fit beside the rest of a server on a machine with 512 MB.
	mostDecodeBytes = 92 << 20
)

func refuseHuge(name Name, width, height int64) error {
	// Each side is below 2^31, so the product does not overflow.
	if width >= 1<<31 || height >= 1<<31 || width*height > mostKeptPixels {
		return &Problem{Code: TooManyPixels, Name: name, Limit: mostKeptPixels, Text: fmt.Sprintf(
			"the file says it has %d × %d pixels; no camera makes more than %d megapixels, so it is not kept", width, height, mostKeptPixels/1_000_000)}
	}
	return nil
}

// checkPixels refuses impossible pictures and notes those too large to decode.
func checkPixels(name Name, facts Facts, width, height, decodeBytes int64) (Facts, error) {
	if err := refuseHuge(name, width, height); err != nil {
		return Facts{}, err
	}
	if width*height > mostDecodedPixels || decodeBytes > mostDecodeBytes {
		facts = facts.withNote(NoteManyPixels)
	}
	return facts, nil
}
