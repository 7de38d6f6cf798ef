package media

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
)

// A pngHead is a PNG's first chunk, W3C PNG 11.2.1.
type pngHead struct {
	width, height int64
	depth, colour byte // bits a channel; colour type
	interlaced    bool
}

// readPNGHead reads the signature and the first chunk.
func readPNGHead(from io.Reader) (pngHead, error) {
	const signature, chunkHead, headerBytes = 8, 8, 13
	var b [signature + chunkHead + headerBytes]byte
	if _, err := io.ReadFull(from, b[:]); err != nil {
		return pngHead{}, errors.New("ends before its header")
	}
	if string(b[signature+4:signature+chunkHead]) != "IHDR" {
		return pngHead{}, errors.New("does not begin with its header")
	}
	h := b[signature+chunkHead:]
	head := pngHead{
		width:      int64(binary.BigEndian.Uint32(h)),
		height:     int64(binary.BigEndian.Uint32(h[4:])),
		depth:      h[8],
		colour:     h[9],
		interlaced: h[12] != 0,
	}
	if head.width == 0 || head.height == 0 {
		return pngHead{}, fmt.Errorf("a picture of %d × %d pixels", head.width, head.height)
	}
	return head, nil
}

// decodeBytes bounds the memory that image/png needs for the pixels and resizing
// them needs for its first half: grey may come out with alpha, paletted pixels
// are spread to RGBA afterwards, and an interlaced picture is held twice.
func (h pngHead) decodeBytes() int64 {
	const palette = 3
	perPixel := int64(4)
	switch {
	case h.colour == palette:
		perPixel = 1 + 4
	case h.depth == 16:
		perPixel = 8
	}
	if h.interlaced {
		perPixel *= 2
	}
	return h.width*h.height*perPixel + min(h.width, int64(Large))*h.height*4
}
