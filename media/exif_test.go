package media

import (
	"encoding/binary"
	"slices"
	"testing"
)

// gpsBlock writes a block with a GPS directory: each field's values are
// fractions, or text.
type gpsField struct {
	tag       uint16
	fractions [][2]uint32
	text      string
}

func gpsBlock(fields ...gpsField) []byte {
	b := tiffBlock(0, tiffEntry{tagGPSIFD, typeLong, 1, 26})
	b = binary.BigEndian.AppendUint16(b, uint16(len(fields)))
	values := []byte{}
	at := 26 + 2 + len(fields)*entryBytes + 4
	for _, f := range fields {
		kind, count, value := uint16(2), uint32(len(f.text)+1), []byte(f.text+"\x00")
		if f.fractions != nil {
			kind, count, value = 5, uint32(len(f.fractions)), nil
			for _, part := range f.fractions {
				value = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(value, part[0]), part[1])
			}
		}
		b = binary.BigEndian.AppendUint16(binary.BigEndian.AppendUint16(b, f.tag), kind)
		b = binary.BigEndian.AppendUint32(b, count)
		if len(value) <= inline {
			b = append(b, append(value, make([]byte, inline-len(value))...)...)
			continue
		}
		b = binary.BigEndian.AppendUint32(b, uint32(at+len(values)))
		values = append(values, value...)
	}
	return append(append(b, 0, 0, 0, 0), values...)
}

// GPS tags, Exif 2.32 4.6.6.
const (
	gpsLatRef, gpsLat, gpsLonRef, gpsLon = 1, 2, 3, 4
	gpsDirectionRef, gpsDirection        = 16, 17
	gpsError                             = 31
)

func whole(degrees uint32) [][2]uint32 { return [][2]uint32{{degrees, 1}, {30, 1}, {0, 1}} }

func TestPlaces(t *testing.T) {
	north, east := gpsField{gpsLatRef, nil, "N"}, gpsField{gpsLonRef, nil, "E"}
	lat, lon := gpsField{gpsLat, whole(47), ""}, gpsField{gpsLon, whole(122), ""}
	cases := map[string]struct {
		fields   []gpsField
		lat, lon float64
		note     Note // when there is no place
	}{
		"plain":                 {[]gpsField{north, lat, east, lon}, 47.5, 122.5, ""},
		"small letters":         {[]gpsField{{gpsLatRef, nil, "s"}, lat, {gpsLonRef, nil, "w"}, lon}, -47.5, -122.5, ""},
		"letters with a space":  {[]gpsField{{gpsLatRef, nil, "S "}, lat, {gpsLonRef, nil, "W"}, lon}, -47.5, -122.5, ""},
		"no half of the earth":  {[]gpsField{lat, east, lon}, 0, 0, NoteNoFix},
		"an unknown half":       {[]gpsField{{gpsLatRef, nil, "X"}, lat, east, lon}, 0, 0, NoteNoFix},
		"latitude alone":        {[]gpsField{north, lat}, 0, 0, NoteNoFix},
		"degrees alone":         {[]gpsField{north, {gpsLat, [][2]uint32{{47, 1}}, ""}, east, lon}, 0, 0, NoteNoFix},
		"beyond the pole":       {[]gpsField{north, {gpsLat, whole(90), ""}, east, lon}, 0, 0, NoteNoFix},
		"beyond the date line":  {[]gpsField{north, lat, east, {gpsLon, whole(180), ""}}, 0, 0, NoteNoFix},
		"zero denominators":     {[]gpsField{north, {gpsLat, [][2]uint32{{0, 0}, {0, 0}, {0, 0}}, ""}, east, lon}, 0, 0, NoteNoFix},
		"one zero denominator":  {[]gpsField{north, {gpsLat, [][2]uint32{{47, 1}, {30, 1}, {5, 0}}, ""}, east, lon}, 0, 0, NoteNoFix},
		"text for degrees":      {[]gpsField{north, {gpsLat, nil, "47,30,0"}, east, lon}, 0, 0, NoteNoFix},
		"zero and zero":         {[]gpsField{north, {gpsLat, [][2]uint32{{0, 1}, {0, 1}, {0, 1}}, ""}, east, {gpsLon, [][2]uint32{{0, 1}, {0, 1}, {0, 1}}, ""}}, 0, 0, NoteZeroZero},
		"on the equator":        {[]gpsField{north, {gpsLat, [][2]uint32{{0, 1}, {0, 1}, {0, 1}}, ""}, east, lon}, 0, 122.5, ""},
		"on the date line":      {[]gpsField{north, lat, {gpsLonRef, nil, "W"}, {gpsLon, [][2]uint32{{180, 1}, {0, 1}, {0, 1}}, ""}}, 47.5, -180, ""},
		"the greatest fraction": {[]gpsField{north, {gpsLat, [][2]uint32{{1<<32 - 1, 1}, {1<<32 - 1, 1}, {0, 1}}, ""}, east, lon}, 0, 0, NoteNoFix},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			facts, read := readEXIF(gpsBlock(c.fields...))
			if !read {
				t.Fatal("not read")
			}
			if c.note != "" {
				if facts.Place != nil || !slices.Equal(facts.Notes, []Note{c.note}) {
					t.Errorf("place %+v, notes %v, want %v", facts.Place, facts.Notes, c.note)
				}
				return
			}
			if facts.Place == nil || facts.Place.Lat != c.lat || facts.Place.Lon != c.lon || facts.Notes != nil {
				t.Errorf("place %+v, notes %v, want %v, %v", facts.Place, facts.Notes, c.lat, c.lon)
			}
		})
	}
}

