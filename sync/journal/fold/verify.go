package fold

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"maps"
	"slices"

	"github.com/cespare/xxhash/v2"

	"haulm/sync/change"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/internal/store"
)

// A Report is what Verify found.
type Report struct {
	Values int            // looked at
	Damage []*DamageError // in order of keys, then what does not add up
}

// Verify reads every value of the store, a local log's included, and holds the
// sums against what they are the sums of. It tells progress now and then with
// the number of values read. The error is for a walk that could not be ended.
func (f *Fold) Verify(ctx context.Context, progress func(values int)) (Report, error) {
	view := f.store.View()
	defer view.Close()
	v := verifier{gardens: map[string]*tally{}}
	for pair, err := range view.Scan(nil, nil) {
		if ctx.Err() != nil {
			return v.report, ctx.Err()
		}
		if v.report.Values++; v.report.Values%progressEvery == 0 && progress != nil {
			progress(v.report.Values)
		}
		if err == nil {
			err = v.look(pair)
		}
		if err != nil {
			v.damage(view, pair.Key, asDamage(err))
		}
	}
	v.addUp()
	return v.report, nil
}

const progressEvery = 10_000 // values; a few times a second

// asDamage makes any error of reading a value damage of it.
func asDamage(err error) error {
	var named *DamageError
	if errors.Is(err, store.ErrDamaged) || errors.As(err, &named) {
		return err
	}
	return fmt.Errorf("%w: %w", store.ErrDamaged, err)
}

type verifier struct {
	report  Report
	gardens map[string]*tally
}

// A tally is what one garden's values add up to.
type tally struct {
	standing Standing
	found    bool // the standing
	damaged  bool // then sums do not add up and say nothing more
	logged   uint64
	digest   change.Digest
	sums     [change.Buckets]change.Digest // of the records
	stored   [change.Buckets]change.Digest // as kept
	feed     uint64                        // mixed hashes of ref and sequence, as the feed has them
	places   uint64                        // the same, as the record table has them
}

// damage notes a damaged value. A log entry's key still tells where the log goes
// on.
func (v *verifier) damage(view *store.View, key []byte, err error) {
	table, name, rest, _ := store.SplitKey(key) // a key that is none of ours names no table
	t := v.garden(name)
	t.damaged = true
	switch table {
	case store.FeedTable:
		named := View{view, name}
		err = named.nameFeed(err, key)
	case store.LogTable:
		t.logged, _ = seqOf(rest)
		fallthrough
	default:
		err = damageAt(err, key)
	}
	v.note(err)
}

func (v *verifier) note(err error) {
	var damage *DamageError
	if errors.As(err, &damage) {
		v.report.Damage = append(v.report.Damage, damage)
	}
}

func (v *verifier) garden(name string) *tally {
	if v.gardens[name] == nil {
		v.gardens[name] = &tally{}
	}
	return v.gardens[name]
}

// look reads one value as what its table says it is.
func (v *verifier) look(pair store.Pair) error {
	table, name, rest, err := store.SplitKey(pair.Key)
	if err != nil {
		return err
	}
	if table == store.TipTable { // of the whole store, under no garden
		_, err = decodeSeq(pair.Value)
		return err
	}
	t := v.garden(name)
	switch table {
	case store.StandingTable:
		t.standing, err = decodeStanding(pair.Value)
		t.found = err == nil
	case store.LogTable:
		err = t.entry(pair.Value)
	case store.FeedTable:
		err = t.record(rest, pair.Value)
	case store.RecordTable:
		err = t.place(rest, pair.Value)
	case store.OutcomeTable:
		_, err = decodeOutcome(pair.Value)
	case store.SumTable:
		err = t.sum(rest, pair.Value)
	case store.PrivateTable:
		_, err = decodePrivate(rest, pair.Value)
	default:
		err = fmt.Errorf("there is no table %q", table)
	}
	return err
}

func (t *tally) entry(value []byte) error {
	e, err := entry.Parse(value)
	if err != nil {
		return err
	}
	before := t.logged
	t.logged = e.Head.Seq
	if e.First() != before+1 {
		return fmt.Errorf("it begins at %d, and the log before it ends at %d", e.First(), before)
	}
	return nil
}

func (t *tally) record(rest string, value []byte) error {
	record, err := decodeRecord(value)
	if err != nil {
		return err
	}
	if seq, ok := seqOf(rest); !ok || seq != record.State.Seq {
		return fmt.Errorf("%s is of another sequence, %d", record.Ref, record.State.Seq)
	}
	digest := change.DigestOf(record.Ref, &record.State)
	bucket := change.BucketOf(record.Ref)
	t.digest, t.sums[bucket] = t.digest.Plus(digest), t.sums[bucket].Plus(digest)
	t.feed += mix(record.Ref.String(), record.State.Seq)
	return nil
}

func (t *tally) place(ref string, value []byte) error {
	seq, err := decodeSeq(value)
	t.places += mix(ref, seq)
	return err
}

func (t *tally) sum(rest string, value []byte) error {
	if len(rest) != 1 {
		return errors.New("there is no such bucket")
	}
	digest, err := decodeDigest(value)
	t.stored[rest[0]] = digest
	return err
}

func mix(ref string, seq uint64) uint64 {
	return xxhash.Sum64(binary.BigEndian.AppendUint64([]byte(ref), seq))
}

// addUp holds the sums against the parts, garden by garden, where every part is
// sound.
func (v *verifier) addUp() {
	for _, name := range slices.Sorted(maps.Keys(v.gardens)) {
		t := v.gardens[name]
		if t.damaged {
			continue
		}
		check := func(sound bool, what, of, reason string) {
			if !sound {
				v.note(damaged(name, what, of, reason))
			}
		}
		check(t.found, "standing", "of the fold", "it is missing or unreadable")
		check(t.places == t.feed, "records", "as a whole", "the feed and the table of records name different ones")
		check(t.digest == t.standing.Digest, "digest", "of all records", "the records add up to another")
		check(t.sums == t.stored, "sums", "of the buckets", "the records add up to others")
		check(t.logged == 0 || t.logged == t.standing.Head.Seq, "log", "as a whole", "it ends elsewhere than what was folded of it")
	}
}
