package media

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"strings"
	"sync"
	"testing"
)

func TestPreviewsHaveTheirLength(t *testing.T) {
	cases := map[string]struct {
		width, height int
		small, large  image.Point
	}{
		"landscape":         {4032, 3024, image.Pt(320, 240), image.Pt(1600, 1200)},
		"portrait":          {3000, 4000, image.Pt(240, 320), image.Pt(1200, 1600)},
		"just above double": {3201, 2001, image.Pt(320, 200), image.Pt(1600, 1000)},
		"below the large":   {800, 600, image.Pt(320, 240), image.Pt(800, 600)},
		"smaller than all":  {100, 60, image.Pt(100, 60), image.Pt(100, 60)},
		"a thread":          {6000, 2, image.Pt(320, 1), image.Pt(1600, 1)},
		"one pixel":         {1, 1, image.Pt(1, 1), image.Pt(1, 1)},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			store := newStore(t)
			content := flat(c.width, c.height, 0xC0)
			mustSend(t, store, content)
			for side, want := range map[Side]image.Point{Small: c.small, Large: c.large} {
				if got := previewImage(t, store, NameOf(content), side).Bounds().Size(); got != want {
					t.Errorf("%d: %v, want %v", side, got, want)
				}
			}
		})
	}
}

// Colours of the whole picture stay what they were through decoding, halving,
// resizing and encoding.
func TestPreviewsKeepTheirColours(t *testing.T) {
	quarters := []color.RGBA{{200, 40, 40, 255}, {40, 160, 60, 255}, {50, 60, 190, 255}, {230, 220, 90, 255}}
	img := image.NewRGBA(image.Rect(0, 0, 3400, 2600))
	for y := range 2600 {
		for x := range 3400 {
			img.SetRGBA(x, y, quarters[2*(y/1300)+x/1700])
		}
	}
	content := encodeJPEG(t, img, 95)
	store := newStore(t)
	mustSend(t, store, content)
	for _, side := range []Side{Small, Large} {
		got := previewImage(t, store, NameOf(content), side)
		w, h := got.Bounds().Dx(), got.Bounds().Dy()
		for i, at := range []image.Point{{w / 4, h / 4}, {3 * w / 4, h / 4}, {w / 4, 3 * h / 4}, {3 * w / 4, 3 * h / 4}} {
			checkColour(t, got.At(at.X, at.Y), quarters[i])
		}
	}
}

func checkColour(t *testing.T, got color.Color, want color.RGBA) {
	t.Helper()
	const jpegError = 8 // of 255: two rounds of JPEG at quality 82 and more
	r, g, b, _ := got.RGBA()
	for i, pair := range [][2]int{{int(r >> 8), int(want.R)}, {int(g >> 8), int(want.G)}, {int(b >> 8), int(want.B)}} {
		if d := pair[0] - pair[1]; d > jpegError || d < -jpegError {
			t.Errorf("channel %d is %d, want %d", i, pair[0], pair[1])
		}
	}
}

func TestPNGsOfEveryKindAreShrunk(t *testing.T) {
	bounds := image.Rect(0, 0, 700, 500)
	palette := image.NewPaletted(bounds, color.Palette{color.RGBA{200, 40, 40, 255}, color.Black})
	half := image.NewNRGBA(bounds) // half red, half clear: pink on white
	clear16 := image.NewNRGBA64(bounds)
	grey, grey16 := image.NewGray(bounds), image.NewGray16(bounds)
	for y := range 500 {
		for x := range 700 {
			half.SetNRGBA(x, y, color.NRGBA{255, 0, 0, 128})
			grey.SetGray(x, y, color.Gray{90})
			grey16.SetGray16(x, y, color.Gray16{90 << 8})
		}
	}
	cases := map[string]struct {
		img  image.Image
		want color.RGBA
	}{
		"palette":        {palette, color.RGBA{200, 40, 40, 255}},
		"half clear":     {half, color.RGBA{255, 127, 127, 255}},
		"clear, 16 bits": {clear16, color.RGBA{255, 255, 255, 255}},
		"grey":           {grey, color.RGBA{90, 90, 90, 255}},
		"grey, 16 bits":  {grey16, color.RGBA{90, 90, 90, 255}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			var content bytes.Buffer
			if err := png.Encode(&content, c.img); err != nil {
				t.Fatal(err)
			}
			store := newStore(t)
			mustSend(t, store, content.Bytes())
			for _, side := range []Side{Small, Large} {
				checkColour(t, previewImage(t, store, NameOf(content.Bytes()), side).At(100, 100), c.want)
			}
		})
	}
}

