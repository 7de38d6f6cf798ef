package journal_test

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
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
		err = pushForEver(dir)
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

// pushForEver pushes one change for each line that it is given and answers with
// the change's id once the push has returned.
func pushForEver(dir string) error {
	ctx := context.Background()
	j, err := journal.Open(ctx, journal.Options{Dir: dir, Now: time.Now})
	if err != nil {
		return err
	}
	fmt.Println("ready")
	by := journal.Writer{Member: "anna", Device: "kitchen"}
	for lines := bufio.NewScanner(os.Stdin); lines.Scan(); {
		changes := observations(1)
		answer, err := j.Push(ctx, home, by, changes)
		if err != nil || len(answer.Applied) != 1 {
			return fmt.Errorf("push: %v, %v", err, answer.Refused)
		}
		fmt.Println("kept", changes[0].Record, answer.Applied[0].Seq)
	}
	return j.Close()
}
