package change

import (
	"bytes"
	"slices"
)

// Merge folds an accepted change into a state: the change's stamp is final and
// seq is the garden's sequence that it was given. It tells whether the record
// changed; one that did not keeps its sequence.
//
// A value whose sequence is at most the change's base, or that the same device
// wrote, was seen by the writer: the change wins. Otherwise the two were written
// apart: the greater stamp wins, the present value where they are equal, and
// the loser is kept in Also if it is text and differs. A write settles the
// losers that its writer had seen.
//
// Merge is the rule of folding, version 1: every copy of a log folds to the
// same state with it, so a change of the rule needs a new version beside it.
func Merge(s *State, c Change, by Writer, seq uint64) (changed bool) {
	w := Write{Seq: seq, At: c.At, By: by}
	for _, name := range c.Names() {
		incoming := Loser{Value: c.Set[name], Write: w}
		changed = s.field(name).merge(incoming, c.Base) || changed
	}
	if c.Gone != nil {
		changed = s.Gone.merge(*c.Gone, w, c.Base) || changed
	}
	if changed {
		s.Seq = seq
	}
	return changed
}

// field finds a field or makes room for it.
func (s *State) field(name string) *Field {
	i, found := s.find(name)
	if !found {
		s.Fields = slices.Insert(s.Fields, i, Field{Name: name})
	}
	return &s.Fields[i]
}

func (f *Field) merge(incoming Loser, base uint64) (changed bool) {
	settled := len(f.Also)
	f.Also = slices.DeleteFunc(f.Also, func(l Loser) bool { return l.seenBy(incoming.Write, base) })
	changed = len(f.Also) != settled
	seen := f.seenBy(incoming.Write, base)
	if !seen && incoming.At <= f.At {
		return f.keep(incoming, f.Value) || changed
	}
	if !seen {
		f.keep(Loser{f.Value, f.Write}, incoming.Value)
	}
	f.Value, f.Write = incoming.Value, incoming.Write
	return true
}

// keep puts a text that lost to winner among the losers. Of equal texts the
// first is enough.
func (f *Field) keep(loser Loser, winner []byte) bool {
	same := func(l Loser) bool { return bytes.Equal(l.Value, loser.Value) }
	if !isText(loser.Value) || bytes.Equal(loser.Value, winner) || slices.ContainsFunc(f.Also, same) {
		return false
	}
	f.Also = append(f.Also, loser)
	return true
}

func (m *Mark) merge(gone bool, w Write, base uint64) (changed bool) {
	if !m.seenBy(w, base) && w.At <= m.At {
		return false
	}
	*m = Mark{Value: gone, Write: w}
	return true
}

// seenBy tells whether the writer of a later write had seen this one. What
// nobody wrote (sequence 0) was seen by everybody.
func (w Write) seenBy(later Write, base uint64) bool {
	return w.Seq <= base || w.By.Device == later.By.Device
}
