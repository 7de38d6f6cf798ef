package media

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// AbandonedAfter is how long the beginning of a file waits for its rest. A phone
// goes on with what it has not sent whenever it has a signal; one that has said
// nothing for a month has given up, or begins again at 0 and loses nothing.
const AbandonedAfter = 30 * 24 * time.Hour

// ForgetAbandoned throws away beginnings of files to which nothing was added
// for AbandonedAfter, in every garden, and tells how many. Files that are whole
// are never touched.
func (s *Store) ForgetAbandoned(ctx context.Context, now time.Time) (int, error) {
	forgotten := 0
	err := filepath.WalkDir(s.dir, func(path string, entry fs.DirEntry, err error) error {
		if err == nil {
			err = ctx.Err()
		}
		if err != nil || !entry.Type().IsRegular() || !strings.HasSuffix(path, partialSuffix) {
			return err
		}
		gone, err := s.forgetIfAbandoned(path, now)
		if gone {
			forgotten++
		}
		return err
	})
	return forgotten, err
}

func (s *Store) forgetIfAbandoned(partial string, now time.Time) (bool, error) {
	defer s.locks.lock(strings.TrimSuffix(partial, partialSuffix))()
	info, err := os.Stat(partial)
	if errors.Is(err, fs.ErrNotExist) || err == nil && now.Sub(info.ModTime()) < AbandonedAfter {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	s.synced.set(partial, false)
	return true, s.disk.removeSynced(partial)
}
