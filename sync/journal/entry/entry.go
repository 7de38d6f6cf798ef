package entry

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"

	"haulm/sync/change"
)

// MaxBytes bounds an entry's JSON. It is below the size (64 KB) at which the
// local store would move a value to its value log, whose failed syncs it does
// not report, and far below 1 MB, the usual limit of a replicated log's message.
const MaxBytes = 56 << 10

// Version is the form of entries that this program writes, and the rules by
// which they fold.
const Version = 1

// An Entry is one judged batch: changes of one writer, or private writes, or the
// start of an epoch. Folding it needs nothing else, no clock above all.
type Entry struct {
	Version int
	Head    Head  // the log's head after this entry
	Now     int64 // the server's time of judging, Unix milliseconds
	Writer  change.Writer
	Changes []Change
	Private []Private
	Epoch   *Epoch
}

// First is the sequence of the entry's first act.
func (e *Entry) First() uint64 { return e.Head.Seq - uint64(e.acts()) + 1 }

func (e *Entry) acts() int {
	acts := len(e.Changes) + len(e.Private)
	if e.Epoch != nil {
		acts++
	}
	return acts
}

// CheckRow tells whether entries follow on a head, one on the other, each
// saying something. Every log checks what it is given with it.
func CheckRow(garden string, head Head, entries []Entry) error {
	for i := range entries {
		e := &entries[i]
		if e.acts() == 0 || e.First() != head.Seq+1 {
			return fmt.Errorf("an entry for the log of garden %q begins at %d and not at %d", garden, e.First(), head.Seq+1)
		}
		if e.Head.Epoch != head.Epoch && (e.Epoch == nil || e.Epoch.Name != e.Head.Epoch || e.Epoch.Parent != head.Epoch || e.Epoch.Fork != head.Seq) {
			return fmt.Errorf("an entry for the log of garden %q is of epoch %q and the log of %q", garden, e.Head.Epoch, head.Epoch)
		}
		head = e.Head
	}
	return nil
}

// A Change is an accepted change, with the stamp and fields that it was given,
// and the hash of what its writer sent. Its sequence is its place in the log.
type Change struct {
	change.Change
	Hash [16]byte
}

// A Private is one value that phones never get: a member, a device, an invite,
// what is known of a photo. A nil value removes it. Its version is the sequence
// of its write.
type Private struct {
	Key   string          `json:"key"`
	Value json.RawMessage `json:"value,omitempty"`
}

// An Epoch is the start of a life of a garden: its creation, or its restoration
// from a backup that was taken in Parent at Fork.
type Epoch struct {
	Name   string `json:"name"`
	Parent string `json:"parent,omitempty"`
	Fork   uint64 `json:"fork,omitempty"`
}

// AppendJSON appends the entry as one line of JSON, without the newline.
func (e *Entry) AppendJSON(buf []byte) []byte {
	buf = strconv.AppendInt(append(buf, `{"v":`...), int64(e.Version), 10)
	buf = appendQuoted(append(buf, `,"head":`...), e.Head.String())
	buf = strconv.AppendInt(append(buf, `,"now":`...), e.Now, 10)
	buf = appendQuoted(append(buf, `,"member":`...), e.Writer.Member)
	buf = appendQuoted(append(buf, `,"device":`...), e.Writer.Device)
	buf = e.appendChanges(buf)
	if e.Private != nil {
		buf = appendMarshalled(append(buf, `,"private":`...), e.Private)
	}
	if e.Epoch != nil {
		buf = appendMarshalled(append(buf, `,"epoch":`...), e.Epoch)
	}
	return append(buf, '}')
}

func (e *Entry) appendChanges(buf []byte) []byte {
	for i := range e.Changes {
		if i == 0 {
			buf = append(buf, `,"changes":[`...)
		} else {
			buf = append(buf, ',')
		}
		buf = e.Changes[i].AppendJSON(buf)
	}
	if len(e.Changes) > 0 {
		buf = append(buf, ']')
	}
	return buf
}

// AppendJSON appends the change with its hash beside it.
func (c *Change) AppendJSON(buf []byte) []byte {
	buf = c.Change.AppendJSON(append(buf, `{"change":`...))
	buf = hex.AppendEncode(append(buf, `,"hash":"`...), c.Hash[:])
	return append(buf, `"}`...)
}

func appendQuoted(buf []byte, text string) []byte { return appendMarshalled(buf, text) }

// appendMarshalled appends a value made of texts, numbers and valid JSON, which
// always has a JSON form.
func appendMarshalled(buf []byte, value any) []byte {
	text, _ := json.Marshal(value)
	return append(buf, text...)
}

type entryJSON struct {
	V       int          `json:"v"`
	Head    string       `json:"head"`
	Now     int64        `json:"now"`
	Member  string       `json:"member"`
	Device  string       `json:"device"`
	Changes []changeJSON `json:"changes"`
	Private []Private    `json:"private"`
	Epoch   *Epoch       `json:"epoch"`
}

type changeJSON struct {
	Change change.Change `json:"change"`
	Hash   string        `json:"hash"`
}

// Parse reads what AppendJSON wrote. An entry of a later version is an error:
// this program does not know how it folds.
func Parse(text []byte) (Entry, error) {
	var wire entryJSON
	if err := json.Unmarshal(text, &wire); err != nil {
		return Entry{}, fmt.Errorf("an entry of the log cannot be read: %w", err)
	}
	if wire.V != Version {
		return Entry{}, fmt.Errorf("an entry of the log has form %d and this program reads form %d: use a newer haulm", wire.V, Version)
	}
	head, err := ParseCursor(wire.Head)
	if err != nil {
		return Entry{}, fmt.Errorf("an entry of the log cannot be read: %w", err)
	}
	e := Entry{Version: wire.V, Head: head, Now: wire.Now, Writer: change.Writer{Member: wire.Member, Device: wire.Device}, Private: wire.Private, Epoch: wire.Epoch}
	for _, c := range wire.Changes {
		parsed, err := c.parse()
		if err != nil {
			return Entry{}, fmt.Errorf("change %s in the log cannot be read: %w", c.Change.ID, err)
		}
		e.Changes = append(e.Changes, parsed)
	}
	return e, nil
}

func (c changeJSON) parse() (Change, error) {
	if refusal := c.Change.Malformed(); refusal != nil {
		return Change{}, refusal
	}
	hash, err := hex.DecodeString(c.Hash)
	if err != nil || len(hash) != len(Change{}.Hash) {
		return Change{}, fmt.Errorf("its hash %q is not 32 hexadecimal digits", c.Hash)
	}
	return Change{Change: c.Change, Hash: [16]byte(hash)}, nil
}
