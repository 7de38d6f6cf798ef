package journal

import (
	"sync"

	"haulm/sync/journal/entry"
)

// Watch tells of a garden's new cursors after records changed; private entries
// wake nobody. The channel holds the newest cursor and drops older ones, so a
// slow reader never holds up a writer. It is closed by cancel, which may be
// called more than once, and by Close.
func (j *Journal) Watch(garden string) (cursors <-chan string, cancel func()) {
	watch := make(chan string, 1)
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.closed {
		close(watch)
		return watch, func() {}
	}
	if j.watch[garden] == nil {
		j.watch[garden] = map[chan string]struct{}{}
	}
	j.watch[garden][watch] = struct{}{}
	return watch, sync.OnceFunc(func() { j.unwatch(garden, watch) })
}

func (j *Journal) unwatch(garden string, watch chan string) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if _, open := j.watch[garden][watch]; open {
		delete(j.watch[garden], watch)
		close(watch)
	}
}

// tell gives the newest cursor to all who watch.
func (j *Journal) tell(garden string, head entry.Head) {
	j.mu.Lock()
	defer j.mu.Unlock()
	for watch := range j.watch[garden] {
		select {
		case <-watch: // an older cursor that nobody has read
		default:
		}
		watch <- head.String() // there is room: only tell sends, under the lock
	}
}

func (j *Journal) closeWatches() {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.closed = true
	for garden, watches := range j.watch {
		for watch := range watches {
			close(watch)
		}
		delete(j.watch, garden)
	}
}
