package httpapi

import "sync"

// streamsPerDevice is how many event streams one device may hold; a phone
// needs one, and a few tabs of a desk machine one each until the oldest is
// closed for the next.
const streamsPerDevice = 4

// streams knows every open event stream, so that revoking a device and stopping
// the server can end them at once.
type streams struct {
	mu     sync.Mutex // guards open and closed
	open   map[streamOwner][]chan struct{}
	closed bool
}

type streamOwner struct{ garden, device string }

func newStreams() *streams { return &streams{open: map[streamOwner][]chan struct{}{}} }

// add gives the channel whose closing ends a new stream of a device. It is
// closed already when the server is stopping.
func (s *streams) add(owner streamOwner) <-chan struct{} {
	s.mu.Lock()
	defer s.mu.Unlock()
	end := make(chan struct{})
	if s.closed {
		close(end)
		return end
	}
	if held := s.open[owner]; len(held) == streamsPerDevice {
		close(held[0])
		s.open[owner] = held[1:]
	}
	s.open[owner] = append(s.open[owner], end)
	return end
}

// remove forgets a stream that has ended by itself.
func (s *streams) remove(owner streamOwner, end <-chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	held := s.open[owner]
	for i, other := range held {
		if other == end {
			s.open[owner] = append(held[:i:i], held[i+1:]...)
		}
	}
	if len(s.open[owner]) == 0 {
		delete(s.open, owner)
	}
}

// end closes every stream of a device in a garden.
func (s *streams) end(owner streamOwner) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, end := range s.open[owner] {
		close(end)
	}
	delete(s.open, owner)
}

// endAll closes every stream, now and from now on.
func (s *streams) endAll() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed = true
	for _, held := range s.open {
		for _, end := range held {
			close(end)
		}
	}
	s.open = map[streamOwner][]chan struct{}{}
}

// count is how many streams are open.
func (s *streams) count() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	n := 0
	for _, held := range s.open {
		n += len(held)
	}
	return n
}
