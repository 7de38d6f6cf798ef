package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// Whoever starts a verb without an input sits before a waiting cursor; a line on
// the other stream says what for.
func TestAlmanacTellsAPersonWhatItWaitsFor(t *testing.T) {
	keys, screen := terminalPair(t)
	if _, err := keys.WriteString("{\"x\":[1,2,3],\"y\":[3,5,7]}\n\x04"); err != nil { // Ctrl-D
		t.Fatal(err)
	}
	var answer, said bytes.Buffer
	code := Run(t.Context(), []string{"almanac", "theil-sen"}, screen, &answer, &said)
	if code != exitDone || answer.String() != "{\"slope\":2,\"intercept\":1}\n" {
		t.Errorf("exit %d: %s", code, answer.String())
	}
	if !strings.Contains(said.String(), "Ctrl-D") || !strings.Contains(said.String(), "theil-sen --help") {
		t.Errorf("it says %q", said.String())
	}
}

// terminalPair gives the two ends of a terminal: where keys are pressed, and
// what a program has for standard input.
func terminalPair(t *testing.T) (keys, screen *os.File) {
	t.Helper()
	keys, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no terminals here: %v", err)
	}
	t.Cleanup(func() { keys.Close() })
	if err := unix.IoctlSetPointerInt(int(keys.Fd()), unix.TIOCSPTLCK, 0); err != nil {
		t.Fatal(err)
	}
	number, err := unix.IoctlGetInt(int(keys.Fd()), unix.TIOCGPTN)
	if err != nil {
		t.Fatal(err)
	}
	screen, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { screen.Close() })
	return keys, screen
}
