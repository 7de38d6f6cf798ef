// Package assess answers for a whole garden at once: how its season runs, which
// plantings are worth a look, and what one planting's year and growth look like
// beside what was to be expected.
//
// An Engine holds a garden's records; Upsert and Forget keep it up to date, and
// Assess and Picture answer from what it holds. The server and the phone run
// this very code, and the answers agree to the byte.
//
// Start in engine.go; book.go holds the records, looks.go and weather.go those that
// are asked for by day, reckon.go what is worked out once a day. What is found of a
// planting by its looks is in bloom.go, life.go, asleep.go, growth.go, troubled.go
// and colony.go; by the weather in frost.go and dry.go; by its place on the plan,
// from size.go, in crowded.go, hidden.go and, with sunlight.go, shaded.go. What a
// place does to a planting is told quietly unless the planting itself does badly:
// walls do not move between two walks. order.go says what comes first, picture.go
// draws one planting.
package assess

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"haulm/garden"
)

// An Engine holds the records of one garden. It is not safe for use by several
// goroutines at once.
type Engine struct {
	book
	known *reckoned // what was worked out since the last change; nil when stale
	sun   *sunlight // of the year that was asked about last; see sunlight.go
	up    *comingUp // of the day that was asked about last; see life.go
}

// New gives an Engine that knows the catalogue and no records.
func New() (*Engine, error) {
	kinds, _, err := garden.Catalogue()
	if err != nil {
		return nil, err
	}
	book, err := newBook(kinds)
	return &Engine{book: book}, err
}

// Upsert takes records in, new ones and newer ones. A record that cannot be
// read is left out and named by Skipped, and silences no other.
func (e *Engine) Upsert(records []garden.Record) {
	for _, record := range records {
		e.put(record)
	}
	e.known = nil
}

// Forget lets records go.
func (e *Engine) Forget(refs []garden.Ref) {
	for _, ref := range refs {
		e.drop(ref)
	}
	e.known = nil
}

// Skipped names the records that could not be used, sorted by reference.
func (e *Engine) Skipped() []Skipped {
	list := make([]Skipped, 0, len(e.skipped))
	for _, ref := range slices.SortedFunc(maps.Keys(e.skipped), compareRefs) {
		list = append(list, Skipped{ref.String(), e.skipped[ref]})
	}
	return list
}

func compareRefs(a, b garden.Ref) int {
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.ID, b.ID))
}

// A written is a record as JSON has it.
type written struct {
	Record string        `json:"record"`
	Fields garden.Fields `json:"fields"`
}

// ParseRecords reads a JSON array of {"record", "fields"}. A record that is none,
// or whose reference cannot be read, is left out and named; the error is for text
// that is no array.
func ParseRecords(text []byte) ([]garden.Record, []Skipped, error) {
	list, skipped, err := readWritten(text)
	if err != nil {
		return nil, nil, err
	}
	records := make([]garden.Record, 0, len(list))
	for _, one := range list {
		ref, err := garden.ParseRef(one.Record)
		if err != nil {
			skipped = append(skipped, Skipped{one.Record, err.Error()})
			continue
		}
		records = append(records, garden.Record{Ref: ref, Fields: one.Fields})
	}
	return records, skipped, nil
}

// readWritten reads the array at once, and one by one only where that fails,
// which takes half as long again.
func readWritten(text []byte) (list []written, skipped []Skipped, err error) {
	if json.Unmarshal(text, &list) == nil {
		return list, nil, nil
	}
	var raw []json.RawMessage
	if err := json.Unmarshal(text, &raw); err != nil {
		return nil, nil, err
	}
	list = list[:0]
	for i, text := range raw {
		var one written
		if err := json.Unmarshal(text, &one); err != nil {
			skipped = append(skipped, Skipped{fmt.Sprintf("number %d", i+1), `not {"record": "kind/id", "fields": {…}}`})
			continue
		}
		list = append(list, one)
	}
	return list, skipped, nil
}
