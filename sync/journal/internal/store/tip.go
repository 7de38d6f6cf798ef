package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Badger reads its write-ahead log up to the first record that is damaged, takes
// the rest for the torn end of a crash, and cuts it off without an error. What
// was acknowledged could vanish so. Therefore every transaction carries the
// number of commits so far, and the number is also written to a file of its own
// once the commit is durable. The file is never synced: a crash can only make it
// tell of fewer commits than there are. When it tells of more, commits are
// missing.
type tip struct {
	file    *os.File // nil: in memory
	commits uint64   // changed in turn alone
	missing uint64   // commits that were acknowledged and are gone
}

const tipName = "acknowledged"

// openTip counts what is missing.
func (s *Store) openTip() error {
	view := s.View()
	defer view.Close()
	value, spoilt := view.Get(tipKey())
	if spoilt == nil {
		s.tip.commits = binary.BigEndian.Uint64(value)
	}
	if s.dir == "" {
		return nil
	}
	name := filepath.Join(s.dir, tipName)
	told, err := readTip(name)
	if err != nil {
		return err
	}
	if errors.Is(spoilt, ErrDamaged) {
		s.tip.commits = told // the number is damaged, which Verify reports, and not what it counts
	}
	if told > s.tip.commits {
		s.tip.missing = told - s.tip.commits
	}
	s.tip.file, err = os.OpenFile(name, os.O_CREATE|os.O_WRONLY, 0o600)
	return err
}

func tipKey() []byte { return Key(TipTable, "", "") }

// readTip reads the file; one that is not there or torn tells of nothing.
func readTip(name string) (uint64, error) {
	sealed, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return 0, nil
	}
	if err != nil {
		return 0, fmt.Errorf("reading what was acknowledged: %w", err)
	}
	value, err := unseal(tipKey(), sealed)
	if err != nil || len(value) != 8 {
		return 0, nil
	}
	return binary.BigEndian.Uint64(value), nil
}

// next is the write that goes into every transaction.
func (t *tip) next() Write { return Write{tipKey(), Seq(t.commits + 1)} }

// reached tells the file of one more durable commit, but not while commits are
// missing that nobody has dealt with.
func (t *tip) reached() error {
	t.commits++
	if t.file == nil || t.missing > 0 {
		return nil
	}
	if _, err := t.file.WriteAt(seal(tipKey(), Seq(t.commits)), 0); err != nil {
		return fmt.Errorf("noting what was acknowledged: %w", err)
	}
	return nil
}

// Missing is the number of commits that were acknowledged and are no longer
// there: the write-ahead log was damaged.
func (s *Store) Missing() uint64 { return s.tip.missing }

// Forget takes note that the missing commits were dealt with. Nothing may be
// committing meanwhile.
func (s *Store) Forget() error {
	s.tip.missing = 0
	s.tip.commits-- // reached counts it again
	return s.tip.reached()
}