func TestAccuracyAndBearing(t *testing.T) {
	at := []gpsField{{gpsLatRef, nil, "N"}, {gpsLat, whole(47), ""}, {gpsLonRef, nil, "E"}, {gpsLon, whole(122), ""}}
	number := func(n, d uint32) [][2]uint32 { return [][2]uint32{{n, d}} }
	cases := map[string]struct {
		fields            []gpsField
		accuracy, bearing float64 // 0: not said
	}{
		"both":                     {[]gpsField{{gpsDirectionRef, nil, "T"}, {gpsDirection, number(2705, 10), ""}, {gpsError, number(47, 10), ""}}, 4.7, 270.5},
		"against magnetic north":   {[]gpsField{{gpsDirectionRef, nil, "M"}, {gpsDirection, number(2705, 10), ""}}, 0, 0},
		"more than a circle":       {[]gpsField{{gpsDirectionRef, nil, "T"}, {gpsDirection, number(400, 1), ""}}, 0, 0},
		"accuracy not known":       {[]gpsField{{gpsError, number(0, 0), ""}}, 0, 0},
		"accuracy of nothing":      {[]gpsField{{gpsError, number(0, 1), ""}}, 0, 0},
		"accuracy with no divisor": {[]gpsField{{gpsError, number(5, 0), ""}}, 0, 0},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			facts, _ := readEXIF(gpsBlock(append(slices.Clone(at), c.fields...)...))
			if facts.Place == nil {
				t.Fatal("no place")
			}
			checkNumber(t, "accuracy", facts.Place.AccuracyM, orNil(c.accuracy))
			checkNumber(t, "bearing", facts.Place.BearingDeg, orNil(c.bearing))
		})
	}
}

func orNil(x float64) *float64 {
	if x == 0 {
		return nil
	}
	return &x
}

func TestASecondsFractionIsADecimalFraction(t *testing.T) {
	for written, want := range map[string]string{
		"037": ".037", "5": ".5", "123456": ".123456", "": "", "  ": "", "-5": "", "5x": "", "1234567890": "",
	} {
		taken := takenFrom(t, "2025:03:30 02:30:00", written, "")
		if got := taken.Local; got != "2025-03-30T02:30:00"+want {
			t.Errorf("%q gives %s, want the fraction %q", written, got, want)
		}
	}
}

func TestZones(t *testing.T) {
	for written, want := range map[string]string{
		"+02:00": "+02:00", "-06:00": "-06:00", "+05:45": "+05:45", "+14:00": "+14:00",
		"": "", "+15:00": "", "02:00": "", "+2:00": "", "Z": "", "   :  ": "", "+00:60": "",
	} {
		taken := takenFrom(t, "2025:03:30 02:30:00", "", written)
		if taken.Offset != want || taken.Zoneless() != (want == "") {
			t.Errorf("%q gives the offset %q, want %q", written, taken.Offset, want)
		}
		if rfc := taken.RFC3339(); (rfc == "") != (want == "") || want != "" && rfc != "2025-03-30T02:30:00"+want {
			t.Errorf("%q gives the instant %q", written, rfc)
		}
	}
}

func TestTimesThatAreNone(t *testing.T) {
	for _, written := range []string{"0000:00:00 00:00:00", "    :  :     :  :  ", "2025:02:30 10:00:00", "2025-02-03 10:00:00", "2025:02:03 24:00:00", "yesterday"} {
		facts, _ := readEXIF(exifBlock(written, "", "+01:00"))
		if facts.Taken != nil || !slices.Equal(facts.Notes, []Note{NoteBadTime}) {
			t.Errorf("%q gives %+v, %v", written, facts.Taken, facts.Notes)
		}
	}
}

func takenFrom(t *testing.T, when, fraction, zone string) Taken {
	t.Helper()
	facts, _ := readEXIF(exifBlock(when, fraction, zone))
	if facts.Taken == nil {
		t.Fatalf("%s %s %s: no time, notes %v", when, fraction, zone, facts.Notes)
	}
	return *facts.Taken
}

// exifBlock writes a block whose Exif directory has a time, its fraction and its
// zone; it is gpsBlock's with another pointer.
func exifBlock(when, fraction, zone string) []byte {
	b := gpsBlock(gpsField{0x9003, nil, when}, gpsField{0x9011, nil, zone}, gpsField{0x9291, nil, fraction})
	binary.BigEndian.PutUint16(b[10:], tagExifIFD)
	return b
}
