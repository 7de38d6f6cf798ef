package media

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"sync"
)

// A Store keeps media in a folder. Its methods may be called by many goroutines;
// one Store at a time has the folder.
type Store struct {
	disk    *disk
	dir     string
	index   Index
	locks   *keyedLocks
	decoder chan struct{} // holds a token while a picture is being decoded
	buffers sync.Pool     // of *[]byte, each stretchBytes long
	proven  *provenFiles
	synced  *syncedPartials
}

// Options are what Open needs.
type Options struct {
	Dir   string // made when missing; of the Store alone
	Index Index
}

// Open opens the store in a folder.
func Open(o Options) (*Store, error) {
	disk := realDisk()
	if err := disk.makeFolder(o.Dir); err != nil {
		return nil, err
	}
	return &Store{
		disk:    disk,
		dir:     o.Dir,
		index:   o.Index,
		locks:   newKeyedLocks(),
		decoder: make(chan struct{}, decodersAtOnce),
		proven:  newProvenFiles(),
		synced:  newSyncedPartials(),
		buffers: sync.Pool{New: func() any { b := make([]byte, stretchBytes); return &b }},
	}, nil
}

// Small machines have the memory for one decoded photograph, not for several.
const decodersAtOnce = 1

// Facts gives what is known of an original. Where the index has lost it, or
// never got it because the machine stopped between file and index, it is read
// again from the file. Errors: NotHere, Damaged.
func (s *Store) Facts(ctx context.Context, garden string, name Name) (Facts, error) {
	path, err := s.path(garden, name)
	if err != nil {
		return Facts{}, err
	}
	defer s.locks.lock(path)()
	entry, err := s.settledEntry(ctx, garden, name, path)
	if err != nil {
		return Facts{}, err
	}
	return *entry.Facts, nil
}

// settledEntry gives the entry of an original that is on disk, with its facts.
// The caller holds the medium's lock.
func (s *Store) settledEntry(ctx context.Context, garden string, name Name, path string) (Entry, error) {
	if err := s.prove(path, name); err != nil {
		return Entry{}, err
	}
	entry, err := s.entry(ctx, garden, name)
	if err != nil || entry.Facts != nil {
		return entry, err
	}
	facts, err := readFacts(path, name)
	if err != nil {
		return Entry{}, err
	}
	if err := s.disk.syncFolder(filepath.Dir(path)); err != nil {
		return Entry{}, storageProblem(name, "synced", err)
	}
	entry.Facts = &facts
	return entry, s.index.PutEntry(ctx, garden, name, entry)
}

// entry gives the index's entry, the zero Entry where there is none.
func (s *Store) entry(ctx context.Context, garden string, name Name) (Entry, error) {
	entry, err := s.index.Entry(ctx, garden, name)
	if errors.Is(err, NotHere) {
		return Entry{}, nil
	}
	return entry, err
}

// path gives the file of an original; both halves are checked, so it cannot
// leave the store's folder.
func (s *Store) path(garden string, name Name) (string, error) {
	if !safeGarden(garden) {
		return "", &Problem{Code: BadName, Name: name, Text: "a garden's id is letters, digits and hyphens, not " + shown(garden)}
	}
	digits := name.String()
	return filepath.Join(s.dir, garden, digits[:2], digits), nil
}

const longestGardenID = 64 // characters; an id is a UUID of 36

func safeGarden(id string) bool {
	for _, c := range id {
		if !('a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || '0' <= c && c <= '9' || c == '-') {
			return false
		}
	}
	return 0 < len(id) && len(id) <= longestGardenID
}

const partialSuffix = ".part"

func partialPath(original string) string { return original + partialSuffix }

func previewPath(original string, side Side) string {
	return original + "." + strconv.Itoa(int(side)) + ".jpg"
}

func notHere(name Name) *Problem {
	return &Problem{Code: NotHere, Name: name, Err: os.ErrNotExist, Text: "this garden has no photo or memo " + name.String()}
}
