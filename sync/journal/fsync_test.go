package journal_test

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestAcknowledgedMeansSynced watches the system calls of a process that pushes:
// between reading each request and writing its acknowledgement, the write-ahead
// log's mapping is synced with msync(MS_SYNC), which on Linux writes the pages
// and waits for the disk as fdatasync does, and the call succeeds.
func TestAcknowledgedMeansSynced(t *testing.T) {
	strace, err := exec.LookPath("strace")
	if err != nil {
		t.Skip("strace is not installed: without it nobody sees the sync")
	}
	dir, trace := t.TempDir(), filepath.Join(t.TempDir(), "trace")
	if err := openHome(t, dir).Close(); err != nil {
		t.Fatal(err)
	}
	// The large pushes fill the first write-ahead log and have a second one begun.
	pushes := []int{1, 1, 1, 500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 1}
	child := childBehind(t, []string{strace, "-f", "-o", trace, "-s", "16", "-e", "trace=openat,mmap,msync,fsync,fdatasync,read,write"}, "answerer", dir)
	askAndWait(t, child, pushes)
	text, err := os.ReadFile(trace)
	if err != nil {
		t.Fatal(err)
	}
	calls := completed(string(text))
	if synced, answered := syncsBeforeAnswers(calls); answered != len(pushes) || synced != answered {
		t.Errorf("%d of %d acknowledgements had a sync of the log before them, %d pushes were made:\n%s", synced, answered, len(pushes), strings.Join(calls, "\n"))
	}
	if begun, unnamed := namesSynced(calls, dir); begun < 2 || unnamed > 0 {
		t.Errorf("%d write-ahead logs were begun, and of %d the name was not synced before the next acknowledgement:\n%s", begun, unnamed, strings.Join(calls, "\n"))
	}
}

// namesSynced counts the write-ahead logs that were begun, and those of them that
// had something acknowledged before the folder itself was synced: a log whose
// name is not on disk is lost with the power.
func namesSynced(calls []string, dir string) (begun, unnamed int) {
	created := regexp.MustCompile(`^openat\(.*\.mem", .*O_CREAT.*= \d+$`)
	folder := regexp.MustCompile(`^openat\(AT_FDCWD, "` + regexp.QuoteMeta(dir) + `", O_RDONLY\|O_CLOEXEC\)\s+= (\d+)$`)
	synced := regexp.MustCompile(`^fsync\((\d+)\)\s+= 0$`)
	open, named := "", true
	for _, call := range calls {
		if created.MatchString(call) {
			begun, open, named = begun+1, "", false
		} else if m := folder.FindStringSubmatch(call); m != nil {
			open = m[1]
		} else if m := synced.FindStringSubmatch(call); m != nil && m[1] == open {
			named = true
		} else if strings.HasPrefix(call, `write(1, "kept `) && !named {
			unnamed, named = unnamed+1, true
		}
	}
	return begun, unnamed
}

// askAndWait has the child push, one push after the other.
func askAndWait(t *testing.T, child *exec.Cmd, pushes []int) {
	ask, err := child.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	answers := bufio.NewScanner(out)
	await := func(lines int) {
		for range lines {
			if !answers.Scan() {
				t.Fatalf("the child stopped: %v", child.Wait())
			}
		}
	}
	await(1) // "ready"
	for _, size := range pushes {
		if _, err := fmt.Fprintln(ask, "push", size); err != nil {
			t.Fatal(err)
		}
		await(size)
	}
	ask.Close()
	for answers.Scan() {
	}
	if err := child.Wait(); err != nil {
		t.Fatal(err)
	}
}

// completed puts the halves of interrupted calls together, at the place where
// the call came back.
func completed(trace string) (calls []string) {
	started := map[string]string{} // by thread
	for line := range strings.Lines(trace) {
		thread, call, _ := strings.Cut(strings.TrimSpace(line), " ")
		call = strings.TrimSpace(call)
		if begin, unfinished := strings.CutSuffix(call, "<unfinished ...>"); unfinished {
			started[thread] = strings.TrimSpace(begin)
			continue
		}
		if strings.HasPrefix(call, "<... ") {
			_, rest, _ := strings.Cut(call, "resumed>")
			call = started[thread] + rest
		}
		calls = append(calls, call)
	}
	return calls
}

// syncsBeforeAnswers counts the acknowledgements, and those of them that had a
// successful sync of the write-ahead log between the request and themselves.
func syncsBeforeAnswers(calls []string) (synced, answered int) {
	opened := regexp.MustCompile(`^openat\(.*\.mem", .*= (\d+)$`)
	mapped := regexp.MustCompile(`^mmap\(NULL, .*MAP_SHARED, (\d+), 0\)\s+= (0x[0-9a-f]+)$`)
	sync := regexp.MustCompile(`^msync\((0x[0-9a-f]+), \d+, MS_SYNC\)\s+= 0$`)
	files, logs, done := map[string]bool{}, map[string]bool{}, false
	for _, call := range calls {
		if strings.HasPrefix(call, "openat(") {
			if _, result, _ := strings.Cut(call, "= "); result != "" {
				delete(files, result) // the number may have been another file's
			}
		}
		if m := opened.FindStringSubmatch(call); m != nil {
			files[m[1]] = true
		} else if m := mapped.FindStringSubmatch(call); m != nil && files[m[1]] {
			logs[m[2]] = true
		} else if m := sync.FindStringSubmatch(call); m != nil && logs[m[1]] {
			done = true
		} else if strings.HasPrefix(call, `read(0, "push `) {
			done = false
		} else if strings.HasPrefix(call, `write(1, "kept `) {
			answered++
			if done {
				synced++
			}
			done = false
		}
	}
	return synced, answered
}

// TestWatchingSyncs sees that the watching itself can fail.
func TestWatchingSyncs(t *testing.T) {
	const opened = `openat(AT_FDCWD, "/data/00001.mem", O_RDWR|O_CREAT|O_CLOEXEC, 0666) = 7`
	const mapped = `mmap(NULL, 16777216, PROT_READ|PROT_WRITE, MAP_SHARED, 7, 0) = 0x7f00`
	const other = `mmap(NULL, 2097152, PROT_READ|PROT_WRITE, MAP_SHARED, 8, 0) = 0x8f00`
	const read, kept = `read(0, "push 1\n", 4096) = 7`, `write(1, "kept observation"..., 60) = 60`
	sync := func(address string, result int) string {
		return fmt.Sprintf("msync(%s, 16777216, MS_SYNC) = %d", address, result)
	}
	for name, c := range map[string]struct {
		calls []string
		want  int
	}{
		"synced in between":     {[]string{opened, mapped, read, sync("0x7f00", 0), kept}, 1},
		"synced before reading": {[]string{opened, mapped, sync("0x7f00", 0), read, kept}, 0},
		"synced afterwards":     {[]string{opened, mapped, read, kept, sync("0x7f00", 0)}, 0},
		"another file synced":   {[]string{opened, mapped, other, read, sync("0x8f00", 0), kept}, 0},
		"failed":                {[]string{opened, mapped, read, sync("0x7f00", -1), kept}, 0},
	} {
		if synced, answered := syncsBeforeAnswers(c.calls); synced != c.want || answered != 1 {
			t.Errorf("%s: %d of %d", name, synced, answered)
		}
	}
}
