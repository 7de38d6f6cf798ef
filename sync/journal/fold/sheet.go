package fold

import (
	"errors"
	"fmt"
	"slices"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/internal/store"
)

// A Sheet is a garden's fold with entries folded on top that are not written
// down yet. It is for one goroutine, and must be closed.
//
// The judge of new changes and the reader of a log use the same three acts,
// Accept, Keep and Start, so what a writer saw is what every copy folds to.
type Sheet struct {
	view     *View
	standing Standing
	records  map[garden.Ref]*slot
	order    []garden.Ref // of records that changed, so that writes come in one order
	outcomes map[string]Outcome
	private  map[string]Private
	sums     map[int]change.Digest
	writes   []store.Write // outcomes and private values; records, sums and standing follow at the end
	room     store.Room
}

// A slot is a record on the sheet and the sequence at which the store has it.
type slot struct {
	state  *change.State
	stored uint64
	listed bool // in order
}

// Begin opens a sheet on a garden, which need not exist.
func (f *Fold) Begin(name string) *Sheet {
	return &Sheet{
		view:     f.View(name),
		records:  map[garden.Ref]*slot{},
		outcomes: map[string]Outcome{},
		private:  map[string]Private{},
		sums:     map[int]change.Digest{},
	}
}

// Close ends the sheet.
func (s *Sheet) Close() { s.view.Close() }

// Standing is where the sheet stands; *UnknownGardenError before its epoch.
func (s *Sheet) Standing() (Standing, error) {
	if s.standing.Head != (entry.Head{}) {
		return s.standing, nil
	}
	standing, err := s.view.Standing()
	if err == nil {
		s.standing = standing
	}
	return standing, err
}

// Record is the present state of a record, the zero state when nobody wrote it.
// It must not be changed.
func (s *Sheet) Record(ref garden.Ref) (*change.State, error) {
	slot, err := s.slot(ref)
	if err != nil {
		return nil, err
	}
	return slot.state, nil
}

func (s *Sheet) slot(ref garden.Ref) (*slot, error) {
	if found := s.records[ref]; found != nil {
		return found, nil
	}
	record, err := s.view.Record(ref)
	if err != nil && !errors.Is(err, store.ErrMissing) {
		return nil, err
	}
	s.records[ref] = &slot{state: &record.State, stored: record.State.Seq}
	return s.records[ref], nil
}

// Outcome is what became of a change; found is false for a new one.
func (s *Sheet) Outcome(id string) (outcome Outcome, found bool, err error) {
	if outcome, found := s.outcomes[id]; found {
		return outcome, true, nil
	}
	outcome, err = s.view.Outcome(id)
	if errors.Is(err, store.ErrMissing) {
		return Outcome{}, false, nil
	}
	return outcome, err == nil, err
}

// Private is a private value; one with Version 0 is not there.
func (s *Sheet) Private(key string) (Private, error) {
	if found, ok := s.private[key]; ok {
		return found, nil
	}
	found, err := s.view.Private(key)
	if errors.Is(err, store.ErrMissing) {
		return Private{}, nil
	}
	return found, err
}

// Fold folds a whole entry, which must follow on the head.
func (s *Sheet) Fold(e entry.Entry) error {
	standing, err := s.Standing()
	var unknown *UnknownGardenError
	if err != nil && !errors.As(err, &unknown) {
		return err
	}
	if e.First() != standing.Head.Seq+1 {
		return fmt.Errorf("the log of garden %q goes on at %d after %d: an entry is missing", s.view.garden, e.First(), standing.Head.Seq)
	}
	if e.Epoch != nil {
		s.Start(*e.Epoch, e.Now)
	}
	for _, c := range e.Changes {
		if err := s.foldChange(e, c); err != nil {
			return err
		}
	}
	for _, p := range e.Private {
		s.Keep(p, e.Now)
	}
	return nil
}

func (s *Sheet) foldChange(e entry.Entry, c entry.Change) error {
	present, err := s.Record(c.Record)
	if err != nil {
		return err
	}
	state := present.Clone()
	changed := change.Merge(state, c.Change, e.Writer, s.standing.Head.Seq+1)
	return s.Accept(c, change.Verdict{Change: c.Change, State: state, Changed: changed}, e.Now)
}

// Accept folds an accepted change: the verdict holds what Merge made of it at
// the next sequence.
func (s *Sheet) Accept(c entry.Change, verdict change.Verdict, now int64) error {
	seq := s.advance(now)
	s.standing.Top = max(s.standing.Top, c.At)
	outcome := Outcome{Hash: c.Hash, Seq: seq, At: c.At}
	s.outcomes[c.ID] = outcome
	s.note(store.OutcomeTable, c.ID, encodeOutcome(outcome))
	if !verdict.Changed {
		return nil
	}
	return s.replace(c.Record, verdict.State)
}

