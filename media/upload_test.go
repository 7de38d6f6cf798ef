package media

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/iotest"
)

const phonePiece = 256 << 10 // bytes that a phone sends at a time

// largePhotograph is a real JPEG of 12 MB.
func largePhotograph(t testing.TB) []byte {
	t.Helper()
	content := append(noise(t, 1200, 900), make([]byte, 12_000_000)...)[:12_000_000]
	random := rand.New(rand.NewPCG(7, 8))
	for i := len(content) - 9_000_000; i < len(content); i++ { // what cameras append behind the picture
		content[i] = uint8(random.Uint32())
	}
	return content
}

// flaky breaks off after so many bytes, as a connection does.
func flaky(content []byte, after int) io.Reader {
	return io.MultiReader(bytes.NewReader(content[:min(after, len(content))]), iotest.ErrReader(io.ErrClosedPipe))
}

// phone sends an original piece by piece, asking for the offset after each
// break, and counts what it sent.
type phone struct {
	t       *testing.T
	content []byte
	sent    int
}

func (p *phone) name() Name { return NameOf(p.content) }

// sendPiece sends from the store's offset; breakAfter < 0 means that all arrives.
func (p *phone) sendPiece(store *Store, breakAfter int) Progress {
	p.t.Helper()
	before, err := store.Offset(p.t.Context(), home, p.name())
	if err != nil {
		p.t.Fatal(err)
	}
	piece := p.content[before.Offset:min(before.Offset+phonePiece, int64(len(p.content)))]
	body := io.Reader(bytes.NewReader(piece))
	p.sent += len(piece)
	if breakAfter >= 0 {
		body = flaky(piece, breakAfter)
	}
	after, err := store.Append(p.t.Context(), home, p.name(), Piece{before.Offset, int64(len(p.content)), body})
	if broke := errors.Is(err, io.ErrClosedPipe); err != nil && !broke {
		p.t.Fatal(err)
	}
	return after
}

func TestFiftyDropsCostAtMostAPieceEach(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	dir, index := t.TempDir(), newMemoryIndex()
	store := openStore(t, dir, index)
	p := &phone{t: t, content: largePhotograph(t)}
	const drops = 50
	pieces := (len(p.content) + phonePiece - 1) / phonePiece
	dropped := 0
	for progress := (Progress{}); !progress.Complete; {
		breakAfter := -1
		if dropped < drops && random.IntN(pieces+drops) < drops+dropped { // early and late
			breakAfter, dropped = random.IntN(phonePiece), dropped+1
		}
		if dropped%7 == 3 { // now and then the server starts anew as well
			store = openStore(t, dir, index)
		}
		progress = p.sendPiece(store, breakAfter)
	}
	if dropped != drops {
		t.Fatalf("%d drops, want %d", dropped, drops)
	}
	if most := len(p.content) + drops*phonePiece; p.sent > most {
		t.Errorf("sent %d bytes, want at most %d", p.sent, most)
	}
	checkReadsBack(t, store, p.content)
}

func checkReadsBack(t *testing.T, store *Store, content []byte) {
	t.Helper()
	original, err := store.Original(t.Context(), home, NameOf(content))
	if err != nil {
		t.Fatal(err)
	}
	defer original.Close()
	got, err := io.ReadAll(original)
	if err != nil || !bytes.Equal(got, content) {
		t.Fatalf("read back %d bytes of %d, %v", len(got), len(content), err)
	}
}

func TestWhatArrivedBeforeABreakIsKept(t *testing.T) {
	dir, index := t.TempDir(), newMemoryIndex()
	content := noise(t, 200, 200)
	piece := Piece{Length: int64(len(content)), Body: flaky(content, 1000)}
	progress, err := openStore(t, dir, index).Append(t.Context(), home, NameOf(content), piece)
	if !errors.Is(err, io.ErrClosedPipe) || progress.Offset != 1000 {
		t.Fatalf("%+v, %v", progress, err)
	}
	again, err := openStore(t, dir, index).Offset(t.Context(), home, NameOf(content))
	if err != nil || again.Offset != 1000 || again.Complete {
		t.Fatalf("after a restart %+v, %v", again, err)
	}
}

