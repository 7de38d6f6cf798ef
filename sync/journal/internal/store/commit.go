package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/dgraph-io/badger/v4"
)

// A Write is one key's new value, which Commit seals; nil removes the key.
type Write struct{ Key, Value []byte }

// Room is how much of a transaction is filled, or how much may be.
type Room struct{ Bytes, Count int }

// perWrite is what Badger adds to a key and value when it sizes a transaction:
// 2 bytes of marks, 10 of version (v4, Txn.checkSize), and our seal.
const perWrite = 12 + sealBytes

// Weigh gives the room that writes take.
func Weigh(writes []Write) Room {
	room := Room{Count: len(writes)}
	for _, w := range writes {
		room.Bytes += len(w.Key) + len(w.Value) + perWrite
	}
	return room
}

// Plus adds two rooms.
func (r Room) Plus(other Room) Room { return Room{r.Bytes + other.Bytes, r.Count + other.Count} }

// Within tells whether r fits.
func (r Room) Within(limit Room) bool { return r.Bytes <= limit.Bytes && r.Count <= limit.Count }

// Limit is the room of one transaction. Badger's own is 15 % of a memtable; a
// quarter is kept back for what is only known when writing.
func (s *Store) Limit() Room {
	return Room{int(s.db.MaxBatchSize() * 3 / 4), int(s.db.MaxBatchCount() * 3 / 4)}
}

// A commit is somebody's writes on their way.
type commit struct {
	writes []Write
	room   Room
	err    error
}

// Commit makes writes durable, all or none. Commits that come while another is
// under way go together in the next transaction, with one sync for all of them;
// their order is the order of the calls. Writes of concurrent calls must be of
// different keys.
func (s *Store) Commit(writes []Write) error {
	mine := &commit{writes: writes, room: Weigh(writes), err: errUnfinished}
	s.queue.Do(mine, s.fitting, s.commitTogether)
	return mine.err
}

// errUnfinished is what a commit has until it is known to be durable.
var errUnfinished = errors.New("writing to the data folder came to an unexpected end")

// fitting tells how many commits fit one transaction.
func (s *Store) fitting(waiting []*commit) int {
	limit, sum := s.Limit(), Room{}
	for n, c := range waiting {
		if sum = sum.Plus(c.room); !sum.Within(limit) {
			return n
		}
	}
	return len(waiting)
}

func (s *Store) commitTogether(taken []*commit) {
	err := s.Err()
	if err == nil {
		err = s.write(taken)
	}
	for _, c := range taken {
		c.err = err
	}
}

func (s *Store) write(taken []*commit) error {
	txn := s.db.NewTransaction(true)
	defer txn.Discard()
	for _, c := range taken {
		for _, w := range c.writes {
			if err := put(txn, w); err != nil { // such as ErrTxnTooBig: nothing was written
				return fmt.Errorf("preparing a write to the data folder %s: %w", s.dir, err)
			}
		}
	}
	if err := put(txn, s.tip.next()); err != nil {
		return fmt.Errorf("preparing a write to the data folder %s: %w", s.dir, err)
	}
	if err := txn.Commit(); err != nil {
		return s.breaks(fmt.Errorf("writing to the data folder %s: %w", s.dir, err))
	}
	if err := errors.Join(s.settle(), s.tip.reached()); err != nil {
		return s.breaks(err)
	}
	return nil
}

// breaks remembers a failed write. After a failed sync the system may forget
// what it could not write, and a later sync would succeed without it.
func (s *Store) breaks(err error) error {
	broken := fmt.Errorf("an earlier write to the disk failed, and nothing more is taken until haulm is started again: %w", err)
	s.broken.Store(&broken)
	return err
}

func put(txn *badger.Txn, w Write) error {
	if w.Value == nil {
		return txn.Delete(w.Key)
	}
	return txn.Set(w.Key, seal(w.Key, w.Value))
}

// settle syncs the folder when a write-ahead log was begun: Badger syncs a
// log's bytes but not its name, and a log without a name is lost with the power.
// Logs are numbered upwards, so the sum of the numbers tells a new one.
func (s *Store) settle() error {
	if s.dir == "" {
		return nil
	}
	files, err := os.ReadDir(s.dir)
	if err != nil {
		return fmt.Errorf("reading the data folder: %w", err)
	}
	newest := int64(0)
	for _, file := range files {
		if filepath.Ext(file.Name()) == walSuffix {
			var number int64
			if _, err := fmt.Sscanf(strings.TrimSuffix(file.Name(), walSuffix), "%d", &number); err == nil {
				newest = max(newest, number)
			}
		}
	}
	if newest == s.newest {
		return nil
	}
	s.newest = newest
	return syncFolder(s.dir)
}

const walSuffix = ".mem"

func syncFolder(dir string) error {
	folder, err := os.Open(dir)
	if err != nil {
		return fmt.Errorf("opening the data folder to sync it: %w", err)
	}
	defer folder.Close()
	if err := folder.Sync(); err != nil {
		return fmt.Errorf("syncing the data folder %s: %w", dir, err)
	}
	return nil
}
