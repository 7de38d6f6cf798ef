package main

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
)

// childFlag makes the test binary be haulm, so that a real process can be
// killed.
const childFlag = "HAULM_TEST_BE_HAULM"

func TestMain(m *testing.M) {
	if os.Getenv(childFlag) != "" {
		os.Unsetenv(childFlag)
		main()
	}
	os.Exit(m.Run())
}

// startChild runs the server as a process of its own.
func startChild(t testing.TB, dir string, flags ...string) (*testServer, *exec.Cmd) {
	t.Helper()
	child := exec.Command(os.Args[0], append([]string{"serve", "--data", dir, "--listen", "localhost:0"}, flags...)...)
	child.Env = append(os.Environ(), childFlag+"=1")
	s := &testServer{dir: dir, log: &lockedBuffer{}}
	child.Stderr = s.log
	said, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	s.stop = func() int {
		child.Process.Signal(syscall.SIGTERM)
		child.Wait()
		return child.ProcessState.ExitCode()
	}
	t.Cleanup(func() { child.Process.Kill(); child.Wait() })
	s.listenTo(t, said)
	return s, child
}

func kill(t testing.TB, child *exec.Cmd) {
	t.Helper()
	if err := child.Process.Signal(syscall.SIGKILL); err != nil {
		t.Fatal(err)
	}
	child.Wait()
}

func TestKilledServerKeepsWhatItAcknowledged(t *testing.T) {
	dir := t.TempDir()
	s, child := startChild(t, dir)
	ann := joins(t, s.url, s.join, "Ann")
	photo := picture(t, 800, 600, 9)
	noted := map[string]string{}
	sent := 0
	const rounds = 4
	for round := range rounds {
		ref, note := newRef("observation"), fmt.Sprintf("round %d", round)
		if got := ann.sync("", newChange(ref, map[string]any{"note": note})); len(got.Applied) != 1 {
			t.Fatalf("%+v", got)
		}
		noted[ref] = note
		next := len(photo) * (round + 1) / rounds
		ann.piece(photo, sent, next).mustBe(http.StatusNoContent)
		sent = next

		kill(t, child)
		s, child = startChild(t, dir)
		if s.join != "" {
			t.Fatal("the garden lost its keeper")
		}
		ann.base = s.url
		mustHold(t, ann.pull("").Records, noted)
		told := ann.send(http.MethodHead, ann.medium(photo), nil).header.Get("Upload-Offset")
		if told != fmt.Sprint(sent) {
			t.Fatalf("after round %d the offset is %s, want %d", round, told, sent)
		}
	}
	if got := ann.send(http.MethodGet, ann.medium(photo), nil).mustBe(http.StatusOK); !bytes.Equal(got.body, photo) {
		t.Error("the photo came back as other bytes")
	}
}

func mustHold(t testing.TB, records []feedRecord, noted map[string]string) {
	t.Helper()
	found := 0
	for _, r := range records {
		if note, known := noted[r.Record]; known && string(r.Fields["note"]) == `"`+note+`"` {
			found++
		}
	}
	if found != len(noted) {
		t.Fatalf("%d of %d acknowledged notes are there", found, len(noted))
	}
}

func TestKilledInTheMidstOfPushesNothingAcknowledgedIsLost(t *testing.T) {
	dir := t.TempDir()
	s, child := startChild(t, dir)
	ann := joins(t, s.url, s.join, "Ann")
	acknowledged := make(chan string, 10_000)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() {
		defer close(done)
		for ctx.Err() == nil {
			one := newChange(newRef("observation"), map[string]any{"note": "x"})
			body := strings.NewReader(mustJSON(map[string]any{"changes": []testChange{one}, "limit": 1}))
			request, _ := http.NewRequest(http.MethodPost, ann.base+ann.of("/sync"), body)
			request.Header = ann.header
			answer, err := ann.http.Do(request)
			if err != nil {
				return
			}
			answer.Body.Close()
			if answer.StatusCode == http.StatusOK {
				acknowledged <- one.Record
			}
		}
	}()
	first := <-acknowledged
	kill(t, child)
	cancel()
	<-done
	close(acknowledged)
	noted := map[string]string{first: "x"}
	for ref := range acknowledged {
		noted[ref] = "x"
	}
	s, _ = startChild(t, dir)
	ann.base = s.url
	mustHold(t, ann.pullAll(), noted)
}

func TestTerminatedServerStopsCleanly(t *testing.T) {
	s, _ := startChild(t, t.TempDir())
	ann := joins(t, s.url, s.join, "Ann")
	stream := ann.listen()
	stream.cursor()
	s.mustStopCleanly(t)
	stream.mustEnd()
}
