// Package together serves calls that come at the same time in one go, as a
// group commit does: whoever has the turn serves all who wait, and they find
// themselves served.
package together

import "sync"

// A Queue serves items in the order in which Do was called. The zero Queue is
// ready. It is for concurrent use.
type Queue[T any] struct {
	mu      sync.Mutex // guards waiting
	waiting []*place[T]

	turn sync.Mutex // held while serving; guards each place's served
}

type place[T any] struct {
	item   T
	served bool
}

// Do returns when item has been served, by this call or by another. take says
// how many of the waiting items, at least one of them, go in one serving. Only
// one serving is under way at a time. A serving that panics counts as one, for
// the others who were in it.
func (q *Queue[T]) Do(item T, take func(waiting []T) int, serve func([]T)) {
	mine := &place[T]{item: item}
	q.mu.Lock()
	q.waiting = append(q.waiting, mine)
	q.mu.Unlock()

	q.turn.Lock()
	defer q.turn.Unlock()
	for !mine.served {
		q.next(take, serve)
	}
}

func (q *Queue[T]) next(take func([]T) int, serve func([]T)) {
	q.mu.Lock()
	items := make([]T, len(q.waiting))
	for i, p := range q.waiting {
		items[i] = p.item
	}
	n := max(1, min(take(items), len(items)))
	places := q.waiting[:n:n]
	q.waiting = q.waiting[n:]
	q.mu.Unlock()

	for _, p := range places {
		p.served = true // nobody looks before the turn ends
	}
	serve(items[:n])
}
