package journal_test

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"haulm/garden"
	"haulm/sync/journal"
	"haulm/sync/journal/entry"
)

// TestKilledAnywhereLosesNothingAcknowledged kills a process with kill -9 while
// it pushes from four phones, several times over one folder, each time after
// another number of acknowledgements, and finds everything acknowledged again.
func TestKilledAnywhereLosesNothingAcknowledged(t *testing.T) {
	dir := t.TempDir()
	if err := openHome(t, dir).Close(); err != nil {
		t.Fatal(err)
	}
	acknowledged := map[garden.Ref]uint64{}
	for _, after := range []int{1, 500, 37, 4000, 900} {
		killAfter(t, dir, after, acknowledged)
		checkAcknowledged(t, dir, acknowledged)
	}
}

func killAfter(t *testing.T, dir string, lines int, acknowledged map[garden.Ref]uint64) {
	child := childCommand(t, "pusher", dir)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	killed := false
	for scanner := bufio.NewScanner(out); scanner.Scan(); lines-- {
		var text string
		var seq uint64
		if _, err := fmt.Sscanf(scanner.Text(), "kept %s %d", &text, &seq); err != nil {
			break // the kill cut the line
		}
		ref, err := garden.ParseRef(text)
		if err != nil {
			t.Fatal(err)
		}
		acknowledged[ref] = seq
		if lines <= 1 && !killed {
			killed = true
			if err := child.Process.Kill(); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := child.Wait(); !killed {
		t.Fatalf("the child ended by itself: %v", err)
	}
}

func checkAcknowledged(t *testing.T, dir string, acknowledged map[garden.Ref]uint64) {
	t.Helper()
	epoch := epochOf(t, dir)
	j := open(t, dir)
	defer j.Close()
	if cursor, err := j.Cursor(t.Context(), home); err != nil || !strings.HasPrefix(cursor, epoch+".") {
		t.Fatalf("a kill alone started a new epoch: %s, %v", cursor, err)
	}
	for ref, seq := range acknowledged {
		record, err := j.Get(t.Context(), home, ref)
		if err != nil || record.State.Seq != seq || string(record.State.Value("stage")) != "61" {
			t.Fatalf("%s, acknowledged at %d: %+v, %v", ref, seq, record.State, err)
		}
	}
	report, err := j.Verify(t.Context(), nil)
	if err != nil || len(report.Damage) > 0 {
		t.Fatalf("after the kill: %v, %v", report.Damage, err)
	}
	if _, err := j.Push(t.Context(), home, journal.Writer{Member: "anna", Device: "kitchen"}, observations(1)); err != nil {
		t.Fatalf("after the kill: %v", err)
	}
}

// TestADamagedWriteAheadLogIsNoticed spoils one byte in the middle of the log of
// a killed process. Badger then drops what comes after it and says nothing; the
// journal says so, and starts a new epoch, in which phones of the old one start
// the feed again.
func TestADamagedWriteAheadLogIsNoticed(t *testing.T) {
	dir := t.TempDir()
	if err := openHome(t, dir).Close(); err != nil {
		t.Fatal(err)
	}
	acknowledged := map[garden.Ref]uint64{}
	killAfter(t, dir, 200, acknowledged)
	last := uint64(0)
	for _, seq := range acknowledged {
		last = max(last, seq)
	}
	old := epochOf(t, dir)
	spoilLog(t, dir)
	var said strings.Builder
	j, err := journal.Open(t.Context(), journal.Options{Dir: dir, Now: time.Now, Logger: slog.New(slog.NewTextHandler(&said, nil))})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if !strings.Contains(said.String(), "acknowledged writes are lost") {
		t.Errorf("nothing is said of the loss: %q", said.String())
	}
	var other *journal.EpochError
	if err := j.Check(t.Context(), home, entry.Head{Epoch: old, Seq: last}.String()); !errors.As(err, &other) {
		t.Fatalf("a phone that had read all goes on: %v", err)
	}
	if other.Parent != old || other.Fork >= last || other.Now.Epoch == old {
		t.Errorf("%+v, where the last acknowledged sequence was %d", other, last)
	}
}

// epochOf reads the garden's epoch from a copy of the folder, so that the
// write-ahead log stays as the kill left it.
func epochOf(t *testing.T, dir string) string {
	clone := t.TempDir()
	if err := os.CopyFS(clone, os.DirFS(dir)); err != nil {
		t.Fatal(err)
	}
	j := open(t, clone)
	defer j.Close()
	cursor, err := j.Cursor(t.Context(), home)
	if err != nil {
		t.Fatal(err)
	}
	epoch, _, _ := strings.Cut(cursor, ".")
	return epoch
}

func spoilLog(t *testing.T, dir string) {
	logs, err := filepath.Glob(filepath.Join(dir, "*.mem"))
	if err != nil || len(logs) == 0 {
		t.Fatal(logs, err)
	}
	name := logs[len(logs)-1]
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	end := len(bytes.TrimRight(text, "\x00"))
	text[end/2] ^= 0xff
	if err := os.WriteFile(name, text, 0o600); err != nil {
		t.Fatal(err)
	}
}
