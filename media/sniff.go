package media

import "bytes"

// sniffBytes is how much of a file its type is told from: the longest brand
// list that phones write fits.
const sniffBytes = 64

// sniff tells what a file is by its first bytes. Anything that is not a kind of
// picture or sound that phones make is UnknownType, whatever its name says.
//
// Signatures: ITU-T T.81 annex B (JPEG), W3C PNG 5.2, ISO/IEC 14496-12 4.3 and
// 23008-12 annex B (brands), RFC 8794 (EBML) with RFC 9559 (the WebM subset of
// Matroska), RFC 3533 (Ogg).
func sniff(name Name, start []byte) (Type, error) {
	switch {
	case bytes.HasPrefix(start, []byte("\xFF\xD8\xFF")):
		return JPEG, nil
	case bytes.HasPrefix(start, []byte("\x89PNG\r\n\x1A\n")):
		return PNG, nil
	case bytes.HasPrefix(start, []byte("OggS")):
		return Ogg, nil
	case bytes.HasPrefix(start, []byte("\x1A\x45\xDF\xA3")) && bytes.Contains(start[:min(len(start), sniffBytes)], []byte("webm")):
		return WebM, nil
	case len(start) >= 12 && string(start[4:8]) == "ftyp":
		if kind, known := brandType(string(start[8:12])); known {
			return kind, nil
		}
	}
	return "", &Problem{Code: UnknownType, Name: name,
		Text: "by its bytes this is no JPEG, PNG or HEIC picture and no WebM, Ogg or MP4 sound, so it is not kept"}
}

// brandType reads the major brand of an ISO base media file.
func brandType(brand string) (Type, bool) {
	switch brand {
	case "heic", "heix", "heim", "heis", "hevc", "hevx", "hevm", "hevs":
		return HEIC, true
	case "mif1", "msf1":
		return HEIF, true
	case "M4A ", "mp41", "mp42", "isom", "iso2", "iso4", "iso5", "iso6":
		return MP4, true
	}
	return "", false
}
