// Package refusal is how the server says no: a kind, from which httpapi chooses
// the status; a code for programs; and a sentence for the person that says what
// happened and what to do.
package refusal

import (
	"errors"
	"fmt"
)

// A Kind is the nature of a refusal.
type Kind int

// The kinds. The zero Kind is a fault of the server's own.
const (
	Fault         Kind = iota
	Invalid            // what was sent cannot be read or is out of bounds
	Unknown            // nobody known sent it
	Forbidden          // known, but not allowed
	Missing            // no such thing
	Conflict           // it does not fit what is there now
	TooLarge           // more bytes than are taken
	Unsupported        // a type of file that is not kept
	Unprocessable      // read, but not what it says it is
	TooMany            // too often
	Unready            // not now
	Full               // no room on the disk
	OutOfRange         // bytes asked for that are not there
)

// A Refusal is an error that may be shown as it is.
type Refusal struct {
	Kind Kind
	Code string // such as "join_code_used"
	Why  string // one sentence
}

// Error gives the sentence.
func (r *Refusal) Error() string { return r.Why }

// New makes a Refusal; why is formatted as by fmt.Sprintf.
func New(kind Kind, code, why string, values ...any) *Refusal {
	if len(values) > 0 {
		why = fmt.Sprintf(why, values...)
	}
	return &Refusal{Kind: kind, Code: code, Why: why}
}

// Is reports whether an error is a Refusal with the given code.
func Is(err error, code string) bool {
	var r *Refusal
	return errors.As(err, &r) && r.Code == code
}
