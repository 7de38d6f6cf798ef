package media

import "fmt"

// A Code says what kind of problem a Problem is.
type Code string

// The kinds of problem. Beside each stands what a caller over HTTP would answer.
const (
	BadName       Code = "bad_name"        // not a name, or a garden id unfit for a path: 400
	BadLength     Code = "bad_length"      // a length that is not positive, or a piece that goes past it: 400
	WrongOffset   Code = "wrong_offset"    // the piece does not follow on; Offset is the true one: 409
	WrongContent  Code = "wrong_content"   // all arrived, but it is not what its name says; thrown away: 422
	TooLarge      Code = "too_large"       // more bytes than Limit: 413
	UnknownType   Code = "unknown_type"    // not a kind of file that is kept: 415
	NotAPicture   Code = "not_a_picture"   // looks like one by its first bytes and is none: 422
	TooManyPixels Code = "too_many_pixels" // larger than Limit pixels: 422
	NotHere       Code = "not_here"        // nothing of that name in this garden: 404
	NoPreview     Code = "no_preview"      // here, but no small picture of it can be made: 404
	Damaged       Code = "damaged"         // the file on disk is no longer what its name says: 500
	Storage       Code = "storage"         // the disk refused: 507 or 500
)

// A Problem is what went wrong with one medium, with a sentence for a person.
type Problem struct {
	Code   Code
	Name   Name   // the zero Name where there is none
	Offset int64  // WrongOffset, WrongContent: where to go on from, in bytes
	Limit  int64  // TooLarge: bytes; TooManyPixels: pixels
	Text   string // the sentence; it names no file of the server's
	Err    error  // the cause, where there is one
}

// Error gives the sentence and the cause.
func (p *Problem) Error() string {
	if p.Err == nil {
		return p.Text
	}
	return p.Text + ": " + p.Err.Error()
}

// Unwrap gives the cause.
func (p *Problem) Unwrap() error { return p.Err }

// Is makes errors.Is(err, media.NotHere) and its fellows work.
func (p *Problem) Is(target error) bool {
	code, ok := target.(Code)
	return ok && code == p.Code
}

// Error lets a Code stand as the target of errors.Is.
func (c Code) Error() string { return string(c) }

func storageProblem(name Name, doing string, err error) *Problem {
	return &Problem{Code: Storage, Name: name, Err: err,
		Text: fmt.Sprintf("%s could not be %s; look at the disk's free space and health", name, doing)}
}

const longestShown = 40 // characters; what a caller sent is not echoed back whole

func shown(text string) string {
	if runes := []rune(text); len(runes) > longestShown {
		text = string(runes[:longestShown]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
