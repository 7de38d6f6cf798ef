package media

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// A jpegHead is what a JPEG says before its first pixel.
type jpegHead struct {
	width, height int
	progressive   bool
	exotic        bool     // a coding that image/jpeg does not know (lossless, arithmetic, hierarchical)
	samples       int64    // of all components together, whole blocks
	untransformed bool     // Adobe's marker says that the components are RGB or CMYK as they stand
	pixelBytes    int64    // what decoding needs for each pixel besides the samples
	exif          []byte   // the TIFF block of the first EXIF segment, nil when there is none
	colour        [][]byte // ICC profile segments as they stand, without their markers and lengths
}

// JPEG markers, ITU-T T.81 table B.1; APPn uses from Exif 2.32 4.5.4 (APP1), the
// ICC specification annex B.4 (APP2) and Adobe's APP14.
const (
	markerSOI   = 0xD8
	markerEOI   = 0xD9
	markerSOS   = 0xDA
	markerDHT   = 0xC4
	markerJPG   = 0xC8
	markerDAC   = 0xCC
	markerAPP0  = 0xE0
	markerAPP1  = 0xE1
	markerAPP2  = 0xE2
	markerAPP14 = 0xEE
	markerAPP15 = 0xEF
	markerCOM   = 0xFE
)

const (
	// mostSegments before the frame: phones write about a dozen, a large
	// extended XMP block some hundreds.
	mostSegments = 2000
	// mostColourBytes of an ICC profile is carried over: phones' have 0.5 kB,
	// the largest display profiles a few hundred kB and help nobody here.
	mostColourBytes    = 64 << 10
	mostColourSegments = 4
)

const (
	exifHeader = "Exif\x00\x00"
	iccHeader  = "ICC_PROFILE\x00"
)

// readJPEGHead reads up to the frame header, where the dimensions stand.
func readJPEGHead(from io.Reader) (jpegHead, error) {
	r := bufio.NewReader(from)
	var soi [2]byte
	if _, err := io.ReadFull(r, soi[:]); err != nil || soi != [2]byte{0xFF, markerSOI} {
		return jpegHead{}, errors.New("no JPEG start")
	}
	var head jpegHead
	for range mostSegments {
		marker, err := nextMarker(r)
		if err != nil {
			return head, err
		}
		if standsAlone(marker) {
			continue
		}
		body, err := segmentBody(r)
		if err != nil {
			return head, err
		}
		if done, err := head.take(marker, body); done || err != nil {
			return head, err
		}
	}
	return head, errors.New("no frame header among the first segments")
}

// nextMarker skips to the next marker and past its fill bytes.
func nextMarker(r *bufio.Reader) (byte, error) {
	b, err := r.ReadByte()
	if err == nil && b != 0xFF {
		return 0, errors.New("something other than a marker between segments")
	}
	for err == nil && b == 0xFF {
		b, err = r.ReadByte()
	}
	if err != nil {
		return 0, fmt.Errorf("ends before its frame header: %w", io.ErrUnexpectedEOF)
	}
	return b, nil
}

func standsAlone(marker byte) bool {
	return marker == 0x01 || marker == markerSOI || 0xD0 <= marker && marker <= 0xD7
}

// segmentBody reads what follows a marker, at most 64 KB.
func segmentBody(r io.Reader) ([]byte, error) {
	var length [2]byte
	if _, err := io.ReadFull(r, length[:]); err != nil {
		return nil, errors.New("ends inside a segment")
	}
	n := int(binary.BigEndian.Uint16(length[:]))
	if n < len(length) {
		return nil, errors.New("a segment shorter than its own length field")
	}
	body := make([]byte, n-len(length))
	if _, err := io.ReadFull(r, body); err != nil {
		return nil, errors.New("ends inside a segment")
	}
	return body, nil
}

// take learns from one segment; done after the frame header.
func (h *jpegHead) take(marker byte, body []byte) (done bool, err error) {
	switch {
	case isFrame(marker):
		return true, h.takeFrame(marker, body)
	case marker == markerSOS || marker == markerEOI:
		return true, errors.New("pixels without a frame header")
	case marker == markerAPP1 && h.exif == nil && bytes.HasPrefix(body, []byte(exifHeader)):
		h.exif = body[len(exifHeader):]
	case marker == markerAPP2 && bytes.HasPrefix(body, []byte(iccHeader)) && len(h.colour) < mostColourSegments:
		h.colour = append(h.colour, body)
	case marker == markerAPP14 && len(body) >= 12 && bytes.HasPrefix(body, []byte("Adobe")) && body[11] == 0:
		h.untransformed = true
	}
	return false, nil
}

