package synctest

import (
	"fmt"
	"sync"
	"testing"

	"haulm/sync/journal"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
	"haulm/sync/journal/local"
	"haulm/sync/journal/memory"
)

func TestLocal(t *testing.T) { Run(t, openLocal) }

func openLocal(t *testing.T) (entry.Log, *fold.Fold) {
	log, err := local.Open(t.TempDir(), nil)
	must(t, err)
	t.Cleanup(func() { must(t, log.Fold().Close()) })
	return log, log.Fold()
}

func TestMemory(t *testing.T) { Run(t, openMemory) }

func openMemory(t *testing.T) (entry.Log, *fold.Fold) {
	fold, err := fold.Open("", nil)
	must(t, err)
	t.Cleanup(func() { must(t, fold.Close()) })
	return &memory.Log{}, fold
}

// TestTwoServersOnOneLog has two journals, each with a fold of its own, write to
// one log at the same time: none of what either acknowledged is lost, and both
// fold to the same.
func TestTwoServersOnOneLog(t *testing.T) {
	log := &memory.Log{}
	clock := newClock()
	var servers []*bench
	for n := range 2 {
		fold, err := fold.Open("", nil)
		must(t, err)
		t.Cleanup(func() { must(t, fold.Close()) })
		servers = append(servers, &bench{Journal: on(t, log, fold, clock), log: log, fold: fold, clock: clock})
		if n == 0 {
			must(t, servers[0].CreateGarden(t.Context(), home))
		}
	}
	var wait sync.WaitGroup
	for n, server := range servers {
		wait.Go(func() {
			by := journal.Writer{Member: "m", Device: fmt.Sprint("phone-", n)}
			for i := range 50 {
				server.push(t, by, written(planting(byte(10+n)), 0, i, "count", fmt.Sprint(i)))
			}
		})
	}
	wait.Wait()
	for n, server := range servers { // a last push makes each read what the other wrote
		server.push(t, anna(), written(planting(byte(20+n)), 0, 1, "count", `1`))
	}
	servers[0].push(t, anna(), written(planting(22), 0, 1, "count", `1`))
	for _, server := range servers {
		must(t, server.fold.CatchUp(t.Context(), home, log))
		for n := range servers {
			if got := server.field(t, planting(byte(10+n)), "count"); got != "49" {
				t.Errorf("server %d's count is %s", n, got)
			}
		}
		sameFromLog(t, server)
	}
}
