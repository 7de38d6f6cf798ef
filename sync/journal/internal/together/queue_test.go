package together

import (
	"slices"
	"sync"
	"testing"
)

func all[T any](waiting []T) int { return len(waiting) }

// TestServesEachOnceInOrder has one serving wait until others have queued up.
func TestServesEachOnceInOrder(t *testing.T) {
	var q Queue[int]
	var served [][]int
	started, release := make(chan bool), make(chan bool)
	var wait sync.WaitGroup
	serve := func(items []int) {
		if items[0] == 0 {
			started <- true
			<-release
		}
		served = append(served, slices.Clone(items))
	}
	wait.Go(func() { q.Do(0, all, serve) })
	<-started
	for i := 1; i <= 5; i++ {
		wait.Go(func() { q.Do(i, func(waiting []int) int { return min(3, len(waiting)) }, serve) })
		for !queued(&q, i) {
		}
	}
	release <- true
	wait.Wait()
	if len(served) != 3 || !slices.Equal(served[1], []int{1, 2, 3}) || !slices.Equal(served[2], []int{4, 5}) {
		t.Errorf("served %v", served)
	}
}

func queued(q *Queue[int], n int) bool {
	q.mu.Lock()
	defer q.mu.Unlock()
	return len(q.waiting) == n
}

func TestAPanicLeavesTheQueueUsable(t *testing.T) {
	var q Queue[int]
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was swallowed")
			}
		}()
		q.Do(1, all, func([]int) { panic("judging") })
	}()
	served := false
	q.Do(2, all, func([]int) { served = true })
	if !served {
		t.Error("nothing is served after a panic")
	}
}
