package media

import (
	"bytes"
	"math"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/rwcarlsen/goexif/exif"
	"github.com/rwcarlsen/goexif/tiff"
)

// Fields that came to the standard after goexif did (Exif 2.31, 4.6.5 and 4.6.6).
const (
	offsetTimeOriginal  exif.FieldName = "OffsetTimeOriginal"
	offsetTimeDigitized exif.FieldName = "OffsetTimeDigitized"
	gpsPositioningError exif.FieldName = "GPSHPositioningError"
)

func newerExifFields() map[uint16]exif.FieldName {
	return map[uint16]exif.FieldName{0x9011: offsetTimeOriginal, 0x9012: offsetTimeDigitized}
}

func newerGPSFields() map[uint16]exif.FieldName {
	return map[uint16]exif.FieldName{0x001F: gpsPositioningError}
}

// readEXIF reads when, where and how upright a picture was taken from the TIFF
// block of its EXIF; nil gives nothing. It never fails: what cannot be read is
// not said, and a note tells. read is false when there was a block and nothing
// in it could be read.
func readEXIF(block []byte) (facts Facts, read bool) {
	if block == nil {
		return Facts{}, true
	}
	unread := Facts{}.withNote(NoteUnread)
	// goexif indexes by what it read; mendTIFF leaves it nothing to trip over
	// that we know of, and this catches what we don't.
	defer func() {
		if recover() != nil {
			facts, read = unread, false
		}
	}()
	sound, mended, err := mendTIFF(block)
	if err != nil {
		return unread, false
	}
	x, err := exif.Decode(bytes.NewReader(sound))
	if err != nil && (x == nil || exif.IsCriticalError(err)) {
		return unread, false
	}
	if mended {
		facts = facts.withNote(NoteMended)
	}
	loadNewer(x, exif.ExifIFDPointer, newerExifFields())
	loadNewer(x, exif.GPSInfoIFDPointer, newerGPSFields())
	facts.Orientation = orientation(x)
	return withPlace(withTime(facts, x), x), true
}

// loadNewer reads an IFD once more for the fields that goexif passes over.
func loadNewer(x *exif.Exif, pointer exif.FieldName, fields map[uint16]exif.FieldName) {
	at, ok := integer(x, pointer)
	if !ok {
		return
	}
	r := bytes.NewReader(x.Raw)
	if _, err := r.Seek(int64(at), 0); err != nil {
		return
	}
	if dir, _, err := tiff.DecodeDir(r, x.Tiff.Order); err == nil {
		x.LoadTags(dir, fields, false)
	}
}

// withNote adds a note once and keeps the notes in the order of their text.
func (f Facts) withNote(note Note) Facts {
	if !slices.Contains(f.Notes, note) {
		f.Notes = append(slices.Clone(f.Notes), note)
		slices.Sort(f.Notes)
	}
	return f
}

func orientation(x *exif.Exif) int {
	if o, ok := integer(x, exif.Orientation); ok && 1 <= o && o <= 8 {
		return o
	}
	return 0
}

// withTime takes the moment of the exposure, or else of the digitising. The
// field DateTime is when the file was last changed and says nothing.
func withTime(facts Facts, x *exif.Exif) Facts {
	for _, source := range [][3]exif.FieldName{
		{exif.DateTimeOriginal, exif.SubSecTimeOriginal, offsetTimeOriginal},
		{exif.DateTimeDigitized, exif.SubSecTimeDigitized, offsetTimeDigitized},
	} {
		written, ok := text(x, source[0])
		if !ok {
			continue
		}
		local, err := time.Parse("2006:01:02 15:04:05", written)
		if err != nil {
			facts = facts.withNote(NoteBadTime)
			continue
		}
		facts.Taken = &Taken{Local: local.Format("2006-01-02T15:04:05") + decimals(x, source[1]), Offset: offset(x, source[2])}
		if facts.Taken.Zoneless() {
			facts = facts.withNote(NoteNoZone)
		}
		return facts
	}
	return facts
}

var (
	onlyDigits = regexp.MustCompile(`^[0-9]{1,9}$`)
	utcOffset  = regexp.MustCompile(`^[+-](0[0-9]|1[0-4]):[0-5][0-9]$`) // no zone is beyond 14 hours
)

// decimals gives ".037" for "037": the field is a decimal fraction, not a count
// of milliseconds.
func decimals(x *exif.Exif, field exif.FieldName) string {
	if written, _ := text(x, field); onlyDigits.MatchString(written) {
		return "." + written
	}
	return ""
}

