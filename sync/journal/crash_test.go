package journal_test

import (
	"bufio"
	"fmt"
	"testing"

	"haulm/garden"
	"haulm/sync/journal"
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
	j := open(t, dir)
	defer j.Close()
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