func TestAPieceThatDoesNotFitGetsTheTrueOffset(t *testing.T) {
	store := newStore(t)
	content := noise(t, 200, 200)
	length := int64(len(content))
	first := Piece{0, length, bytes.NewReader(content[:5000])}
	if _, err := store.Append(t.Context(), home, NameOf(content), first); err != nil {
		t.Fatal(err)
	}
	for name, offset := range map[string]int64{"the same piece twice": 0, "an overlap": 4999, "a gap": 5001, "the end": length} {
		t.Run(name, func(t *testing.T) {
			_, err := store.Append(t.Context(), home, NameOf(content), Piece{offset, length, bytes.NewReader(content[min(offset, 5001):])})
			if problem := wantCode(t, err, WrongOffset); problem.Offset != 5000 {
				t.Errorf("offset %d, want 5000", problem.Offset)
			}
		})
	}
	progress, err := store.Append(t.Context(), home, NameOf(content), Piece{5000, length, bytes.NewReader(content[5000:])})
	if err != nil || !progress.Complete {
		t.Fatalf("%+v, %v", progress, err)
	}
}

func TestLengthsThatCannotBe(t *testing.T) {
	store := newStore(t)
	name := Name{1}
	for what, c := range map[string]struct {
		piece Piece
		code  Code
	}{
		"nothing at all":         {Piece{0, 0, strings.NewReader("")}, BadLength},
		"less than nothing":      {Piece{0, -1, strings.NewReader("x")}, BadLength},
		"before the start":       {Piece{-1, 10, strings.NewReader("x")}, BadLength},
		"behind the end":         {Piece{11, 10, strings.NewReader("x")}, BadLength},
		"too large for a camera": {Piece{0, MaxPictureBytes + 1, strings.NewReader("x")}, TooLarge},
		"largest number":         {Piece{0, 1<<63 - 1, strings.NewReader("x")}, TooLarge},
	} {
		t.Run(what, func(t *testing.T) {
			_, err := store.Append(t.Context(), home, name, c.piece)
			wantCode(t, err, c.code)
		})
	}
}

func TestSendingTwiceIsNoError(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	first := mustSend(t, store, content)
	second := mustSend(t, store, content)
	if first.Offset != second.Offset || second.Facts.Place == nil || *second.Facts.Place != *first.Facts.Place {
		t.Errorf("first %+v, then %+v", first, second)
	}
	for _, offset := range []int64{0, 7, int64(len(content))} {
		progress, err := store.Append(t.Context(), home, NameOf(content), Piece{offset, int64(len(content)), bytes.NewReader(nil)})
		if err != nil || !progress.Complete || progress.Offset != int64(len(content)) {
			t.Errorf("at %d: %+v, %v", offset, progress, err)
		}
	}
}

func TestOtherBytesUnderANameAreThrownAway(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	wrong := bytes.Clone(content)
	wrong[len(wrong)-5] ^= 1
	_, err := store.Append(t.Context(), home, NameOf(content), wholePiece(wrong))
	problem := wantCode(t, err, WrongContent)
	if problem.Offset != 0 || !strings.Contains(problem.Text, "thrown away") || !strings.Contains(problem.Text, "from the start") {
		t.Errorf("%+v says not what to do", problem)
	}
	if progress, err := store.Offset(t.Context(), home, NameOf(content)); err != nil || progress != (Progress{}) {
		t.Errorf("left over: %+v, %v", progress, err)
	}
	checkNoLeftovers(t, store.dir)
	mustSend(t, store, content)
}

