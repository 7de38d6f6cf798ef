package store

import (
	"bytes"
	"errors"
	"fmt"
	"iter"

	"github.com/dgraph-io/badger/v4"
)

// A View shows the store as it was when View was called. It must be closed. One
// goroutine uses it at a time.
type View struct{ txn *badger.Txn }

// View opens a view of this moment.
func (s *Store) View() *View { return &View{s.db.NewTransaction(false)} }

// Close ends the view.
func (v *View) Close() { v.txn.Discard() }

// ErrMissing says that a key has no value.
var ErrMissing = errors.New("not there")

// Get gives a copy of the value under a key. The error wraps ErrMissing or
// ErrDamaged.
func (v *View) Get(key []byte) ([]byte, error) {
	item, err := v.txn.Get(key)
	if errors.Is(err, badger.ErrKeyNotFound) {
		return nil, ErrMissing
	}
	if err != nil {
		return nil, fmt.Errorf("reading the data folder: %w", err)
	}
	return copyOf(item)
}

// A Pair is a key, of which the scan goes on to make the next, and a copy of its
// value, which may be kept.
type Pair struct{ Key, Value []byte }

// Scan gives the pairs whose keys begin with prefix, from the key prefix+from
// on, in order of keys. A damaged value comes as an error wrapping ErrDamaged
// with the pair's key, and the scan can go on after it.
func (v *View) Scan(prefix, from []byte) iter.Seq2[Pair, error] {
	return func(yield func(Pair, error) bool) {
		options := badger.DefaultIteratorOptions
		options.PrefetchValues = false // values lie beside the keys; a goroutine for each costs more
		options.Prefix = prefix
		it := v.txn.NewIterator(options)
		defer it.Close()
		for it.Seek(append(bytes.Clone(prefix), from...)); it.Valid(); it.Next() {
			value, err := copyOf(it.Item())
			if !yield(Pair{it.Item().Key(), value}, err) {
				return
			}
		}
	}
}

// Keys gives the keys of Scan without reading values.
func (v *View) Keys(prefix []byte) iter.Seq[[]byte] {
	return func(yield func([]byte) bool) {
		it := v.txn.NewIterator(badger.IteratorOptions{Prefix: prefix})
		defer it.Close()
		for it.Rewind(); it.Valid(); it.Next() {
			if !yield(it.Item().Key()) {
				return
			}
		}
	}
}

func copyOf(item *badger.Item) ([]byte, error) {
	var value []byte
	err := item.Value(func(sealed []byte) error {
		opened, err := unseal(item.Key(), sealed)
		value = bytes.Clone(opened)
		return err
	})
	if err != nil && !errors.Is(err, ErrDamaged) {
		return nil, fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	return value, err
}
