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

// A disk does what must outlive a power cut. Its one part, sync, is what a test
// can watch and make fail.
type disk struct {
	sync func(*os.File) error

	mu      sync.Mutex // guards settled
	settled map[string]bool
}

func realDisk() *disk { return &disk{sync: (*os.File).Sync, settled: map[string]bool{}} }

// ownFolder makes a garden's folder for files, {store}/{garden}/{two digits}, and
// is sure that it is on disk: one that is already there may have been made by a
// process that was stopped before it could sync it.
func (d *disk) ownFolder(dir string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.settled[dir] {
		return nil
	}
	if err := d.makeFolder(dir); err != nil {
		return err
	}
	garden := filepath.Dir(dir)
	if err := errors.Join(d.syncFolder(garden), d.syncFolder(filepath.Dir(garden))); err != nil {
		return err
	}
	d.settled[dir] = true
	return nil
}

// makeFolder makes a folder and its missing parents so that they outlive a
// power cut: a new folder's name is on disk only when its parent is synced.
func (d *disk) makeFolder(dir string) error {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil
	}
	if parent := filepath.Dir(dir); parent != dir {
		if err := d.makeFolder(parent); err != nil {
			return err
		}
	}
	if err := os.Mkdir(dir, folderMode); err != nil && !errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("folder for media: %w", err)
	}
	return d.syncFolder(filepath.Dir(dir))
}

func (d *disk) syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return d.sync(f)
}

// writeWhole puts content under path so that after a crash the path holds all
// of it or what was there before.
func (d *disk) writeWhole(path string, content []byte) error {
	if err := d.ownFolder(filepath.Dir(path)); err != nil {
		return err
	}
	temporary := path + ".new"
	if err := d.writeSynced(temporary, content); err != nil {
		return errors.Join(err, os.Remove(temporary))
	}
	return d.renameSynced(temporary, path)
}

func (d *disk) writeSynced(path string, content []byte) error {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, fileMode)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	return errors.Join(err, d.sync(f), f.Close())
}

func (d *disk) renameSynced(from, to string) error {
	if err := os.Rename(from, to); err != nil {
		return err
	}
	return d.syncFolder(filepath.Dir(to))
}

func (d *disk) syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(d.sync(f), f.Close())
}

func (d *disk) removeSynced(path string) error {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return d.syncFolder(filepath.Dir(path))
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
