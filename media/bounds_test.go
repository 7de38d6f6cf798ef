package media

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

const (
	mostGrowthBytes = 128 << 20 // what one picture may cost a server besides what it has
	// patience is a multiple of the two seconds that a picture may take, so that
	// only what hangs fails on a busy machine.
	patience = 20 * time.Second
)

const childFile = "HAULM_MEDIA_TEST_FILE" // tells a child process which file to take in

// Each picture goes through a process of its own, whose greatest memory the
// kernel has measured and which can be killed when it hangs.
func TestNoPictureHangsOrEatsTheMachine(t *testing.T) {
	if _, err := peakBytes(); err != nil {
		t.Skip("this system does not tell a process's greatest memory: ", err)
	}
	files := hostileFiles(t)
	samplesHere, err := filepath.Glob(filepath.Join(samples, "*.[jp][pn]g"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range append(files, samplesHere...) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			growth := runChild(t, file)
			t.Logf("%s took %.1f MB", filepath.Base(file), float64(growth)/(1<<20))
			if growth > mostGrowthBytes && !memoryIsWatched {
				t.Errorf("took %d MB of memory; at most %d", growth>>20, mostGrowthBytes>>20)
			}
		})
	}
}

func runChild(t *testing.T, file string) (growth int64) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	child := exec.CommandContext(ctx, os.Args[0], "-test.run=^TestChildTakesOneFile$", "-test.v")
	child.Env = append(os.Environ(), childFile+"="+file)
	out, err := child.CombinedOutput()
	if ctx.Err() != nil {
		t.Fatalf("still busy after %s", patience)
	}
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	_, rest, found := strings.Cut(string(out), "growth=")
	number, _, _ := strings.Cut(rest, "\n")
	growth, err = strconv.ParseInt(number, 10, 64)
	if !found || err != nil {
		t.Fatalf("the child said nothing of its memory: %v\n%s", err, out)
	}
	return growth
}

// TestChildTakesOneFile does its work only in a child process.
func TestChildTakesOneFile(t *testing.T) {
	file := os.Getenv(childFile)
	if file == "" {
		t.Skip("for child processes")
	}
	content, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	store := newStore(t)
	before, err := peakBytes()
	if err != nil {
		t.Fatal(err)
	}
	takeIn(t, store, content)
	after, err := peakBytes()
	if err != nil {
		t.Fatal(err)
	}
	fmt.Printf("growth=%d\n", after-before)
}

// takeIn sends a file, reads its facts and asks for its previews. Anything may be
// refused, but only with a sentence.
func takeIn(t *testing.T, store *Store, content []byte) {
	t.Helper()
	_, err := send(t, store, content)
	for _, side := range []Side{Small, Large} {
		if err == nil {
			_, err = store.Preview(t.Context(), home, NameOf(content), side)
		}
	}
	if err != nil && problemOf(t, err).Text == "" {
		t.Errorf("refused without a sentence: %v", err)
	}
}

// peakBytes is the greatest resident memory of this process so far.
func peakBytes() (int64, error) {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0, err
	}
	_, rest, found := strings.Cut(string(status), "VmHWM:")
	fields := strings.Fields(rest)
	if !found || len(fields) == 0 {
		return 0, errors.New("no VmHWM")
	}
	kilobytes, err := strconv.ParseInt(fields[0], 10, 64)
	return kilobytes << 10, err
}

// hostileFiles makes what the samples lack, in files.
func hostileFiles(t *testing.T) []string {
	t.Helper()
	small := plainPicture(t, 64, 48)
	made := map[string][]byte{
		"loop.jpg":                 withEXIF(small, loopingBlock()),
		"huge-count.jpg":           withEXIF(small, hugeCountBlock()),
		"huge-count-cut.jpg":       withEXIF(small, hugeCountBlock()[:26]),
		"exif-alone.jpg":           append([]byte{0xFF, markerSOI}, exifSegment(loopingBlock())...),
		"12-megapixels.jpg":        flat(4032, 3024, 0xC0),
		"12-progressive.jpg":       flat(4032, 3024, 0xC2),
		"49-progressive.jpg":       flat(7000, 7000, 0xC2),
		"49-megapixels.jpg":        flat(7000, 7000, 0xC0),
		"long-and-thin.jpg":        flat(50_000, 8, 0xC0),
		"thin-and-long.jpg":        flat(8, 50_000, 0xC0),
		"many-colour-profiles.jpg": withSegments(small, 900, markerAPP2, append([]byte(iccHeader), make([]byte, 60_000)...)),
		"many-empty-segments.jpg":  withSegments(small, 3000, markerAPP15, nil),
		"nothing-but-fill.jpg":     append([]byte{0xFF, markerSOI}, bytes.Repeat([]byte{0xFF}, 1<<20)...),
	}
	dir := t.TempDir()
	var files []string
	for name, content := range made {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, content, 0o600); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}

func exifSegment(block []byte) []byte {
	return segment(markerAPP1, append([]byte(exifHeader), block...))
}

func segment(marker byte, body []byte) []byte {
	out := binary.BigEndian.AppendUint16([]byte{0xFF, marker}, uint16(len(body)+2))
	return append(out, body...)
}

func withEXIF(picture, block []byte) []byte { return withColour(picture, exifSegment(block)) }

func withSegments(picture []byte, n int, marker byte, body []byte) []byte {
	return withColour(picture, bytes.Repeat(segment(marker, body), n))
}

// flat makes a JPEG all of one grey, 4:2:0, in which a block costs a bit or two:
// little to send and much to decode (T.81 annexes F and G). frame is its frame
// header's marker; a progressive one makes a decoder keep every coefficient.
func flat(width, height int, frame byte) []byte {
	const progressive = 0xC2
	out := []byte{0xFF, markerSOI}
	out = append(out, segment(0xDB, append([]byte{0}, bytes.Repeat([]byte{1}, 64)...))...)
	out = append(out, segment(frame, []byte{8, byte(height >> 8), byte(height), byte(width >> 8), byte(width), 3,
		1, 0x22, 0, 2, 0x11, 0, 3, 0x11, 0})...)
	oneCode := make([]byte, 18)
	oneCode[1] = 1 // a single code, of one bit: "no change", or "the rest is nothing"
	out = append(out, segment(markerDHT, oneCode)...)
	bits, last := 1, byte(63)
	if frame == progressive {
		last = 0
	} else {
		bits = 2
		ac := bytes.Clone(oneCode)
		ac[0] = 0x10
		out = append(out, segment(markerDHT, ac)...)
	}
	out = append(out, segment(markerSOS, []byte{3, 1, 0, 2, 0, 3, 0, 0, last, 0})...)
	units := ((width + 15) / 16) * ((height + 15) / 16)
	out = append(out, make([]byte, (units*6*bits+7)/8)...)
	return append(out, 0xFF, markerEOI)
}