// A partial longer than the file could never end, and no offset would fit it.
func TestMoreIsHereThanTheFileHas(t *testing.T) {
	content := sample(t, "gps_nw.jpg")
	name, length := NameOf(content), int64(len(content))
	for what, offset := range map[string]int64{"a sender that begins": 0, "a sender told where to go on": length + 100} {
		t.Run(what, func(t *testing.T) {
			store := newStore(t)
			longer := Piece{0, 2 * length, bytes.NewReader(append(bytes.Clone(content), make([]byte, 100)...))}
			if progress, err := store.Append(t.Context(), home, name, longer); err != nil || progress.Offset != length+100 {
				t.Fatalf("%+v, %v", progress, err)
			}
			_, err := store.Append(t.Context(), home, name, Piece{offset, length, bytes.NewReader(content)})
			if problem := wantCode(t, err, WrongContent); problem.Offset != 0 {
				t.Errorf("go on from %d", problem.Offset)
			}
			checkNoLeftovers(t, store.dir)
			mustSend(t, store, content)
		})
	}
}

func checkNoLeftovers(t *testing.T, dir string) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			t.Errorf("left over: %s", path)
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}

func TestWhatIsNotKeptIsRefusedWithItsFirstPiece(t *testing.T) {
	store := newStore(t)
	webm := append([]byte("\x1A\x45\xDF\xA3\x9F\x42\x86\x81\x01\x42\xF7\x81\x01\x42\xF2\x81\x04\x42\xF3\x81\x08\x42\x82\x84webm"), make([]byte, 100)...)
	cases := map[string]struct {
		start  []byte
		length int64
		code   Code
	}{
		"a program":        {append([]byte("\x7FELF"), make([]byte, 100)...), 50_000_000, UnknownType},
		"a film's length":  {webm, MaxSoundBytes + 1, TooLarge},
		"a matroska film":  {append([]byte("\x1A\x45\xDF\xA3\x42\x82\x88matroska"), make([]byte, 100)...), 1000, UnknownType},
		"an AVIF picture":  {append([]byte("\x00\x00\x00\x20ftypavif"), make([]byte, 100)...), 1000, UnknownType},
		"a page of script": {[]byte("<!doctype html><script>alert(1)</script>" + strings.Repeat(" ", 60)), 1000, UnknownType},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			_, err := store.Append(t.Context(), home, NameOf(c.start), Piece{0, c.length, bytes.NewReader(c.start)})
			wantCode(t, err, c.code)
		})
	}
	checkNoLeftovers(t, store.dir)
}

func TestSoundAndHEICAreKeptUnread(t *testing.T) {
	cases := map[Type]string{
		WebM: "\x1A\x45\xDF\xA3\x9F\x42\x86\x81\x01\x42\xF7\x81\x01\x42\xF2\x81\x04\x42\xF3\x81\x08\x42\x82\x84webm",
		Ogg:  "OggS\x00\x02",
		MP4:  "\x00\x00\x00\x1CftypM4A \x00\x00\x00\x00",
		HEIC: "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00",
		HEIF: "\x00\x00\x00\x18ftypmif1\x00\x00\x00\x00",
	}
	for kind, start := range cases {
		t.Run(string(kind), func(t *testing.T) {
			store := newStore(t)
			content := []byte(start + strings.Repeat("sound or picture ", 100))
			progress := mustSend(t, store, content)
			if progress.Facts.Type != kind || progress.Facts.Type.Inline() || progress.Facts.Bytes != int64(len(content)) {
				t.Errorf("facts %+v", progress.Facts)
			}
			_, err := store.Preview(t.Context(), home, NameOf(content), Small)
			wantCode(t, err, NoPreview)
			checkReadsBack(t, store, content)
		})
	}
}

func TestTwoPhonesSendTheSamePhotograph(t *testing.T) {
	store := newStore(t)
	content := largePhotograph(t)
	var both sync.WaitGroup
	for range 2 {
		both.Go(func() { sendUntilComplete(t, store, content) })
	}
	both.Wait()
	checkReadsBack(t, store, content)
}

// sendUntilComplete goes on from wherever the store says, like a phone whose
// piece another phone was quicker with.
func sendUntilComplete(t *testing.T, store *Store, content []byte) {
	at, length := int64(0), int64(len(content))
	for range 10_000 {
		end := min(at+phonePiece, length)
		progress, err := store.Append(context.Background(), home, NameOf(content), Piece{at, length, bytes.NewReader(content[at:end])})
		var problem *Problem
		switch {
		case errors.As(err, &problem) && problem.Code == WrongOffset:
			at = problem.Offset
		case err != nil:
			t.Error(err)
			return
		case progress.Complete:
			return
		default:
			at = progress.Offset
		}
	}
	t.Error("never complete")
}

