package media

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"testing"
)

const samples = "../testdata/images"

const home = "0192aaaa-0000-7000-8000-000000000001" // a garden

// memoryIndex is an Index that keeps entries as JSON, as a real one does.
type memoryIndex struct {
	mu      sync.Mutex // guards entries
	entries map[string][]byte
}

var _ Index = (*memoryIndex)(nil)

func newMemoryIndex() *memoryIndex { return &memoryIndex{entries: map[string][]byte{}} }

func (m *memoryIndex) Entry(_ context.Context, garden string, name Name) (Entry, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	kept, ok := m.entries[garden+"/"+name.String()]
	if !ok {
		return Entry{}, NotHere
	}
	var entry Entry
	return entry, json.Unmarshal(kept, &entry)
}

func (m *memoryIndex) PutEntry(_ context.Context, garden string, name Name, entry Entry) error {
	kept, err := json.Marshal(entry)
	if err != nil {
		return err
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.entries[garden+"/"+name.String()] = kept
	return nil
}

func openStore(t testing.TB, dir string, index Index) *Store {
	t.Helper()
	store, err := Open(Options{Dir: dir, Index: index})
	if err != nil {
		t.Fatal(err)
	}
	return store
}

func newStore(t testing.TB) *Store { return openStore(t, t.TempDir(), newMemoryIndex()) }

// send sends content in one piece from the start.
func send(t testing.TB, store *Store, content []byte) (Progress, error) {
	t.Helper()
	return store.Append(t.Context(), home, NameOf(content), wholePiece(content))
}

func wholePiece(content []byte) Piece {
	return Piece{Length: int64(len(content)), Body: bytes.NewReader(content)}
}

func mustSend(t testing.TB, store *Store, content []byte) Progress {
	t.Helper()
	progress, err := send(t, store, content)
	if err != nil || !progress.Complete {
		t.Fatalf("sending: %+v, %v", progress, err)
	}
	return progress
}

func sample(t testing.TB, file string) []byte {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(samples, file))
	if err != nil {
		t.Fatal(err)
	}
	return content
}

// problemOf gives the Problem in an error.
func problemOf(t testing.TB, err error) *Problem {
	t.Helper()
	var problem *Problem
	if !errors.As(err, &problem) {
		t.Fatalf("got %v, want a *Problem", err)
	}
	return problem
}

func wantCode(t testing.TB, err error, code Code) *Problem {
	t.Helper()
	problem := problemOf(t, err)
	if problem.Code != code {
		t.Fatalf("got %s (%s), want %s", problem.Code, problem, code)
	}
	if problem.Text == "" {
		t.Fatalf("%s says nothing to a person", code)
	}
	return problem
}

// photograph makes a JPEG with the texture of foliage: hills of light with
// noise, so that it is as large and as slow to decode as a real one.
func photograph(t testing.TB, width, height int) []byte {
	t.Helper()
	random := rand.New(rand.NewPCG(1, 2))
	img := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio420)
	for y := range height {
		for x := range width {
			img.Y[y*img.YStride+x] = uint8(100 + (x*y/5000)%60 + random.IntN(24))
		}
	}
	for i := range img.Cb {
		img.Cb[i], img.Cr[i] = uint8(100+i/width%40), uint8(110+i%30)
	}
	return encodeJPEG(t, img, 85)
}

// noise is a JPEG that compresses badly.
func noise(t testing.TB, width, height int) []byte {
	t.Helper()
	random := rand.New(rand.NewPCG(3, 4))
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for i := range img.Pix {
		img.Pix[i] = uint8(random.Uint32())
	}
	return encodeJPEG(t, img, 95)
}

func plainPicture(t testing.TB, width, height int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for i := range img.Pix {
		img.Pix[i] = 0x80
	}
	img.Set(0, 0, color.White)
	return encodeJPEG(t, img, 85)
}

func encodeJPEG(t testing.TB, img image.Image, quality int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
