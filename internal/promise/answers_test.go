package promise

import (
	"fmt"
	"os"
	"strings"
	"testing"
)

// A watched test keeps what it is told; everything else is the real one's.
type watched struct {
	testing.TB
	said string
}

func (w *watched) Errorf(format string, args ...any) { w.said = fmt.Sprintf(format, args...) }

func TestAnswersAreKeptAndCompared(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.Mkdir("testdata", 0o755); err != nil {
		t.Fatal(err)
	}
	w := &watched{TB: t}
	for _, c := range []struct {
		name, got, want string
		anew            bool
	}{
		{"written anew", "1.5", "", true},
		{"the same", "1.5", "", false},
		{"a digit more", "1.50", "the answers differ from testdata/answers.json; where that is meant, run with -update", false},
	} {
		w.said = ""
		Answers(w, "answers.json", []byte(c.got), c.anew)
		if !strings.HasPrefix(w.said, c.want) || (w.said == "") != (c.want == "") {
			t.Errorf("%s: %q is said, want %q", c.name, w.said, c.want)
		}
	}
}
