// Package unsent reads the files in which phones save what they could not send,
// and takes it back into a garden.
//
// A saved file is a zip. Its format is named haulm-unsent and has a version:
//
//	manifest.json               what it is, of which garden, phone and person, and which photos are in it: Manifest
//	changes.jsonl               a change on each line, as POST …/sync takes them, in the order in which they were written
//	refused.jsonl               {"change", "code", "why"} on each line: what a server had not taken, and why
//	media/{sha256}/original.*   an original: the bytes of that name
//	media/{sha256}/320.jpg      its previews, by their longer side in pixels; 1600.jpg as well
//
// What is large comes in several files. Each has all the changes, and a part of
// the photos, so that every file is of use alone and their order is free.
//
// Changes keep their ids and photos are named by their bytes: a file that is
// taken twice, or whose phone finds a signal after all and sends the same, makes
// nothing twice. An entry that cannot be taken is named and left aside, and the
// rest is taken all the same; the file itself is never changed.
//
// Start with Taker.Take in take.go. file.go opens a file of which nothing is
// believed: no name in it ever becomes a path, and every size has a bound.
package unsent

import (
	"encoding/json"
	"time"
)

const (
	// Format names the format, and Version is the only one there is: a reader of
	// this version takes every file of it, and leaves aside what it does not know.
	Format  = "haulm-unsent"
	Version = 1

	manifestName = "manifest.json"
	changesName  = "changes.jsonl"
	refusedName  = "refused.jsonl"
	mediaFolder  = "media/"

	originalVersion = "original"
)

// MaxFileBytes is the most that one file may have. Phones begin another at 128 MB.
const MaxFileBytes = 512 << 20

// A Manifest is what a saved file says of itself.
type Manifest struct {
	Format  string    `json:"format"`
	Version int       `json:"version"`
	Garden  string    `json:"garden"`
	Member  string    `json:"member"` // whose phone it is
	Device  string    `json:"device"` // the phone's name
	Made    time.Time `json:"made"`
	Part    int       `json:"part"` // from 1
	Parts   int       `json:"parts"`
	Photos  []Photo   `json:"photos"`
}

// A Photo is a picture or memo of which something is in the file.
type Photo struct {
	Sha256 string `json:"sha256"`
	Record string `json:"record"` // the entry that it belongs to
	Type   string `json:"type"`
	Bytes  int64  `json:"bytes"` // of the original
}

// A refusedLine is a change that a server had not taken.
type refusedLine struct {
	Change json.RawMessage `json:"change"`
	Code   string          `json:"code"`
	Why    string          `json:"why"`
}
