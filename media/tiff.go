package media

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// Limits on the TIFF block that EXIF is (TIFF 6.0, section 2; Exif 2.32 4.6).
const (
	mostTIFFBytes = 64 << 10 // an APP1 segment holds no more
	mostIFDs      = 16       // EXIF has five: 0, 1, Exif, GPS, interoperability
	mostEntries   = 512      // in one IFD; EXIF defines fewer than 200 tags
)

const (
	tiffHeader = 8  // bytes: order, 42, offset of the first IFD
	entryBytes = 12 // tag, type, count, value or its offset
	inline     = 4  // a value of at most so many bytes stands in its entry
)

// Tags that point at another IFD, Exif 2.32 4.6.3.
const (
	tagExifIFD    = 0x8769
	tagGPSIFD     = 0x8825
	tagInteropIFD = 0xA005
)

const (
	typeByte  = 1
	typeShort = 3
	typeLong  = 4
)

// tagNothing replaces an entry that is left out; no standard gives it a meaning.
const tagNothing = 0xFFFF

// mendTIFF gives a copy of a TIFF block in which everything a reader may follow
// leads somewhere: IFDs lie inside the block, apart from each other and in no
// circle, values lie inside the block and together are no longer than it.
// Entries and links that do not hold are blanked, and mended tells whether there
// were any. The error says why nothing can be read at all.
//
// Readers of such a copy end, and ask for no more memory than a small multiple
// of the block.
func mendTIFF(block []byte) (sound []byte, mended bool, err error) {
	w := tiffWalk{block: append([]byte(nil), block[:min(len(block), mostTIFFBytes)]...)}
	if err := w.begin(); err != nil {
		return nil, false, err
	}
	first := int64(w.order.Uint32(w.block[4:]))
	if !w.enter(first) {
		return nil, false, fmt.Errorf("its first directory at byte %d does not lie in its %d bytes", first, len(w.block))
	}
	w.chain(first)
	return w.block, w.mended, nil
}

// tiffWalk is one walk over a block.
type tiffWalk struct {
	block  []byte
	order  binary.ByteOrder
	ifds   []span // those entered, which lie apart
	values int64  // bytes of all values so far
	mended bool
}

type span struct{ from, to int64 }

func (w *tiffWalk) begin() error {
	if len(w.block) < tiffHeader {
		return errors.New("too short to be EXIF")
	}
	switch string(w.block[:4]) {
	case "II*\x00":
		w.order = binary.LittleEndian
	case "MM\x00*":
		w.order = binary.BigEndian
	default:
		return errors.New("no byte order")
	}
	return nil
}

// enter reports whether an IFD at an offset is whole and apart from the others,
// and takes note of it.
func (w *tiffWalk) enter(at int64) bool {
	if at < tiffHeader || at+2 > int64(len(w.block)) || len(w.ifds) == mostIFDs {
		return false
	}
	entries := int64(w.order.Uint16(w.block[at:]))
	here := span{at, at + 2 + entries*entryBytes + 4}
	if entries > mostEntries || here.to > int64(len(w.block)) {
		return false
	}
	for _, other := range w.ifds {
		if here.from < other.to && other.from < here.to {
			return false
		}
	}
	w.ifds = append(w.ifds, here)
	return true
}

// chain walks an IFD that was entered and those that follow it.
func (w *tiffWalk) chain(at int64) {
	for {
		end := w.entries(at)
		next := int64(w.order.Uint32(w.block[end:]))
		if next == 0 {
			return
		}
		if !w.enter(next) {
			w.order.PutUint32(w.block[end:], 0)
			w.mended = true
			return
		}
		at = next
	}
}

// entries walks one IFD's entries and gives the offset behind them.
func (w *tiffWalk) entries(at int64) (end int64) {
	count := int64(w.order.Uint16(w.block[at:]))
	end = at + 2 + count*entryBytes
	for entry := at + 2; entry < end; entry += entryBytes {
		if !w.holds(entry) {
			w.blank(entry)
		}
	}
	return end
}

// holds reports whether an entry's value can be read, and where it is a pointer
// walks the IFD that it points at.
func (w *tiffWalk) holds(entry int64) bool {
	e := w.block[entry : entry+entryBytes]
	tag, kind, count := w.order.Uint16(e), w.order.Uint16(e[2:]), int64(w.order.Uint32(e[4:]))
	bytes := count * valueBytes(kind) // 32 bits times 8: far from overflow
	if bytes == 0 {
		return false
	}
	if bytes > inline {
		from := int64(w.order.Uint32(e[8:]))
		if from < tiffHeader || from+bytes > int64(len(w.block)) {
			return false
		}
	}
	if w.values+bytes > int64(len(w.block)) {
		return false
	}
	w.values += bytes
	if tag == tagExifIFD || tag == tagGPSIFD || tag == tagInteropIFD {
		return w.pointer(kind, count, e[8:])
	}
	return true
}

func (w *tiffWalk) pointer(kind uint16, count int64, value []byte) bool {
	if kind != typeLong || count != 1 {
		return false
	}
	to := int64(w.order.Uint32(value))
	if !w.enter(to) {
		return false
	}
	w.entries(to)
	return true
}

func (w *tiffWalk) blank(entry int64) {
	e := w.block[entry : entry+entryBytes]
	w.order.PutUint16(e, tagNothing)
	w.order.PutUint16(e[2:], typeByte)
	w.order.PutUint32(e[4:], 1)
	w.order.PutUint32(e[8:], 0)
	w.mended = true
}

// valueBytes is the length of one value of a type, TIFF 6.0 section 2; 0 for a
// type that TIFF does not have.
func valueBytes(kind uint16) int64 {
	switch kind {
	case typeByte, 2, 6, 7: // byte, text, signed byte, undefined
		return 1
	case typeShort, 8:
		return 2
	case typeLong, 9, 11: // long, signed long, float
		return 4
	case 5, 10, 12: // rational, signed rational, double
		return 8
	}
	return 0
}
