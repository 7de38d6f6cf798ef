// Package store is Badger as the journal uses it: sealed values, batches that
// are durable and atomic when Commit returns, and views of one moment.
//
// Every value is sealed with a checksum over its key and itself (seal.go),
// because Badger can hand back an empty or wrong value for a damaged one without
// an error. Concurrent commits share one transaction and one sync (commit.go).
//
// Values stay below valueThreshold and so never go to Badger's value log, where
// a failed sync is logged and not returned; and there is then no value log to
// collect. SyncWrites makes Badger call msync(MS_SYNC) on the memtable's
// write-ahead log, which on Linux is an fdatasync of that range.
package store

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"sync/atomic"

	"github.com/dgraph-io/badger/v4"
	"github.com/dgraph-io/badger/v4/options"

	"haulm/sync/journal/internal/together"
)

// The sizes for a machine with 512 MB. Compression and block cache are off:
// tables are mapped files, whose pages the system drops when it must.
const (
	memTableSize     = 8 << 20   // bytes; two of them are all the memory that writing takes
	numMemtables     = 2         // one filled while the other is written out
	valueThreshold   = 64 << 10  // bytes; nothing we store is as large
	valueLogFileSize = 1 << 20   // bytes, the least allowed: the value log stays empty
	numCompactors    = 2         // the least allowed
	baseTableSize    = 512 << 10 // bytes; compaction builds a dozen tables at once: 2 MB took 80 MB of memory, 512 KB 30
)

// A Store is a Badger database in a folder. It is for concurrent use.
type Store struct {
	db  *badger.DB
	dir string // empty: in memory

	queue  together.Queue[*commit]
	tip    tip
	newest int64                 // the write-ahead log whose name is on disk; changed in turn alone
	broken atomic.Pointer[error] // the first failed write; nothing is written after it
}

// Open opens or creates the store in dir; an empty dir is memory alone, for
// tests and for a log that keeps the truth elsewhere.
func Open(dir string, logger *slog.Logger) (*Store, error) {
	opts := badger.DefaultOptions(dir).WithInMemory(dir == "").WithLogger(quiet{logger}).
		WithSyncWrites(true).WithDetectConflicts(false).WithNumVersionsToKeep(1).
		WithCompression(options.None).WithBlockCacheSize(0).
		WithMemTableSize(memTableSize).WithNumMemtables(numMemtables).
		WithValueThreshold(valueThreshold).WithValueLogFileSize(valueLogFileSize).
		WithNumCompactors(numCompactors).WithBaseTableSize(baseTableSize)
	db, err := badger.Open(opts)
	if err != nil {
		return nil, fmt.Errorf("the data folder %s cannot be opened (is another haulm running on it?): %w", dir, err)
	}
	s := &Store{db: db, dir: dir}
	if err := s.openTip(); err != nil {
		return nil, errors.Join(err, db.Close())
	}
	return s, nil
}

// Close ends the store; what was committed is safe without it.
func (s *Store) Close() error {
	if s.tip.file != nil {
		s.tip.file.Close() // it was not to be relied on
	}
	if err := s.db.Close(); err != nil {
		return fmt.Errorf("closing the data folder %s: %w", s.dir, err)
	}
	return nil
}

// Err is the failed write after which the store takes no more; nil while it is
// sound.
func (s *Store) Err() error {
	if broken := s.broken.Load(); broken != nil {
		return *broken
	}
	return nil
}

// quiet passes Badger's warnings and errors on and keeps its chatter back.
type quiet struct{ to *slog.Logger }

func (q quiet) Errorf(format string, values ...any)   { q.log(slog.LevelError, format, values) }
func (q quiet) Warningf(format string, values ...any) { q.log(slog.LevelWarn, format, values) }
func (q quiet) Infof(format string, values ...any)    { q.log(slog.LevelDebug, format, values) }
func (q quiet) Debugf(string, ...any)                 {}

func (q quiet) log(level slog.Level, format string, values []any) {
	if q.to != nil && q.to.Enabled(context.Background(), level) {
		q.to.Log(context.Background(), level, "badger: "+fmt.Sprintf(format, values...))
	}
}
