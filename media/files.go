package media

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"
)

const (
	folderMode fs.FileMode = 0o700 // photographs tell where people live: the owner's alone
	fileMode   fs.FileMode = 0o600
)

// makeFolder makes a folder and its missing parents so that they outlive a
// power cut: a new folder's name is on disk only when its parent is synced.
func makeFolder(dir string) error {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil
	}
	if parent := filepath.Dir(dir); parent != dir {
		if err := makeFolder(parent); err != nil {
			return err
		}
	}
	if err := os.Mkdir(dir, folderMode); err != nil && !errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("folder for media: %w", err)
	}
	return syncFolder(filepath.Dir(dir))
}

func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}

// writeWhole puts content under path so that after a crash the path holds all
// of it or what was there before.
func writeWhole(path string, content []byte) error {
	if err := makeFolder(filepath.Dir(path)); err != nil {
		return err
	}
	temporary := path + ".new"
	if err := writeSynced(temporary, content); err != nil {
		return errors.Join(err, os.Remove(temporary))
	}
	return renameSynced(temporary, path)
}

func writeSynced(path string, content []byte) error {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, fileMode)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	return errors.Join(err, f.Sync(), f.Close())
}

func renameSynced(from, to string) error {
	if err := os.Rename(from, to); err != nil {
		return err
	}
	return syncFolder(filepath.Dir(to))
}

func removeSynced(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return syncFolder(filepath.Dir(path))
}

// hashFile gives the name that a file's bytes earn.
func hashFile(path string) (Name, error) {
	f, err := os.Open(path)
	if err != nil {
		return Name{}, err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.CopyBuffer(h, f, make([]byte, hashBuffer)); err != nil {
		return Name{}, err
	}
	return Name(h.Sum(nil)), nil
}

const hashBuffer = 256 << 10 // bytes; larger reads hash no faster

// provenFiles remembers which originals this process has read whole and found
// to be what their names say, and in which state they were then.
type provenFiles struct {
	mu   sync.Mutex // guards seen
	seen map[string]fileState
}

type fileState struct {
	size    int64
	changed time.Time
}

// mostProven bounds the memory: at about 200 bytes each, 2 MB. Past it the
// process forgets and proves again.
const mostProven = 10_000

func newProvenFiles() *provenFiles { return &provenFiles{seen: map[string]fileState{}} }

func stateOf(info fs.FileInfo) fileState { return fileState{info.Size(), info.ModTime()} }

func (p *provenFiles) has(path string, state fileState) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	seen, ok := p.seen[path]
	return ok && seen.size == state.size && seen.changed.Equal(state.changed)
}

func (p *provenFiles) add(path string, state fileState) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if len(p.seen) >= mostProven {
		clear(p.seen)
	}
	p.seen[path] = state
}

func (p *provenFiles) forget(path string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	delete(p.seen, path)
}
