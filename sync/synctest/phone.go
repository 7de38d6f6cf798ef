package synctest

import (
	"encoding/json"
	"slices"
	"strings"
	"time"

	"pgregory.net/rapid"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
)

// A phone is a model of one: it holds the server's records and its own unsent
// changes, has a clock that may be years off, and speaks JSON.
type phone struct {
	bench   *bench
	garden  string
	by      journal.Writer
	off     time.Duration // of its wall clock
	stamps  change.Clock
	cursor  string
	digest  string // as the server said it last
	records map[garden.Ref]change.Record
	unsent  []change.Change
	sent    [][]change.Change // every push it ever made
	mine    map[slot][]string // the texts it wrote, oldest first
}

// A slot is one field of one record.
type slot struct {
	ref   garden.Ref
	field string
}

// texts is what the phones together wrote.
type ledger struct {
	written  map[slot]map[string]bool
	replaced map[slot]map[string]bool // by somebody who had them in view
}

func (l *ledger) note(set map[slot]map[string]bool, s slot, text string) {
	if set[s] == nil {
		set[s] = map[string]bool{}
	}
	set[s][text] = true
}

// write writes a text, or clears the field where value is null, on top of what
// the phone has in view.
func (p *phone) write(l *ledger, s slot, value string) {
	known := p.records[s.ref]
	for _, f := range known.State.Fields {
		if f.Name == s.field {
			l.note(l.replaced, s, string(f.Value))
			for _, loser := range f.Also {
				l.note(l.replaced, s, string(loser.Value))
			}
		}
	}
	for _, text := range p.mine[s] {
		l.note(l.replaced, s, text)
	}
	if value != "null" {
		l.note(l.written, s, value)
		p.mine[s] = append(p.mine[s], value)
	}
	p.enqueue(s.ref, change.Change{Set: garden.Fields{s.field: json.RawMessage(value)}})
}

func (p *phone) mark(ref garden.Ref, gone bool) { p.enqueue(ref, change.Change{Gone: &gone}) }

func (p *phone) enqueue(ref garden.Ref, c change.Change) {
	c.ID, c.Record, c.Base = newID(), ref, p.records[ref].State.Seq
	c.At = p.stamps.Next(p.bench.clock.now().Add(p.off))
	p.unsent = append(p.unsent, c)
}

// A fate is what becomes of one exchange with the server.
type fate int

const (
	arrives     fate = iota // there and back
	isLost                  // the request never arrives
	answerLost              // the server acts and the phone never knows
	pullIsShort             // the answer has one record of several
)

// sync pushes the first n unsent changes and pulls.
func (p *phone) sync(t *rapid.T, n int, f fate) {
	if f == isLost {
		return
	}
	batch := slices.Clone(p.unsent[:min(n, len(p.unsent))])
	p.sent = append(p.sent, batch)
	answer := p.push(t, batch)
	limit := 0
	if f == pullIsShort {
		limit = 1
	}
	page, err := p.bench.Pull(t.Context(), p.garden, p.cursor, limit)
	if err != nil {
		t.Fatal(err)
	}
	if f == answerLost {
		return
	}
	p.unsent = p.unsent[len(answer.Applied):]
	p.take(t, page)
}

// push sends a batch over the wire's JSON.
func (p *phone) push(t *rapid.T, batch []change.Change) journal.Answer {
	var arrived []change.Change
	text, err := json.Marshal(batch)
	if err == nil {
		err = json.Unmarshal(text, &arrived)
	}
	if err != nil {
		t.Fatal(err)
	}
	answer, err := p.bench.Push(t.Context(), p.garden, p.by, arrived)
	if err != nil || len(answer.Refused) > 0 {
		t.Fatal(err, answer.Refused)
	}
	return answer
}

// take puts a page of the feed into the phone's store.
func (p *phone) take(t *rapid.T, page journal.Page) {
	var wire struct {
		Records []change.Record
	}
	text, err := json.Marshal(page)
	if err == nil {
		err = json.Unmarshal(text, &wire)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range wire.Records {
		p.records[r.Ref] = r
		for _, f := range r.State.Fields {
			p.stamps.See(f.At)
		}
	}
	p.cursor, p.digest = page.Cursor, page.Digest
}

// settle syncs until nothing is unsent and nothing is to be read.
func (p *phone) settle(t *rapid.T) {
	for p.sync(t, len(p.unsent), arrives); len(p.unsent) > 0 || p.digest == ""; {
		p.sync(t, len(p.unsent), arrives)
	}
}

// own is the digest of what the phone holds.
func (p *phone) own() string {
	var sum change.Digest
	for ref, r := range p.records {
		sum = sum.Plus(change.DigestOf(ref, &r.State))
	}
	return sum.String()
}

// holds is everything the phone holds, as text.
func (p *phone) holds() string {
	var lines []string
	for _, r := range p.records {
		lines = append(lines, string(r.AppendJSON(nil)))
	}
	slices.Sort(lines)
	return strings.Join(lines, "\n")
}
