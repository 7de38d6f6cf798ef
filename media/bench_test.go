package media

import (
	"bytes"
	"crypto/sha256"
	"strconv"
	"testing"
)

// BenchmarkPreviews makes both small pictures of a 12-megapixel photograph. B/op
// is all that was allocated, an upper bound of what was held at once.
func BenchmarkPreviews(b *testing.B) {
	content := photograph(b, 4032, 3024)
	facts, err := jpegFacts(bytes.NewReader(content), NameOf(content))
	if err != nil {
		b.Fatal(err)
	}
	facts.Type = JPEG
	b.SetBytes(int64(len(content)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := shrink(bytes.NewReader(content), facts); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkUpload takes in a photograph of 3.6 MB, each piece on disk before the
// next, for the piece that phones send and for all of it at once.
func BenchmarkUpload(b *testing.B) {
	for _, piece := range []int{256 << 10, 4 << 20} {
		b.Run(strconv.Itoa(piece>>10)+"kB", func(b *testing.B) { benchmarkUpload(b, piece) })
	}
}

func benchmarkUpload(b *testing.B, piece int) {
	content := append(plainPicture(b, 400, 300), make([]byte, 3_600_000)...)[:3_600_000]
	store := newStore(b)
	b.SetBytes(int64(len(content)))
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		copy(content[len(content)-8:], strconv.Itoa(10_000_000+n)) // another photograph each time
		name := Name(sha256.Sum256(content))
		for at := 0; at < len(content); at += piece {
			end := min(at+piece, len(content))
			_, err := store.Append(b.Context(), home, name, Piece{Offset: int64(at), Length: int64(len(content)), Body: bytes.NewReader(content[at:end])})
			if err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkFacts reads the EXIF of a photograph.
func BenchmarkFacts(b *testing.B) {
	content := sample(b, "gps_ne_altitude_dop.jpg")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := jpegFacts(bytes.NewReader(content), Name{}); err != nil {
			b.Fatal(err)
		}
	}
}
