package fold

import (
	"errors"
	"fmt"
	"iter"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal/internal/store"
)

// A View shows one garden's fold at one moment. It is for one goroutine, and
// must be closed. Missing things are errors wrapping store.ErrMissing, damaged
// ones a *DamageError.
type View struct {
	view   *store.View
	garden string
}

// View opens a view of a garden, which need not exist.
func (f *Fold) View(garden string) *View { return &View{f.store.View(), garden} }

// Close ends the view.
func (v *View) Close() { v.view.Close() }

// ErrMissing says that there is no such thing.
var ErrMissing = store.ErrMissing

// Standing is where the fold stands; *UnknownGardenError when there is none.
func (v *View) Standing() (Standing, error) {
	standing, err := get(v, store.Key(store.StandingTable, v.garden, ""), decodeStanding)
	if errors.Is(err, store.ErrMissing) {
		return Standing{}, &UnknownGardenError{v.garden}
	}
	return standing, err
}

// Record is one record, gone or not.
func (v *View) Record(ref garden.Ref) (change.Record, error) {
	seq, err := get(v, store.Key(store.RecordTable, v.garden, ref.String()), decodeSeq)
	if err != nil {
		return change.Record{}, err
	}
	record, err := get(v, store.SeqKey(store.FeedTable, v.garden, seq), decodeRecord)
	if err != nil {
		return change.Record{}, damaged(v.garden, "record", ref.String(), err)
	}
	if record.Ref != ref || record.State.Seq != seq {
		return change.Record{}, damaged(v.garden, "record", ref.String(), "another is in its place")
	}
	return record, nil
}

// Feed gives the records that last changed after a sequence, in order of
// sequence, each once. A damaged one comes as an error; the feed can go on.
func (v *View) Feed(after uint64) iter.Seq2[change.Record, error] {
	return func(yield func(change.Record, error) bool) {
		prefix := store.Key(store.FeedTable, v.garden, "")
		for pair, err := range v.view.Scan(prefix, store.Seq(after+1)) {
			var record change.Record
			if err == nil {
				record, err = decode(pair.Key, pair.Value, decodeRecord)
			}
			if err != nil {
				err = v.nameFeed(err, pair.Key)
			}
			if !yield(record, err) {
				return
			}
		}
	}
}

// nameFeed gives damage in the feed the name of the record that was there.
func (v *View) nameFeed(err error, key []byte) error {
	_, _, rest, splitErr := store.SplitKey(key)
	seq, ok := seqOf(rest)
	if splitErr != nil || !ok {
		return damageAt(err, key)
	}
	prefix := store.Key(store.RecordTable, v.garden, "")
	for pair, scanErr := range v.view.Scan(prefix, nil) {
		if at, err2 := decodeSeq(pair.Value); scanErr == nil && err2 == nil && at == seq {
			return damaged(v.garden, "record", string(pair.Key[len(prefix):]), err)
		}
	}
	return damageAt(err, key)
}

// Outcome is what became of an applied change.
func (v *View) Outcome(id string) (Outcome, error) {
	return get(v, store.Key(store.OutcomeTable, v.garden, id), decodeOutcome)
}

// Private is one private value.
func (v *View) Private(key string) (Private, error) {
	return get(v, store.Key(store.PrivateTable, v.garden, key), func(value []byte) (Private, error) {
		return decodePrivate(key, value)
	})
}

// Privates gives the private values whose keys begin with prefix, in order.
func (v *View) Privates(prefix string) iter.Seq2[Private, error] {
	return func(yield func(Private, error) bool) {
		table := store.Key(store.PrivateTable, v.garden, "")
		for pair, err := range v.view.Scan(store.Key(store.PrivateTable, v.garden, prefix), nil) {
			var private Private
			if err == nil {
				private, err = decodePrivate(string(pair.Key[len(table):]), pair.Value)
			}
			if err != nil {
				err = damageAt(err, pair.Key)
			}
			if !yield(private, err) {
				return
			}
		}
	}
}

// Sums are the digests of the 256 buckets.
func (v *View) Sums() ([change.Buckets]change.Digest, error) {
	var sums [change.Buckets]change.Digest
	for bucket := range sums {
		sum, err := v.sum(bucket)
		if err != nil && !errors.Is(err, store.ErrMissing) {
			return sums, err
		}
		sums[bucket] = sum
	}
	return sums, nil
}

func (v *View) sum(bucket int) (change.Digest, error) {
	return get(v, sumKey(v.garden, bucket), decodeDigest)
}

// Refs gives the refs of all records, gone or not, sorted as text.
func (v *View) Refs() iter.Seq2[garden.Ref, error] {
	return func(yield func(garden.Ref, error) bool) {
		prefix := store.Key(store.RecordTable, v.garden, "")
		for key := range v.view.Keys(prefix) {
			ref, err := garden.ParseRef(string(key[len(prefix):]))
			if err != nil {
				err = damageAt(fmt.Errorf("%w: %w", store.ErrDamaged, err), key)
			}
			if !yield(ref, err) {
				return
			}
		}
	}
}

// get reads and decodes one value.
func get[T any](v *View, key []byte, read func([]byte) (T, error)) (T, error) {
	value, err := v.view.Get(key)
	if err != nil {
		var none T
		return none, damageAt(err, key)
	}
	return decode(key, value, read)
}

func decode[T any](key, value []byte, read func([]byte) (T, error)) (T, error) {
	decoded, err := read(value)
	if err != nil {
		var none T
		garden, what, name := NameOf(key)
		return none, damaged(garden, what, name, err)
	}
	return decoded, nil
}

func damageAt(err error, key []byte) error {
	garden, what, name := NameOf(key)
	return Damage(err, garden, what, name)
}

// Gardens lists the gardens that have a fold, sorted; the server's own space is
// not among them.
func (f *Fold) Gardens() ([]string, error) {
	view := f.store.View()
	defer view.Close()
	var names []string
	for key := range view.Keys([]byte{store.StandingTable}) {
		_, name, _, err := store.SplitKey(key)
		if err != nil {
			return nil, damageAt(err, key)
		}
		if name != "" {
			names = append(names, name)
		}
	}
	return names, nil
}

// Mark is the latest time of judging of all gardens, Unix milliseconds.
func (f *Fold) Mark() (int64, error) {
	view := f.store.View()
	defer view.Close()
	latest := int64(0)
	for pair, err := range view.Scan([]byte{store.StandingTable}, nil) {
		if err != nil {
			return 0, damageAt(err, pair.Key)
		}
		standing, err := decode(pair.Key, pair.Value, decodeStanding)
		if err != nil {
			return 0, err
		}
		latest = max(latest, standing.Mark)
	}
	return latest, nil
}