func TestTheColourProfileComesAlong(t *testing.T) {
	profile := append([]byte(iccHeader), "\x01\x01what the numbers of the colours mean"...)
	content := withColour(plainPicture(t, 700, 500), append(segment(markerAPP2, profile), exifSegment(loopingBlock())...))
	store := newStore(t)
	mustSend(t, store, content)
	for _, side := range []Side{Small, Large} {
		preview, err := store.Preview(t.Context(), home, NameOf(content), side)
		if err != nil {
			t.Fatal(err)
		}
		head, err := readJPEGHead(bytes.NewReader(preview))
		if err != nil || len(head.colour) != 1 || !bytes.Equal(head.colour[0], profile) || head.exif != nil {
			t.Errorf("%d: %d profiles, EXIF %v, %v", side, len(head.colour), head.exif != nil, err)
		}
	}
}

// Small pictures are RGB: the profile of a grey picture would be wrong for them.
func TestAGreyProfileStaysBehind(t *testing.T) {
	var grey bytes.Buffer
	if err := jpeg.Encode(&grey, image.NewGray(image.Rect(0, 0, 400, 300)), nil); err != nil {
		t.Fatal(err)
	}
	content := withColour(grey.Bytes(), segment(markerAPP2, []byte(iccHeader+"\x01\x01grey")))
	store := newStore(t)
	mustSend(t, store, content)
	if preview, err := store.Preview(t.Context(), home, NameOf(content), Small); err != nil || bytes.Contains(preview, []byte(iccHeader)) {
		t.Errorf("profile %v, %v", bytes.Contains(preview, []byte(iccHeader)), err)
	}
}

func TestAPhonesPreviewIsShownBeforeTheOriginalComes(t *testing.T) {
	store := newStore(t)
	original := sample(t, "gps_nw.jpg")
	name := NameOf(original)
	small := plainPicture(t, 320, 213)
	if err := store.PutPreview(t.Context(), home, name, Small, int64(len(original)), bytes.NewReader(small)); err != nil {
		t.Fatal(err)
	}
	if got, err := store.Preview(t.Context(), home, name, Small); err != nil || !bytes.Equal(got, small) {
		t.Errorf("got %d bytes of %d, %v", len(got), len(small), err)
	}
	_, err := store.Preview(t.Context(), home, name, Large)
	wantCode(t, err, NotHere)
	_, err = store.Original(t.Context(), home, name)
	wantCode(t, err, NotHere)
	if err := store.Verify(t.Context(), home, name); err != nil {
		t.Errorf("verifying it says %v", err)
	}

	mustSend(t, store, original)
	if got, err := store.Preview(t.Context(), home, name, Small); err != nil || !bytes.Equal(got, small) {
		t.Errorf("the original took the phone's preview away: %d bytes, %v", len(got), err)
	}
	if _, err := store.Preview(t.Context(), home, name, Large); err != nil {
		t.Errorf("the missing one is not made: %v", err)
	}
	entry, err := store.index.Entry(t.Context(), home, name)
	if err != nil {
		t.Fatal(err)
	}
	for side, maker := range map[Side]Maker{Small: ByPhone, Large: ByServer} {
		if p, known := entry.preview(side); !known || p.Maker != maker {
			t.Errorf("%d: %+v, want it made by the %s", side, p, maker)
		}
	}
}

func TestTheFirstPreviewStays(t *testing.T) {
	store := newStore(t)
	name := Name{1}
	first, second := plainPicture(t, 320, 100), plainPicture(t, 320, 200)
	for _, p := range [][]byte{first, second, first} {
		if err := store.PutPreview(t.Context(), home, name, Small, 1000, bytes.NewReader(p)); err != nil {
			t.Fatal(err)
		}
	}
	if got, err := store.Preview(t.Context(), home, name, Small); err != nil || !bytes.Equal(got, first) {
		t.Errorf("got another one, %v", err)
	}
}

func TestPreviewsFromAPhoneAreChecked(t *testing.T) {
	good := plainPicture(t, 320, 240)
	original := sample(t, "gps_nw.jpg")
	size := int64(len(original))
	var asPNG bytes.Buffer
	if err := png.Encode(&asPNG, image.NewGray(image.Rect(0, 0, 20, 20))); err != nil {
		t.Fatal(err)
	}
	sideways := tiffBlock(0, tiffEntry{0x0112, typeShort, 1, 6 << 16})
	cases := map[string]struct {
		content []byte
		bytes   int64
		code    Code
	}{
		"nothing":                        {nil, size, UnknownType},
		"text":                           {[]byte(strings.Repeat("not a picture ", 20)), size, UnknownType},
		"a PNG":                          {asPNG.Bytes(), size, UnknownType},
		"cut short":                      {good[:len(good)/2], size, NotAPicture},
		"a start alone":                  {[]byte("\xFF\xD8\xFF\xE0"), size, NotAPicture},
		"a pixel too long":               {plainPicture(t, 321, 10), size, TooManyPixels},
		"a pixel too high":               {plainPicture(t, 10, 321), size, TooManyPixels},
		"more bytes than a small one":    {append(bytes.Clone(good), make([]byte, 200<<10)...), size, TooLarge},
		"lying on its side":              {withEXIF(good, sideways), size, NotAPicture},
		"of an original of no bytes":     {good, 0, BadLength},
		"of an original that is too big": {good, MaxPictureBytes + 1, BadLength},
		"of another original's size":     {good, size + 1, BadLength},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			store := newStore(t)
			mustSend(t, store, original)
			err := store.PutPreview(t.Context(), home, NameOf(original), Small, c.bytes, bytes.NewReader(c.content))
			wantCode(t, err, c.code)
			entry, err := store.index.Entry(t.Context(), home, NameOf(original))
			if err != nil || len(entry.Previews) != 0 {
				t.Errorf("it was kept: %v, %v", entry.Previews, err)
			}
		})
	}
}

