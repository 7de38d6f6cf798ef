package media

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/rwcarlsen/goexif/exif"
)

// tiffEntry is one entry of a block made for a test.
type tiffEntry struct {
	tag, kind uint16
	count     uint32
	value     uint32
}

// tiffBlock writes a big-endian block whose first directory is at byte 8.
func tiffBlock(next uint32, entries ...tiffEntry) []byte {
	b := []byte("MM\x00*\x00\x00\x00\x08")
	b = binary.BigEndian.AppendUint16(b, uint16(len(entries)))
	for _, e := range entries {
		b = binary.BigEndian.AppendUint16(b, e.tag)
		b = binary.BigEndian.AppendUint16(b, e.kind)
		b = binary.BigEndian.AppendUint32(b, e.count)
		b = binary.BigEndian.AppendUint32(b, e.value)
	}
	return binary.BigEndian.AppendUint32(b, next)
}

// loopingBlock makes two directories that point at each other, in 44 bytes: a
// reader that follows links never ends.
func loopingBlock() []byte {
	first := tiffBlock(26, tiffEntry{0x0112, typeShort, 1, 6 << 16})
	second := tiffBlock(8, tiffEntry{0x0112, typeShort, 1, 6 << 16})[8:]
	return append(first, second...)
}

// hugeCountBlock makes one entry that claims four gigabytes of doubles but whose
// length overflows 32 bits to 8 bytes, in 32 bytes: a reader that believes both
// asks for 4 GB.
func hugeCountBlock() []byte {
	return append(tiffBlock(0, tiffEntry{0x9286, 12, 1<<29 + 1, 8}), make([]byte, 6)...)
}

func TestABlockThatLoopsIsReadOnce(t *testing.T) {
	block := loopingBlock()
	sound, mended, err := mendTIFF(block)
	if err != nil || !mended {
		t.Fatalf("mended %v, %v", mended, err)
	}
	if facts, read := readEXIF(block); !read || facts.Orientation != 6 {
		t.Errorf("what was sound in it is lost: %+v", facts)
	}
	if _, again, err := mendTIFF(sound); err != nil || again {
		t.Errorf("a mended block needs mending: %v, %v", again, err)
	}
}

func TestWhatDoesNotHoldIsLeftOutAndTheRestRead(t *testing.T) {
	upside := tiffEntry{0x0112, typeShort, 1, 3 << 16}
	cases := map[string]tiffEntry{
		"a count that overflows":        {0x9286, 12, 1<<29 + 1, 8},
		"a count of all ones":           {0x9286, typeByte, 1<<32 - 1, 8},
		"no values":                     {0x9286, typeByte, 0, 0},
		"a type that TIFF lacks":        {0x9286, 99, 1, 0},
		"a value behind the end":        {0x9286, typeLong, 4, 1 << 20},
		"a value before the start":      {0x9286, typeLong, 2, 0},
		"a pointer to its own":          {tagExifIFD, typeLong, 1, 8},
		"a pointer into its own":        {tagGPSIFD, typeLong, 1, 12},
		"a pointer behind the end":      {tagGPSIFD, typeLong, 1, 60_000},
		"two pointers":                  {tagGPSIFD, typeLong, 2, 8},
		"a pointer that is text":        {tagExifIFD, 2, 4, 8},
		"a pointer beyond 2 GB":         {tagExifIFD, typeLong, 1, 1<<31 + 8},
		"a value at the end of 32 bits": {0x9286, typeLong, 2, 1<<32 - 4},
	}
	for name, bad := range cases {
		t.Run(name, func(t *testing.T) {
			facts, read := readEXIF(tiffBlock(0, bad, upside))
			if !read || facts.Orientation != 3 {
				t.Fatalf("read %v, %+v", read, facts)
			}
			if len(facts.Notes) != 1 || facts.Notes[0] != NoteMended {
				t.Errorf("notes %v, want that it was mended", facts.Notes)
			}
		})
	}
}

