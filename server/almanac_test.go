package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"haulm/almanac/verbs"
)

func TestAlmanacReadsAndAnswers(t *testing.T) {
	code, out := commandWith(t, `{"x":[1,2,3],"y":[3,5,7]}`, "almanac", "theil-sen")
	if code != 0 || strings.TrimSpace(out) != `{"slope":2,"intercept":1}` {
		t.Errorf("exit %d: %s", code, out)
	}
}

func TestAlmanacHelpListsEveryVerb(t *testing.T) {
	code, out := command(t, "almanac", "--help")
	if code != exitDone {
		t.Errorf("exit %d", code)
	}
	for _, verb := range verbs.All() {
		if !strings.Contains(out, "  "+verb.Name+" ") || !strings.Contains(out, verb.Says) {
			t.Errorf("%s is not among them:\n%s", verb.Name, out)
		}
	}
}

// The example that a verb's help shows is run as a shell would run it, and gives
// the answer shown.
func TestAlmanacHelpCanBePasted(t *testing.T) {
	for _, verb := range verbs.All() {
		t.Run(verb.Name, func(t *testing.T) {
			code, out := command(t, "almanac", verb.Name, "--help")
			if code != exitDone {
				t.Fatalf("exit %d: %s", code, out)
			}
			_, after, _ := strings.Cut(out, "\necho '")
			in, after, _ := strings.Cut(after, "'")
			rest, pasted := strings.CutPrefix(after, " | haulm almanac "+verb.Name+"\n")
			if !pasted {
				t.Fatalf("nothing to paste in\n%s", out)
			}
			code, answer := commandWith(t, in+"\n", "almanac", verb.Name)
			shown, _, cut := strings.Cut(strings.TrimPrefix(rest, "\nIt answers:\n\n"), "…\n\nand so on")
			whole := strings.HasPrefix(shown, answer)
			if code != exitDone || !json.Valid([]byte(answer)) || !whole && !(cut && len(shown) >= 1500 && strings.HasPrefix(answer, shown)) {
				t.Errorf("exit %d: %s\nthe help says\n%s", code, answer, rest)
			}
			if len(out) > 6000 {
				t.Errorf("the help takes %d characters: it should fit on two screens", len(out))
			}
			for _, field := range verb.Fields() {
				if !strings.Contains(out, field.Path) || !strings.Contains(out, field.Says) {
					t.Errorf("the help does not explain %s", field.Path)
				}
			}
		})
	}
}

func TestAlmanacGivesAnExampleToBeginFrom(t *testing.T) {
	code, example := command(t, "almanac", "tie", "--example")
	if code != exitDone {
		t.Fatalf("exit %d: %s", code, example)
	}
	if code, out := commandWith(t, example, "almanac", "tie"); code != exitDone {
		t.Errorf("exit %d: %s", code, out)
	}
}

func TestAlmanacExitCodes(t *testing.T) {
	cases := []struct {
		name, in string
		args     []string
		code     int
		says     string
	}{
		{"no verb", "", []string{"almanac"}, exitUsage, "haulm almanac --help"},
		{"an unknown verb", "{}", []string{"almanac", "guess"}, exitUsage, `"guess"`},
		{"help of an unknown verb", "", []string{"almanac", "guess", "--help"}, exitUsage, `"guess"`},
		{"an example of an unknown verb", "", []string{"almanac", "guess", "--example"}, exitUsage, `"guess"`},
		{"two verbs", "{}", []string{"almanac", "tie", "growth"}, exitUsage, "growth"},
		{"nothing on standard input", "", []string{"almanac", "tie"}, exitFailed, "it is empty"},
		{"a wrong field", `{"x":[1,2],"y":[1,2],"z":1}`, []string{"almanac", "theil-sen"}, exitFailed, `field "z" is not known here; haulm almanac theil-sen --help`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			code, out := commandWith(t, c.in, c.args...)
			if code != c.code || !strings.Contains(out, c.says) {
				t.Errorf("exit %d, want %d with %q: %s", code, c.code, c.says, out)
			}
		})
	}
}

// unreadable is a standard input that fails.
type unreadable struct{}

func (unreadable) Read([]byte) (int, error) { return 0, os.ErrClosed }

func TestAlmanacSaysThatStandardInputFailed(t *testing.T) {
	var said strings.Builder
	code := Run(t.Context(), []string{"almanac", "tie"}, unreadable{}, &said, &said)
	if code != exitFailed || !strings.Contains(said.String(), "standard input could not be read") {
		t.Errorf("exit %d: %s", code, said.String())
	}
}
