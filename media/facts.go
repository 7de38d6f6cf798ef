package media

// A Type is what a file is by its bytes, as a media type.
type Type string

// The types that are kept. Only JPEG and PNG are decoded here.
const (
	JPEG Type = "image/jpeg"
	PNG  Type = "image/png"
	HEIC Type = "image/heic"
	HEIF Type = "image/heif"
	WebM Type = "audio/webm"
	Ogg  Type = "audio/ogg"
	MP4  Type = "audio/mp4"
)

// Inline reports whether a browser may show the type in a page; the others are
// to be handed over as attachments.
func (t Type) Inline() bool { return t == JPEG || t == PNG }

// Picture reports whether the type is a picture rather than sound.
func (t Type) Picture() bool { return t.Inline() || t == HEIC || t == HEIF }

// Facts is what an original says about itself. Nil and zero mean "not said".
type Facts struct {
	Type        Type   `json:"type"`
	Bytes       int64  `json:"bytes"`
	Width       int    `json:"width,omitempty"`       // pixels as it is shown, upright
	Height      int    `json:"height,omitempty"`      // pixels as it is shown, upright
	Orientation int    `json:"orientation,omitempty"` // 1 to 8 as in EXIF; 0 not said
	Taken       *Taken `json:"taken,omitempty"`
	Place       *Place `json:"place,omitempty"`
	Notes       []Note `json:"notes,omitempty"` // in a fixed order, each once
}

// Taken is when a picture was taken, by the clock of the phone or camera.
type Taken struct {
	// Local is the civil time on the clock, "2026-04-12T11:30:15.037", with as
	// many decimals as were given. It is kept as written even where no such
	// time exists (the hour that summer time skips).
	Local string `json:"local"`
	// Offset is the clock's distance from UTC, "+02:00". Empty means the file
	// names no zone: then nobody knows the instant, and Local must be read in
	// the garden's zone by whoever needs one.
	Offset string `json:"offset,omitempty"`
}

// Zoneless reports whether the instant is unknown for want of an offset.
func (t Taken) Zoneless() bool { return t.Offset == "" }

// RFC3339 gives the instant with its offset, or "" where there is no zone.
func (t Taken) RFC3339() string {
	if t.Zoneless() {
		return ""
	}
	return t.Local + t.Offset
}

// A Place is where a picture says it was taken, on WGS 84.
type Place struct {
	Lat        float64  `json:"lat"` // degrees, north positive, −90 to 90
	Lon        float64  `json:"lon"` // degrees, east positive, −180 to 180
	AccuracyM  *float64 `json:"accuracyM,omitempty"`
	AltitudeM  *float64 `json:"altitudeM,omitempty"`  // negative below the sea
	BearingDeg *float64 `json:"bearingDeg,omitempty"` // where the camera looked, clockwise from true north
	FixedAt    string   `json:"fixedAt,omitempty"`    // UTC of the fix, RFC 3339
}

// A Note is something about an original that a person may want to know; the
// phone's catalogue of texts words it.
type Note string

// The notes.
const (
	NoteNoZone      Note = "no-zone"         // a time without an offset from UTC
	NoteBadTime     Note = "bad-time"        // a time that is none, such as 0000:00:00
	NoteNoFix       Note = "no-fix"          // coordinates written 0/0, or impossible
	NoteZeroZero    Note = "zero-zero"       // 0° N 0° E, where a receiver without a fix says it is
	NoteMended      Note = "exif-mended"     // damaged parts of the EXIF block were left out
	NoteUnread      Note = "exif-unread"     // the EXIF block could not be read at all
	NoteManyPixels  Note = "too-many-pixels" // kept, but too large for this server to shrink
	NoteUndecodable Note = "undecodable"     // kept, but its pixels could not be decoded
)
