package synctest

import (
	"testing"

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