func TestAnotherGardenDoesNotSeeIt(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	mustSend(t, store, content)
	const other = "0192bbbb-0000-7000-8000-000000000002"
	if progress, err := store.Offset(t.Context(), other, NameOf(content)); err != nil || progress != (Progress{}) {
		t.Errorf("another garden sees %+v, %v", progress, err)
	}
	_, err := store.Original(t.Context(), other, NameOf(content))
	wantCode(t, err, NotHere)
	_, err = store.Preview(t.Context(), other, NameOf(content), Small)
	wantCode(t, err, NotHere)
}

// The states in which a machine that stops can leave the folder.
func TestAfterAStop(t *testing.T) {
	content := sample(t, "gps_nw.jpg")
	name := NameOf(content)
	cases := map[string]struct {
		file    string // beside the original's name
		content []byte
		offset  int64
		done    bool
	}{
		"between write and sync":          {".part", content[:700], 700, false},
		"before the last step":            {".part", content, int64(len(content)), true},
		"between the file and the index":  {"", content, int64(len(content)), true},
		"a block that never reached disk": {".part", append(bytes.Clone(content[:700]), make([]byte, len(content)-700)...), int64(len(content)), false},
	}
	for what, c := range cases {
		t.Run(what, func(t *testing.T) {
			dir := t.TempDir()
			folder := filepath.Join(dir, home, name.String()[:2])
			if err := os.MkdirAll(folder, 0o700); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(folder, name.String()+c.file), c.content, 0o600); err != nil {
				t.Fatal(err)
			}
			store := openStore(t, dir, newMemoryIndex())
			synced := watch(store, nil)
			progress, err := store.Offset(t.Context(), home, name)
			if !slices.Contains(*synced, name.String()[:2]) || c.file != "" && !slices.Contains(*synced, fmt.Sprintf("%s%s %d", name, c.file, len(c.content))) {
				t.Errorf("it is told as safe after syncing only %v", *synced)
			}
			if err != nil || progress.Offset != c.offset || progress.Complete != c.done {
				t.Fatalf("%+v, %v", progress, err)
			}
			goOn(t, store, content)
		})
	}
}

// goOn sends what is missing, from the start when the store threw it away.
func goOn(t *testing.T, store *Store, content []byte) {
	t.Helper()
	length := int64(len(content))
	for range 3 {
		here, err := store.Offset(t.Context(), home, NameOf(content))
		if err != nil {
			t.Fatal(err)
		}
		progress, err := store.Append(t.Context(), home, NameOf(content), Piece{here.Offset, length, bytes.NewReader(content[here.Offset:])})
		if err == nil && progress.Complete {
			if progress.Facts.Place == nil {
				t.Error("its facts were lost")
			}
			checkReadsBack(t, store, content)
			return
		}
		wantCode(t, err, WrongContent)
	}
	t.Fatal("never complete")
}

// failingIndex fails its first writes, as a full disk does.
type failingIndex struct {
	*memoryIndex
	failures int
}

func (f *failingIndex) PutEntry(ctx context.Context, garden string, name Name, entry Entry) error {
	if f.failures > 0 {
		f.failures--
		return io.ErrShortWrite
	}
	return f.memoryIndex.PutEntry(ctx, garden, name, entry)
}

func TestAnIndexThatFailsIsNotReportedAsDone(t *testing.T) {
	store := openStore(t, t.TempDir(), &failingIndex{newMemoryIndex(), 1})
	content := sample(t, "gps_nw.jpg")
	if progress, err := send(t, store, content); err == nil || progress.Complete {
		t.Fatalf("%+v, %v", progress, err)
	}
	if progress := mustSend(t, store, content); progress.Facts.Place == nil {
		t.Error("its facts were lost")
	}
}