// replace puts a record's new state in the place of the present one.
func (s *Sheet) replace(ref garden.Ref, state *change.State) error {
	slot, err := s.slot(ref)
	if err != nil {
		return err
	}
	was, is := change.DigestOf(ref, slot.state), change.DigestOf(ref, state)
	if err := s.addToSum(change.BucketOf(ref), was, is); err != nil {
		return err
	}
	s.standing.Digest = s.standing.Digest.Minus(was).Plus(is)
	if slot.state.Seq == 0 {
		s.standing.Records++
	}
	if !slot.listed {
		slot.listed = true
		s.order = append(s.order, ref)
	}
	slot.state = state
	s.room = s.room.Plus(recordRoom(state))
	return nil
}

func (s *Sheet) addToSum(bucket int, was, is change.Digest) error {
	sum, held := s.sums[bucket]
	if !held {
		stored, err := s.view.sum(bucket)
		if err != nil && !errors.Is(err, store.ErrMissing) {
			return err
		}
		sum = stored
	}
	s.sums[bucket] = sum.Minus(was).Plus(is)
	return nil
}

// Keep folds a private write; a nil value removes the key.
func (s *Sheet) Keep(p entry.Private, now int64) {
	version := s.advance(now)
	if p.Value == nil {
		s.private[p.Key] = Private{}
		s.note(store.PrivateTable, p.Key, nil)
		return
	}
	kept := Private{p.Key, p.Value, version}
	s.private[p.Key] = kept
	s.note(store.PrivateTable, p.Key, encodePrivate(kept))
}

// Start folds the start of an epoch.
func (s *Sheet) Start(epoch entry.Epoch, now int64) {
	s.standing.Rules = entry.Version
	s.standing.Head.Epoch, s.standing.Parent, s.standing.Fork = epoch.Name, epoch.Parent, epoch.Fork
	s.advance(now)
}

// advance gives the next act its sequence.
func (s *Sheet) advance(now int64) uint64 {
	s.standing.Head.Seq++
	s.standing.Mark = max(s.standing.Mark, now)
	return s.standing.Head.Seq
}

func (s *Sheet) note(table byte, rest string, value []byte) {
	write := store.Write{Key: store.Key(table, s.view.garden, rest), Value: value}
	s.writes = append(s.writes, write)
	s.room = s.room.Plus(store.Weigh([]store.Write{write}))
}

// Room is, from above, what the sheet takes of a transaction.
func (s *Sheet) Room() store.Room {
	return s.room.Plus(store.Room{Bytes: restBytes, Count: change.Buckets + 1})
}

// What a sheet takes beyond what it counts as it goes: a standing and all sums,
// each with the longest key (garden ids have at most 64 bytes).
const restBytes = 1024 + change.Buckets*128

// recordRoom is what a changed record takes: its feed entry, the removal of the
// old one and its place. 512 bytes stand for the three keys, the ref and the
// lengths; 32 for what a field has beyond its size.
func recordRoom(state *change.State) store.Room {
	return store.Room{Bytes: 512 + state.Size() + 32*len(state.Fields), Count: 3}
}

// Writes is everything that the sheet adds to the store, the same for the same
// entries.
func (s *Sheet) Writes() []store.Write {
	garden := s.view.garden
	writes := slices.Grow(s.writes, 3*len(s.order)+len(s.sums)+1)
	for _, ref := range s.order {
		writes = append(writes, s.recordWrites(ref)...)
	}
	for bucket := range change.Buckets {
		if sum, held := s.sums[bucket]; held {
			writes = append(writes, store.Write{Key: sumKey(garden, bucket), Value: []byte(sum.String())})
		}
	}
	return append(writes, store.Write{Key: store.Key(store.StandingTable, garden, ""), Value: encodeStanding(s.standing)})
}

func (s *Sheet) recordWrites(ref garden.Ref) []store.Write {
	slot, name := s.records[ref], s.view.garden
	writes := []store.Write{
		{Key: store.SeqKey(store.FeedTable, name, slot.state.Seq), Value: encodeRecord(ref, slot.state)},
		{Key: store.Key(store.RecordTable, name, ref.String()), Value: store.Seq(slot.state.Seq)},
	}
	if slot.stored > 0 {
		writes = append(writes, store.Write{Key: store.SeqKey(store.FeedTable, name, slot.stored)})
	}
	return writes
}

func sumKey(garden string, bucket int) []byte {
	return store.Key(store.SumTable, garden, []byte{byte(bucket)})
}
