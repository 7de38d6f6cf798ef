package media

import "sync"

// keyedLocks gives each key a lock of its own, for as long as somebody wants it.
type keyedLocks struct {
	mu   sync.Mutex // guards held and every users count
	held map[string]*keyedLock
}

type keyedLock struct {
	mu    sync.Mutex
	users int
}

func newKeyedLocks() *keyedLocks { return &keyedLocks{held: map[string]*keyedLock{}} }

// lock waits for the key's lock and gives the function that releases it.
func (k *keyedLocks) lock(key string) (unlock func()) {
	k.mu.Lock()
	l := k.held[key]
	if l == nil {
		l = &keyedLock{}
		k.held[key] = l
	}
	l.users++
	k.mu.Unlock()
	l.mu.Lock()
	return func() { k.release(key, l) }
}

func (k *keyedLocks) release(key string, l *keyedLock) {
	l.mu.Unlock()
	k.mu.Lock()
	defer k.mu.Unlock()
	l.users--
	if l.users == 0 {
		delete(k.held, key)
	}
}

// syncedPartials remembers which partial files this process has synced to disk
// after their last write, so that their size may be told as safe.
type syncedPartials struct {
	mu    sync.Mutex // guards paths
	paths map[string]bool
}

func newSyncedPartials() *syncedPartials { return &syncedPartials{paths: map[string]bool{}} }

func (s *syncedPartials) has(path string) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.paths[path]
}

func (s *syncedPartials) set(path string, synced bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if synced {
		s.paths[path] = true
	} else {
		delete(s.paths, path)
	}
}
