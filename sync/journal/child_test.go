package journal_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"haulm/sync/journal"
)

// Some tests need a process of their own, to be killed or watched. The test
// binary runs itself with childRole set.
const (
	childRole = "HAULM_TEST_CHILD"
	childDir  = "HAULM_TEST_DIR"
)

func TestMain(m *testing.M) {
	role, dir := os.Getenv(childRole), os.Getenv(childDir)
	var err error
	switch role {
	case "":
		os.Exit(m.Run())
	case "memory":
		err = measureMemory(dir)
	case "pusher":
		err = pushUntilKilled(dir)
	case "answerer":
		err = pushWhenAsked(dir)
	default:
		err = fmt.Errorf("there is no child role %q", role)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// childCommand runs this test binary in a role, behind a tracer where one is
// given.
func childCommand(t testing.TB, role, dir string, env ...string) *exec.Cmd {
	t.Helper()
	return childBehind(t, nil, role, dir, env...)
}

func childBehind(t testing.TB, tracer []string, role, dir string, env ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	line := append(tracer, self)
	cmd := exec.Command(line[0], line[1:]...)
	cmd.Env = append(append(os.Environ(), childRole+"="+role, childDir+"="+dir), env...)
	cmd.Stderr = os.Stderr
	return cmd
}

// pushUntilKilled pushes from several phones at once, without end, and writes a
// line "kept REF SEQ" for each change once its push has returned.
func pushUntilKilled(dir string) error {
	j, err := journal.Open(context.Background(), journal.Options{Dir: dir, Now: time.Now})
	if err != nil {
		return err
	}
	failed := make(chan error)
	for phone := range 4 {
		go func() {
			for size := 1; ; size = size*3%97 + 1 {
				if err := pushAndTell(j, fmt.Sprint("phone-", phone), size); err != nil {
					failed <- err
					return
				}
			}
		}()
	}
	return <-failed
}

// pushWhenAsked pushes as many changes as each line "push N" asks for.
func pushWhenAsked(dir string) error {
	j, err := journal.Open(context.Background(), journal.Options{Dir: dir, Now: time.Now})
	if err != nil {
		return err
	}
	fmt.Println("ready")
	for lines := bufio.NewScanner(os.Stdin); lines.Scan(); {
		var size int
		if _, err := fmt.Sscanf(lines.Text(), "push %d", &size); err != nil {
			return fmt.Errorf("asked %q: %w", lines.Text(), err)
		}
		if err := pushAndTell(j, "kitchen", size); err != nil {
			return err
		}
	}
	return j.Close()
}

func pushAndTell(j *journal.Journal, device string, size int) error {
	changes := observations(size)
	answer, err := j.Push(context.Background(), home, journal.Writer{Member: "anna", Device: device}, changes)
	if err != nil || len(answer.Applied) != size {
		return fmt.Errorf("push: %w, refused %v", err, answer.Refused)
	}
	var told strings.Builder
	for i, applied := range answer.Applied {
		fmt.Fprintln(&told, "kept", changes[i].Record, applied.Seq)
	}
	_, err = os.Stdout.WriteString(told.String())
	return err
}
