package media

import "context"

// An Index remembers an Entry for each medium of a garden. Callers of the Store
// provide it; the Store calls it for one medium by one goroutine at a time.
type Index interface {
	// Entry gives what was last put, or an error for which
	// errors.Is(err, media.NotHere) holds when nothing was.
	Entry(ctx context.Context, garden string, name Name) (Entry, error)
	// PutEntry replaces the entry. It is on disk when PutEntry returns.
	PutEntry(ctx context.Context, garden string, name Name, entry Entry) error
}

// An Entry is everything known about one medium besides its bytes. It is JSON
// that may be stored as it is.
type Entry struct {
	Facts    *Facts    `json:"facts,omitempty"` // nil until the original is here
	Previews []Preview `json:"previews,omitempty"`
}

// A Preview is what is known of one small picture on disk.
type Preview struct {
	Side   Side  `json:"side"`
	SHA256 Name  `json:"sha256"` // of the small picture's own bytes
	Bytes  int64 `json:"bytes"`
	Width  int   `json:"width"`  // pixels
	Height int   `json:"height"` // pixels
	Maker  Maker `json:"maker"`
}

// A Side is the greatest length in pixels of a small picture's longer side.
type Side int

// The two small pictures: one for lists, one for the whole screen of a phone.
const (
	Small Side = 320
	Large Side = 1600
)

// ParseSide reads "320" or "1600". The error is a *Problem with code BadName.
func ParseSide(text string) (Side, error) {
	switch text {
	case "320":
		return Small, nil
	case "1600":
		return Large, nil
	}
	return 0, &Problem{Code: BadName, Text: "small pictures are 320 or 1600 pixels long, not " + shown(text)}
}

// A Maker is who made a small picture.
type Maker string

// The makers.
const (
	ByPhone  Maker = "phone"
	ByServer Maker = "server"
)

func (e Entry) preview(side Side) (Preview, bool) {
	for _, p := range e.Previews {
		if p.Side == side {
			return p, true
		}
	}
	return Preview{}, false
}

// withPreview gives the entry with p in place of any preview of its side.
func (e Entry) withPreview(p Preview) Entry {
	kept := []Preview{p}
	for _, other := range e.Previews {
		if other.Side != p.Side {
			kept = append(kept, other)
		}
	}
	e.Previews = kept
	return e
}
