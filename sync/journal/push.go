package journal

import (
	"context"
	"errors"

	"haulm/sync/change"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
	"haulm/sync/journal/internal/store"
)

// A Writer is who pushes: a member on a device, as the server knows them from
// the device's token. The empty Member is the program itself, whose changes may
// say who observed.
type Writer struct {
	Member string
	Device string

	// May says whether the writer may make a change: nil lets everything pass,
	// and an error refuses the change. It is called while changes are judged, at
	// times twice for one change; it must be quick and not use the journal.
	May func(change.Change) error
}

// An Answer tells what became of each change of a push.
type Answer struct {
	Applied []Applied `json:"applied"`
	Refused []Refused `json:"refused"`
}

// An Applied change has its sequence and the stamp it was given.
type Applied struct {
	ID  string       `json:"id"`
	Seq uint64       `json:"seq"`
	At  change.Stamp `json:"at"`
}

// A Refused change has a code for programs and a sentence for its writer.
type Refused struct {
	ID   string `json:"id"`
	Code string `json:"code"`
	Why  string `json:"why"`
}

// Push judges changes in the order given and makes the accepted ones durable
// before it returns. A change that cannot be accepted is refused by itself; one
// that was applied before gets the answer it got then. The error is for the
// whole push, of which then nothing may be taken as kept: *UnknownGardenError,
// *ClockError, or trouble with the disk.
func (j *Journal) Push(ctx context.Context, garden string, by Writer, changes []change.Change) (Answer, error) {
	if err := ctx.Err(); err != nil {
		return Answer{}, err
	}
	var answer Answer
	err := j.desk(garden).ask(ctx, func(d *draft) error {
		answer = Answer{Applied: make([]Applied, 0, len(changes)), Refused: []Refused{}}
		return d.push(by, changes, &answer)
	})
	if err != nil {
		return Answer{}, err
	}
	return answer, nil
}

func (d *draft) push(by Writer, changes []change.Change, answer *Answer) error {
	if len(changes) == 0 { // still an error in a garden that is not there
		_, _, err := d.open(store.Room{})
		return err
	}
	for _, c := range changes {
		applied, err := d.change(by, c)
		var refusal *change.Refusal
		switch {
		case err == nil:
			answer.Applied = append(answer.Applied, applied)
		case errors.As(err, &refusal):
			answer.Refused = append(answer.Refused, Refused{c.ID, refusal.Code, refusal.Why})
		default:
			return err
		}
	}
	return nil
}

// changeRoom is more than one change can take of a transaction: its record, its
// place in the log, each at most some 40 KB, and what hangs on them.
func changeRoom() store.Room {
	return store.Room{Bytes: 3 * change.MaxRecordBytes, Count: 8}
}

// change judges one change. The error is a *change.Refusal or ends the push.
func (d *draft) change(by Writer, c change.Change) (Applied, error) {
	sheet, standing, err := d.open(changeRoom())
	if err != nil {
		return Applied{}, err
	}
	if refusal := change.CheckShape(c, d.desk.garden); refusal != nil {
		return Applied{}, refusal
	}
	hash := c.ContentHash()
	outcome, known, err := sheet.Outcome(c.ID)
	if err != nil {
		return Applied{}, damageRefused(err)
	}
	if known {
		return repeat(c.ID, hash, outcome)
	}
	if by.May != nil {
		if err := by.May(c); err != nil {
			return Applied{}, change.RefusalOf(err)
		}
	}
	return d.accept(sheet, standing, change.Writer{Member: by.Member, Device: by.Device}, c, hash)
}

func repeat(id string, hash [16]byte, outcome fold.Outcome) (Applied, error) {
	if outcome.Hash != hash {
		return Applied{}, &change.Refusal{Code: "id_reused", Why: "another change was applied under the id " + id + ": this one needs an id of its own"}
	}
	return Applied{id, outcome.Seq, outcome.At}, nil
}

func (d *draft) accept(sheet *fold.Sheet, standing fold.Standing, by change.Writer, c change.Change, hash [16]byte) (Applied, error) {
	present, err := sheet.Record(c.Record)
	if err != nil {
		return Applied{}, damageRefused(err)
	}
	seq := standing.Head.Seq + 1
	verdict, refusal := change.Judge(present, c, change.Terms{Garden: d.desk.garden, By: by, Seq: seq, Now: d.now, Top: standing.Top})
	if refusal != nil {
		return Applied{}, refusal
	}
	kept := entry.Change{Change: verdict.Change, Hash: hash}
	if err := sheet.Accept(kept, verdict, d.now.UnixMilli()); err != nil {
		return Applied{}, damageRefused(err)
	}
	e := d.entry(entry.Entry{Writer: by}, verdict.Change.Size())
	e.Changes, e.Head = append(e.Changes, kept), entry.Head{Epoch: standing.Head.Epoch, Seq: seq}
	d.written = true
	return Applied{c.ID, seq, verdict.Change.At}, nil
}

// damageRefused makes damage to what a change touches a refusal of that change,
// so that one damaged record does not hold up a phone's whole queue.
func damageRefused(err error) error {
	var damage *DamageError
	if errors.As(err, &damage) {
		return &change.Refusal{Code: "damaged", Why: damage.Error()}
	}
	return err
}