func offset(x *exif.Exif, field exif.FieldName) string {
	if written, _ := text(x, field); utcOffset.MatchString(written) {
		return written
	}
	return ""
}

// withPlace takes the position if it is one.
func withPlace(facts Facts, x *exif.Exif) Facts {
	_, noLat := x.Get(exif.GPSLatitude)
	_, noLon := x.Get(exif.GPSLongitude)
	if noLat != nil && noLon != nil {
		return facts
	}
	lat, okLat := angle(x, exif.GPSLatitude, exif.GPSLatitudeRef, "N", "S", 90)
	lon, okLon := angle(x, exif.GPSLongitude, exif.GPSLongitudeRef, "E", "W", 180)
	switch {
	case !okLat || !okLon:
		return facts.withNote(NoteNoFix)
	case lat == 0 && lon == 0:
		return facts.withNote(NoteZeroZero)
	}
	facts.Place = &Place{Lat: lat, Lon: lon, AccuracyM: accuracy(x), AltitudeM: altitude(x),
		BearingDeg: bearing(x), FixedAt: fixedAt(x)}
	return facts
}

// angle reads degrees, minutes and seconds with their half of the earth.
func angle(x *exif.Exif, field, ref exif.FieldName, plus, minus string, most float64) (float64, bool) {
	var degrees float64
	for i, unit := range []float64{1, 60, 3600} {
		part, ok := rational(x, field, i)
		if !ok {
			return 0, false
		}
		degrees += part / unit
	}
	if degrees > most {
		return 0, false
	}
	degrees = math.Round(degrees*degreeSteps) / degreeSteps
	switch half, _ := text(x, ref); strings.ToUpper(half) {
	case plus:
		return degrees, true
	case minus:
		return 0 - degrees, true
	}
	return 0, false
}

// degreeSteps rounds positions to 1e-7°, a centimetre: finer than any fix.
const degreeSteps = 1e7

func accuracy(x *exif.Exif) *float64 {
	if m, ok := rational(x, gpsPositioningError, 0); ok && m > 0 {
		return &m
	}
	return nil
}

// altitude reads metres; reference 1 is below the sea (Exif 2.32 4.6.6).
func altitude(x *exif.Exif) *float64 {
	m, ok := rational(x, exif.GPSAltitude, 0)
	if !ok {
		return nil
	}
	if ref, _ := integer(x, exif.GPSAltitudeRef); ref == 1 {
		m = 0 - m
	}
	return &m
}

// bearing reads where the camera looked, where it is said against true north.
func bearing(x *exif.Exif) *float64 {
	deg, ok := rational(x, exif.GPSImgDirection, 0)
	if ref, _ := text(x, exif.GPSImgDirectionRef); !ok || strings.ToUpper(ref) != "T" || deg >= 360 {
		return nil
	}
	return &deg
}

// fixedAt reads the receiver's own time, which is UTC.
func fixedAt(x *exif.Exif) string {
	date, ok := text(x, exif.GPSDateStamp)
	day, err := time.Parse("2006:01:02", date)
	if !ok || err != nil {
		return ""
	}
	var clock [3]float64
	for i, most := range []float64{23, 59, 60} {
		part, ok := rational(x, exif.GPSTimeStamp, i)
		if !ok || part > most {
			return ""
		}
		clock[i] = part
	}
	seconds := clock[0]*3600 + clock[1]*60 + clock[2]
	return day.Add(time.Duration(math.Round(seconds*1000)) * time.Millisecond).Format(time.RFC3339Nano)
}

// rational reads the i-th fraction of a field. A zero denominator is how
// receivers write "unknown", so it is no number.
func rational(x *exif.Exif, field exif.FieldName, i int) (float64, bool) {
	tag, err := x.Get(field)
	if err != nil || tag.Format() != tiff.RatVal || i >= int(tag.Count) {
		return 0, false
	}
	numerator, denominator, err := tag.Rat2(i)
	if err != nil || denominator == 0 || numerator < 0 {
		return 0, false
	}
	return float64(numerator) / float64(denominator), true
}

func integer(x *exif.Exif, field exif.FieldName) (int, bool) {
	tag, err := x.Get(field)
	if err != nil || tag.Format() != tiff.IntVal || tag.Count == 0 {
		return 0, false
	}
	n, err := tag.Int(0)
	return n, err == nil
}

func text(x *exif.Exif, field exif.FieldName) (string, bool) {
	tag, err := x.Get(field)
	if err != nil || tag.Format() != tiff.StringVal {
		return "", false
	}
	written, err := tag.StringVal()
	return strings.TrimSpace(strings.TrimRight(written, "\x00")), err == nil
}
