package media

import (
	"bytes"
	"encoding/json"
	"image"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// exiftoolFacts is what ExifTool 12.57 read in a sample (testdata/images).
type exiftoolFacts struct {
	SourceFile           string
	FileType             string
	Orientation          int
	GPSLatitude          any // a number, or "" for 0/0
	GPSLongitude         any
	GPSAltitude          *float64
	GPSHPositioningError *float64
	GPSDateTime          string
	DateTimeOriginal     string
	OffsetTimeOriginal   string
	SubSecDateTime       string `json:"SubSecDateTimeOriginal"`
	ExifByteOrder        string
	ImageWidth           int64
	ImageHeight          int64
}

func exiftoolSamples(t testing.TB) []exiftoolFacts {
	t.Helper()
	var all struct{ Files []exiftoolFacts }
	if err := json.Unmarshal(sample(t, "exiftool_summary.json"), &all); err != nil {
		t.Fatal(err)
	}
	if len(all.Files) < 40 {
		t.Fatalf("only %d samples; the reference has 41", len(all.Files))
	}
	return all.Files
}

// refusedSamples are those that are no photograph, with the reason.
func refusedSamples() map[string]Code {
	return map[string]Code{
		"hostile_empty.jpg":                BadLength,
		"hostile_only_soi.jpg":             UnknownType, // two bytes
		"hostile_gif_named.jpg":            UnknownType,
		"hostile_html_named.jpg":           UnknownType,
		"hostile_svg_named.jpg":            UnknownType,
		"truncated_in_exif.jpg":            NotAPicture,
		"hostile_jpeg_sof_0x0.jpg":         NotAPicture,
		"hostile_jpeg_sof_65500x65500.jpg": TooManyPixels,
		"hostile_bomb_50000x50000.png":     TooManyPixels,
		"hostile_png_max_dims.png":         TooManyPixels,
	}
}

// notedSamples are those that are taken with a remark; all others have none but
// the ones that follow from ExifTool's reading.
func notedSamples() map[string][]Note {
	return map[string][]Note{
		"hostile_bomb_valid_12000x12000_1bit.png": {NoteManyPixels},
		"gps_zero_zero.jpg":                       {NoteNoZone, NoteZeroZero},
		"gps_zero_denominator.jpg":                {NoteNoFix},
		"date_blank.jpg":                          {NoteBadTime},
		"corrupt_gps_ifd_loop.jpg":                {NoteMended},
		"corrupt_next_ifd_loop.jpg":               {NoteMended},
		"corrupt_huge_count.jpg":                  {NoteMended},
		"corrupt_ifd0_offset.jpg":                 {NoteUnread},
		"short_app1.jpg":                          {NoteUnread},
	}
}

func TestEverySampleIsRefusedOrTakenAsExifToolReadsIt(t *testing.T) {
	for _, want := range exiftoolSamples(t) {
		t.Run(want.SourceFile, func(t *testing.T) {
			progress, err := send(t, newStore(t), sample(t, want.SourceFile))
			if code, refused := refusedSamples()[want.SourceFile]; refused {
				wantCode(t, err, code)
				return
			}
			if err != nil || !progress.Complete {
				t.Fatalf("not taken: %+v, %v", progress, err)
			}
			checkFacts(t, *progress.Facts, want)
		})
	}
}

func checkFacts(t *testing.T, got Facts, want exiftoolFacts) {
	t.Helper()
	if string(got.Type) != "image/"+strings.ToLower(want.FileType) {
		t.Errorf("type %s, want %s", got.Type, want.FileType)
	}
	if got.Orientation != want.Orientation {
		t.Errorf("orientation %d, want %d", got.Orientation, want.Orientation)
	}
	width, height := want.ImageWidth, want.ImageHeight
	if want.Orientation >= 5 {
		width, height = height, width
	}
	if int64(got.Width) != width || int64(got.Height) != height {
		t.Errorf("%d × %d, want %d × %d", got.Width, got.Height, width, height)
	}
	checkTaken(t, got.Taken, want)
	checkPlace(t, got.Place, want)
	checkNotes(t, got.Notes, want)
}

// checkTaken compares times. ExifTool reads XMP too; a file without EXIF has no
// date here.
func checkTaken(t *testing.T, got *Taken, want exiftoolFacts) {
	t.Helper()
	if want.ExifByteOrder == "" || want.DateTimeOriginal == "" || strings.HasPrefix(want.DateTimeOriginal, "0000") {
		if got != nil {
			t.Errorf("taken %+v, want nothing", *got)
		}
		return
	}
	if got == nil {
		t.Fatalf("no time, want %s", want.DateTimeOriginal)
	}
	written := want.SubSecDateTime
	if written == "" {
		written = want.DateTimeOriginal
	}
	text := strings.Replace(strings.Replace(strings.Replace(written, ":", "-", 1), ":", "-", 1), " ", "T", 1)
	if got.Local+got.Offset != text {
		t.Errorf("taken %s%s, want %s", got.Local, got.Offset, text)
	}
	if got.Offset != want.OffsetTimeOriginal || got.Zoneless() != (want.OffsetTimeOriginal == "") {
		t.Errorf("offset %q, want %q", got.Offset, want.OffsetTimeOriginal)
	}
}

func checkPlace(t *testing.T, got *Place, want exiftoolFacts) {
	t.Helper()
	lat, hasLat := want.GPSLatitude.(float64)
	lon, hasLon := want.GPSLongitude.(float64)
	if !hasLat || !hasLon || lat == 0 && lon == 0 {
		if got != nil {
			t.Errorf("place %+v, want none", *got)
		}
		return
	}
	if got == nil {
		t.Fatalf("no place, want %v, %v", lat, lon)
	}
	if math.Abs(got.Lat-lat) > 1e-6 || math.Abs(got.Lon-lon) > 1e-6 {
		t.Errorf("place %v, %v, want %v, %v", got.Lat, got.Lon, lat, lon)
	}
	checkNumber(t, "altitude", got.AltitudeM, want.GPSAltitude)
	checkNumber(t, "accuracy", got.AccuracyM, want.GPSHPositioningError)
	fixed := strings.Replace(strings.Replace(strings.Replace(want.GPSDateTime, ":", "-", 1), ":", "-", 1), " ", "T", 1)
	if got.FixedAt != fixed {
		t.Errorf("fixed at %q, want %q", got.FixedAt, fixed)
	}
}

func checkNumber(t *testing.T, what string, got, want *float64) {
	t.Helper()
	if (got == nil) != (want == nil) || got != nil && math.Abs(*got-*want) > 1e-6 {
		t.Errorf("%s %v, want %v", what, got, want)
	}
}

func checkNotes(t *testing.T, got []Note, want exiftoolFacts) {
	t.Helper()
	notes := notedSamples()[want.SourceFile]
	if notes == nil && want.ExifByteOrder != "" && want.DateTimeOriginal != "" && want.OffsetTimeOriginal == "" {
		notes = []Note{NoteNoZone}
	}
	if len(got) != len(notes) {
		t.Fatalf("notes %v, want %v", got, notes)
	}
	for i := range notes {
		if got[i] != notes[i] {
			t.Errorf("notes %v, want %v", got, notes)
		}
	}
}

// The corners of the red block and the yellow disc once the picture is upright:
// Pillow 9.4.0, ImageOps.exif_transpose.
func TestPreviewsStandUpright(t *testing.T) {
	var expected struct {
		Cases []struct {
			File         string
			UprightSize  [2]int    `json:"upright_size"`
			RedCorner    [1]string `json:"red_block_corner"`
			YellowCorner [1]string `json:"yellow_disc_corner"`
		}
	}
	if err := json.Unmarshal(sample(t, "orientation_expected.json"), &expected); err != nil {
		t.Fatal(err)
	}
	if len(expected.Cases) != 8 {
		t.Fatalf("%d cases, want all 8 orientations", len(expected.Cases))
	}
	for _, want := range expected.Cases {
		t.Run(want.File, func(t *testing.T) {
			content := sample(t, want.File)
			store := newStore(t)
			mustSend(t, store, content)
			for _, side := range []Side{Small, Large} {
				img := previewImage(t, store, NameOf(content), side)
				if got := [2]int{img.Bounds().Dx(), img.Bounds().Dy()}; got != want.UprightSize {
					t.Errorf("%d: size %v, want %v", side, got, want.UprightSize)
				}
				if got := cornerOf(img, isRed); got != want.RedCorner[0] {
					t.Errorf("%d: red at %s, want %s", side, got, want.RedCorner[0])
				}
				if got := cornerOf(img, isYellow); got != want.YellowCorner[0] {
					t.Errorf("%d: yellow at %s, want %s", side, got, want.YellowCorner[0])
				}
			}
		})
	}
}

func previewImage(t *testing.T, store *Store, name Name, side Side) image.Image {
	t.Helper()
	content, err := store.Preview(t.Context(), home, name, side)
	if err != nil {
		t.Fatal(err)
	}
	img, err := jpeg.Decode(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func isRed(r, g, b uint32) bool    { return r > 0xA000 && g < 0x6000 && b < 0x6000 }
func isYellow(r, g, b uint32) bool { return r > 0xA000 && g > 0xA000 && b < 0x6000 }

// cornerOf names the quarter in which most pixels of a colour lie.
func cornerOf(img image.Image, is func(r, g, b uint32) bool) string {
	counts := map[string]int{}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if red, green, blue, _ := img.At(x, y).RGBA(); is(red, green, blue) {
				counts[quarter(x, y, b)]++
			}
		}
	}
	best := "nowhere"
	for corner, n := range counts {
		if n > counts[best] {
			best = corner
		}
	}
	return best
}

func quarter(x, y int, b image.Rectangle) string {
	vertical, horizontal := "top", "left"
	if y >= b.Dy()/2 {
		vertical = "bottom"
	}
	if x >= b.Dx()/2 {
		horizontal = "right"
	}
	return vertical + "_" + horizontal
}

func TestACutOffPhotographIsKeptAndItsPreviewSaysWhy(t *testing.T) {
	store := newStore(t)
	content := sample(t, "truncated_scan.jpg")
	mustSend(t, store, content)
	for range 2 { // the second time from what was noted
		_, err := store.Preview(t.Context(), home, NameOf(content), Small)
		wantCode(t, err, NoPreview)
	}
	facts, err := store.Facts(t.Context(), home, NameOf(content))
	if err != nil || len(facts.Notes) != 1 || facts.Notes[0] != NoteUndecodable {
		t.Fatalf("facts %+v, %v", facts, err)
	}
}

func TestNoTextOfAPhotographReachesItsPreviews(t *testing.T) {
	for _, file := range []string{"exif_text_payload.jpg", "hostile_polyglot_jpeg_html.jpg", "gps_ne_altitude_dop.jpg", "xmp_only.jpg"} {
		content := sample(t, file)
		store := newStore(t)
		mustSend(t, store, content)
		preview, err := store.Preview(t.Context(), home, NameOf(content), Small)
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, leak := range []string{"Exif", "<script", "<html", "xmp", "=cmd"} {
			if bytes.Contains(bytes.ToLower(preview), []byte(strings.ToLower(leak))) {
				t.Errorf("%s: its preview contains %q", file, leak)
			}
		}
	}
}

// Every file of the folder is in the reference's list or described beside it.
func TestNoSampleIsForgotten(t *testing.T) {
	listed := map[string]bool{}
	for _, s := range exiftoolSamples(t) {
		listed[s.SourceFile] = true
	}
	files, err := filepath.Glob(filepath.Join(samples, "*.[jp][pn]g"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if !listed[filepath.Base(file)] {
			t.Errorf("%s has no expected reading", file)
		}
	}
	if len(files) != len(listed) {
		t.Errorf("%d pictures, %d listed", len(files), len(listed))
	}
	if _, err := os.Stat(filepath.Join(samples, "README.md")); err != nil {
		t.Error("the samples' source is not told:", err)
	}
}

// The names of filename_attacks.txt, in place of a medium's name and a garden's.
func TestNamesThatAttackArePutAside(t *testing.T) {
	line := string(sample(t, "filename_attacks.txt"))
	attacks := []string{"", ".", "..", "../../etc/passwd", strings.Repeat("a", 256), strings.Repeat("A", 64), strings.Repeat("g", 64)}
	for {
		from := strings.IndexByte(line, '"')
		if from < 0 {
			break
		}
		quoted, err := strconv.QuotedPrefix(line[from:])
		if err != nil {
			t.Fatal(err)
		}
		attack, err := strconv.Unquote(quoted)
		if err != nil {
			t.Fatal(err)
		}
		attacks, line = append(attacks, attack), line[from+len(quoted):]
	}
	if len(attacks) < 12 {
		t.Fatalf("only %d attacks were read", len(attacks))
	}
	for _, attack := range attacks {
		if _, err := ParseName(attack); err == nil {
			t.Errorf("%q passed as a name", attack)
		}
		if attack == strings.Repeat("A", 64) || attack == strings.Repeat("g", 64) {
			continue // harmless as a garden's id but for their length, tried below
		}
		_, err := newStore(t).Offset(t.Context(), attack, Name{})
		wantCode(t, err, BadName)
	}
	_, err := newStore(t).Offset(t.Context(), strings.Repeat("g", 65), Name{})
	wantCode(t, err, BadName)
}