func TestWhatIsNoBlockIsNotRead(t *testing.T) {
	cases := map[string][]byte{
		"empty":                    {},
		"short":                    []byte("MM\x00*"),
		"no byte order":            []byte("XX\x00*\x00\x00\x00\x08\x00\x00\x00\x00\x00\x00"),
		"directory in the header":  []byte("MM\x00*\x00\x00\x00\x04\x00\x00\x00\x00\x00\x00"),
		"directory behind the end": []byte("MM\x00*\x00\x00\x10\x00\x00\x00\x00\x00\x00\x00"),
		"more entries than tags":   tiffBlock(0, make([]tiffEntry, mostEntries+1)...),
		"more entries than bytes":  []byte("MM\x00*\x00\x00\x00\x08\xFF\xFF\x00\x00\x00\x00"),
	}
	for name, block := range cases {
		t.Run(name, func(t *testing.T) {
			if facts, read := readEXIF(block); read || len(facts.Notes) != 1 || facts.Notes[0] != NoteUnread {
				t.Errorf("read %v, notes %v", read, facts.Notes)
			}
		})
	}
}

// Values that lie on top of each other could make a reader copy 64 KB for each
// of thousands of entries.
func TestValuesTogetherAreNoLongerThanTheBlock(t *testing.T) {
	entries := make([]tiffEntry, mostEntries)
	for i := range entries {
		entries[i] = tiffEntry{0x9286, 7, 60_000, 8}
	}
	block := append(tiffBlock(0, entries...), make([]byte, 58_000)...)
	if _, mended, err := mendTIFF(block); err != nil || !mended {
		t.Fatalf("mended %v, %v", mended, err)
	}
	if got := allocated(func() { readEXIF(block) }); got > mostReadingBytes {
		t.Errorf("reading it took %d bytes of memory", got)
	}
}

// mostReadingBytes is what reading a block of 64 KB may take in all: goexif makes
// eight bytes of each byte value, and copies the block a few times.
const mostReadingBytes = 4 << 20

func allocated(f func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// FuzzEXIF: whatever the bytes, a mended block needs no mending, goexif reads it
// without a panic (the recover in readEXIF is not in the way here), and reading
// takes bounded memory.
func FuzzEXIF(f *testing.F) {
	for _, block := range seedBlocks(f) {
		f.Add(block)
	}
	f.Fuzz(func(t *testing.T, block []byte) {
		sound, _, err := mendTIFF(block)
		if err != nil {
			return
		}
		again, mended, err := mendTIFF(sound)
		if err != nil || mended || !bytes.Equal(again, sound) {
			t.Fatalf("mending twice: mended %v, %v", mended, err)
		}
		took := allocated(func() {
			if _, err := exif.Decode(bytes.NewReader(sound)); err != nil && exif.IsCriticalError(err) {
				t.Logf("goexif: %v", err)
			}
			readEXIF(block)
		})
		if took > 2*mostReadingBytes {
			t.Fatalf("reading %d bytes took %d bytes of memory", len(block), took)
		}
	})
}

// FuzzJPEGHead: whatever the bytes, the head is read without a panic, and what
// is left without metadata has the same head but no EXIF.
func FuzzJPEGHead(f *testing.F) {
	for _, file := range jpegSamples(f) {
		content, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(content)
	}
	f.Fuzz(func(t *testing.T, content []byte) {
		head, err := readJPEGHead(bytes.NewReader(content))
		if err != nil {
			return
		}
		bare, err := readJPEGHead(bytes.NewReader(withoutMetadata(content)))
		if err != nil || bare.width != head.width || bare.height != head.height || bare.exif != nil {
			t.Fatalf("without metadata: %+v, %v", bare, err)
		}
	})
}

func seedBlocks(t testing.TB) [][]byte {
	t.Helper()
	seeds := [][]byte{loopingBlock(), hugeCountBlock()}
	for _, file := range jpegSamples(t) {
		content, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if head, err := readJPEGHead(bytes.NewReader(content)); err == nil && head.exif != nil {
			seeds = append(seeds, head.exif)
		}
	}
	if len(seeds) < 20 {
		t.Fatalf("only %d seeds; are the samples there?", len(seeds))
	}
	return seeds
}

func jpegSamples(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(samples, "*.jpg"))
	if err != nil || len(files) < 30 {
		t.Fatalf("%d samples, %v", len(files), err)
	}
	return files
}