func isFrame(marker byte) bool {
	return 0xC0 <= marker && marker <= 0xCF && marker != markerDHT && marker != markerJPG && marker != markerDAC
}

// takeFrame reads a frame header, T.81 B.2.2.
func (h *jpegHead) takeFrame(marker byte, body []byte) error {
	const fixed, perComponent = 6, 3
	if len(body) < fixed || len(body) < fixed+perComponent*int(body[5]) {
		return errors.New("a frame header cut short")
	}
	h.height, h.width = int(binary.BigEndian.Uint16(body[1:])), int(binary.BigEndian.Uint16(body[3:]))
	h.progressive = marker == 0xC2
	h.exotic = marker > 0xC2 || body[0] != 8
	components := body[fixed:][:perComponent*int(body[5])]
	if h.width == 0 || h.height == 0 || len(components) == 0 {
		return fmt.Errorf("a picture of %d × %d pixels", h.width, h.height)
	}
	return h.countSamples(components)
}

// countSamples adds up what the components hold, in whole units of the largest.
func (h *jpegHead) countSamples(components []byte) error {
	var most, total int64
	var ids []byte
	for c := components; len(c) > 0; c = c[3:] {
		across, down := int64(c[1]>>4), int64(c[1]&15)
		if across < 1 || across > 4 || down < 1 || down > 4 {
			return fmt.Errorf("a sampling of %d × %d", across, down)
		}
		most, total = max(most, across*down), total+across*down
		ids = append(ids, c[0])
	}
	h.samples = int64(h.width+31) * int64(h.height+31) * total / most
	const rgba, cmykAndRGBA = 4, 8
	switch {
	case len(ids) == 4:
		h.pixelBytes = cmykAndRGBA
	case len(ids) == 3 && (h.untransformed || string(ids) == "RGB"):
		h.pixelBytes = rgba
	}
	if len(ids) != 3 {
		h.colour = nil // small pictures are RGB, for which a grey or CMYK profile is wrong
	}
	return nil
}

// decodeBytes bounds the memory that image/jpeg needs for the pixels.
func (h jpegHead) decodeBytes() int64 {
	const coefficientBytes = 4
	need := h.samples + h.pixelBytes*int64(h.width)*int64(h.height)
	if h.progressive {
		need += coefficientBytes * h.samples // all coefficients wait for the last scan
	}
	return need
}

// colourSegments gives the ICC profile as segments to put behind a JPEG's
// start, nil when there is none worth carrying.
func (h jpegHead) colourSegments() []byte {
	var out []byte
	for _, body := range h.colour {
		out = append(out, 0xFF, markerAPP2)
		out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
		out = append(out, body...)
	}
	if len(h.colour) == mostColourSegments || len(out) > mostColourBytes {
		return nil // perhaps not all of it
	}
	return out
}

// withoutMetadata cuts out of a JPEG that readJPEGHead has read every segment
// that may tell who, where and when: comments and all APPn but JFIF (APP0), ICC
// (APP2) and Adobe's colour transform (APP14). What follows the first scan's
// header is kept as it is.
func withoutMetadata(jpeg []byte) []byte {
	out := append(make([]byte, 0, len(jpeg)), jpeg[:2]...)
	rest := jpeg[2:]
	for len(rest) >= 4 && rest[0] == 0xFF && rest[1] != markerSOS {
		end := 2 + int(binary.BigEndian.Uint16(rest[2:]))
		switch {
		case rest[1] == 0xFF: // a fill byte
			end = 1
		case standsAlone(rest[1]):
			end = 2
		}
		end = min(end, len(rest))
		if !tellsTales(rest[1], rest[:end]) {
			out = append(out, rest[:end]...)
		}
		rest = rest[end:]
	}
	return append(out, rest...)
}

func tellsTales(marker byte, segment []byte) bool {
	switch marker {
	case markerAPP0, markerAPP14:
		return false
	case markerAPP2:
		return !bytes.HasPrefix(segment[4:], []byte(iccHeader))
	}
	return marker == markerCOM || markerAPP1 <= marker && marker <= markerAPP15
}