func TestAPhonesPreviewLosesItsPlace(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_ne_altitude_dop.jpg") // 96 × 64 pixels, upright, with a place
	if err := store.PutPreview(t.Context(), home, Name{1}, Small, 1000, bytes.NewReader(content)); err != nil {
		t.Fatal(err)
	}
	got, err := store.Preview(t.Context(), home, Name{1}, Small)
	if err != nil || bytes.Contains(got, []byte("Exif")) || len(got) >= len(content) {
		t.Errorf("%d bytes, EXIF %v, %v", len(got), bytes.Contains(got, []byte("Exif")), err)
	}
	if _, err := jpeg.Decode(bytes.NewReader(got)); err != nil {
		t.Errorf("what is left is no picture: %v", err)
	}
}

func TestADamagedPreviewIsMadeAnew(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	name := NameOf(content)
	mustSend(t, store, content)
	before, err := store.Preview(t.Context(), home, name, Small)
	if err != nil {
		t.Fatal(err)
	}
	path, err := store.path(home, name)
	if err != nil {
		t.Fatal(err)
	}
	flip(t, previewPath(path, Small), 200)
	if err := store.Verify(t.Context(), home, name); !errors.Is(err, Damaged) {
		t.Errorf("verifying says %v", err)
	}
	if after, err := store.Preview(t.Context(), home, name, Small); err != nil || !bytes.Equal(after, before) {
		t.Errorf("got %d bytes, %v", len(after), err)
	}
	if err := store.Verify(t.Context(), home, name); err != nil {
		t.Errorf("not mended on disk: %v", err)
	}
	if err := os.Remove(previewPath(path, Large)); err != nil {
		t.Fatal(err)
	}
	if _, err := store.Preview(t.Context(), home, name, Large); err != nil {
		t.Errorf("a lost one is not made anew: %v", err)
	}
}

func TestADamagedPreviewWithoutItsOriginalIsSaidToBe(t *testing.T) {
	store := newStore(t)
	if err := store.PutPreview(t.Context(), home, Name{1}, Small, 1000, bytes.NewReader(plainPicture(t, 30, 20))); err != nil {
		t.Fatal(err)
	}
	path, err := store.path(home, Name{1})
	if err != nil {
		t.Fatal(err)
	}
	flip(t, previewPath(path, Small), 100)
	_, err = store.Preview(t.Context(), home, Name{1}, Small)
	wantCode(t, err, Damaged)
	again := plainPicture(t, 30, 20)
	if err := store.PutPreview(t.Context(), home, Name{1}, Small, 1000, bytes.NewReader(again)); err != nil {
		t.Fatal(err)
	}
	if got, err := store.Preview(t.Context(), home, Name{1}, Small); err != nil || !bytes.Equal(got, again) {
		t.Errorf("the phone cannot mend it: %v", err)
	}
}

func TestManyAskForTheSamePreview(t *testing.T) {
	store := newStore(t)
	content := flat(2000, 1500, 0xC0)
	mustSend(t, store, content)
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			if got, err := store.Preview(t.Context(), home, NameOf(content), []Side{Small, Large}[i%2]); err != nil || len(got) == 0 {
				t.Errorf("%d bytes, %v", len(got), err)
			}
		})
	}
	all.Wait()
}

func TestOnePictureIsDecodedAtATime(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	mustSend(t, store, content)
	for range decodersAtOnce {
		store.decoder <- struct{}{} // others are being decoded
	}
	gaveUp, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := store.Preview(gaveUp, home, NameOf(content), Small); !errors.Is(err, context.Canceled) {
		t.Errorf("it did not wait: %v", err)
	}
	err := store.PutPreview(gaveUp, home, NameOf(content), Small, int64(len(content)), bytes.NewReader(plainPicture(t, 30, 20)))
	if !errors.Is(err, context.Canceled) {
		t.Errorf("a phone's preview did not wait: %v", err)
	}
	<-store.decoder
	if _, err := store.Preview(t.Context(), home, NameOf(content), Small); err != nil {
		t.Errorf("when it is its turn: %v", err)
	}
}

func TestABodyThatBreaksIsNoPreview(t *testing.T) {
	store := newStore(t)
	err := store.PutPreview(t.Context(), home, Name{1}, Small, 1000, flaky(plainPicture(t, 300, 200), 100))
	if !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("got %v", err)
	}
}
