//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"haulm/almanac/assess/assesstest"
	"haulm/almanac/verbs"
	"haulm/almanac/verbs/verbstest"
	"haulm/garden"
	"haulm/server/demo"
)

// inventedGardens is how many gardens the two machines are compared on, besides
// the demo garden.
const inventedGardens = 200

// picturesEach is how many plantings of each garden are drawn besides its
// assessment.
const picturesEach = 2

// Of each verb that needs no records the two machines are compared on its seeds,
// on variedEach inputs that it answers and on wildEach that it mostly refuses.
const (
	variedEach   = 50
	wildEach     = 20
	largestAsked = 5000 // bytes
)

// A question is one line for node: records to load, then what to ask.
type question struct {
	Records json.RawMessage `json:"records"`
	Ask     []asked         `json:"ask"`
	refused bool            // some may be
}

type asked struct {
	Verb string `json:"verb"`
	In   string `json:"in"` // the text as it is, be it JSON or not
}

// TestPhoneAndServerAgree holds that the almanac compiled to WebAssembly and run
// by a JavaScript engine answers, byte for byte, what it answers natively.
func TestPhoneAndServerAgree(t *testing.T) {
	questions := []question{demoQuestion(t)}
	for seed := range uint64(inventedGardens) {
		questions = append(questions, inventedQuestion(t, seed))
	}
	for _, verb := range verbs.All() {
		questions = append(questions, verbQuestion(t, verb))
	}
	phone := askPhone(t, questions)
	line, answered := 0, 0
	for n, q := range questions {
		for _, native := range askHere(t, q) {
			if line >= len(phone) {
				t.Fatalf("the phone gave %d answers; question %d has none", len(phone), n)
			}
			if native != phone[line] {
				t.Fatalf("question %d differs at byte %d:\nserver %s\nphone  %s", n, differ(native, phone[line]), around(native, differ(native, phone[line])), around(phone[line], differ(native, phone[line])))
			}
			if line++; strings.HasPrefix(native, `{"answer":`) {
				answered++
			}
		}
	}
	if line != len(phone) || answered < inventedGardens+(len(verbs.All())-3)*variedEach {
		t.Errorf("compared %d lines of %d, of which %d are answers", line, len(phone), answered)
	}
}

// verbQuestion asks one verb in many ways. A standing almanac answers assess, worth
// and picture from what it keeps, as above, and refuses records here.
func verbQuestion(t *testing.T, verb verbs.Verb) question {
	t.Helper()
	inputs := verbstest.Seeds(verb)
	if !slices.Contains([]string{"assess", "worth", "picture"}, verb.Name) {
		varied := verbstest.Varied(verb, variedEach)
		if len(varied) < variedEach {
			t.Errorf("%s: only %d inputs that it answers", verb.Name, len(varied))
		}
		inputs = append(inputs, varied...)
	}
	for chance := range uint64(wildEach) {
		inputs = append(inputs, verbstest.Wild(inputs[0], chance+1, largestAsked))
	}
	q := question{Records: json.RawMessage(`[]`), refused: true}
	for _, in := range inputs {
		q.Ask = append(q.Ask, asked{verb.Name, string(in)})
	}
	return q
}

func demoQuestion(t *testing.T) question {
	t.Helper()
	records, err := demo.Records()
	if err != nil {
		t.Fatal(err)
	}
	return questionOf(t, records, demo.Today())
}

func inventedQuestion(t *testing.T, seed uint64) question {
	t.Helper()
	shape := assesstest.Shape{Seed: seed, Plantings: 4 + int(seed%9), Years: 1 + int(seed%4), LastYear: 2015}
	records, err := assesstest.Invent(shape)
	if err != nil {
		t.Fatal(err)
	}
	return questionOf(t, records, shape.Today())
}

func questionOf(t *testing.T, records []garden.Record, on garden.Day) question {
	t.Helper()
	text, err := json.Marshal(records)
	if err != nil {
		t.Fatal(err)
	}
	q := question{Records: text, Ask: []asked{{"assess", fmt.Sprintf(`{"on":%q}`, on)}, {"worth", fmt.Sprintf(`{"on":%q}`, on)}}}
	for _, record := range records {
		if record.Ref.Kind == garden.PlantingRecord && len(q.Ask) < 2+picturesEach {
			q.Ask = append(q.Ask, asked{"picture", fmt.Sprintf(`{"on":%q,"planting":%q}`, on, record.Ref.ID)})
		}
	}
	return q
}

func askHere(t *testing.T, q question) []string {
	t.Helper()
	almanac, err := verbs.NewStanding()
	if err != nil {
		t.Fatal(err)
	}
	loaded, err := almanac.Upsert(q.Records)
	if err != nil {
		t.Fatal(err)
	}
	answers := []string{`{"answer":` + strings.TrimSpace(string(loaded)) + `}`}
	for _, ask := range q.Ask {
		answer, err := almanac.Ask(ask.Verb, []byte(ask.In))
		if err != nil && !q.refused {
			t.Fatalf("%s: %v", ask.Verb, err)
		}
		if err != nil {
			answers = append(answers, refusal(t, err))
			continue
		}
		answers = append(answers, `{"answer":`+strings.TrimSpace(string(answer))+`}`)
	}
	return answers
}

// refusal is an error as the phone's almanac gives it.
func refusal(t *testing.T, err error) string {
	t.Helper()
	said, err := json.Marshal(map[string]string{"error": err.Error()})
	if err != nil {
		t.Fatal(err)
	}
	return string(said)
}

// askPhone runs the questions in node with the program's own WebAssembly, each
// garden in the same standing almanac after the one before was forgotten.
func askPhone(t *testing.T, questions []question) []string {
	t.Helper()
	loader, wasm := phoneAlmanac(t)
	var lines bytes.Buffer
	for _, q := range questions {
		text, err := json.Marshal(q)
		if err != nil {
			t.Fatal(err)
		}
		lines.Write(append(text, '\n'))
	}
	node := exec.Command("node", "testdata/ask.cjs", loader, wasm)
	node.Stdin = &lines
	node.Stderr = os.Stderr
	out, err := node.Output()
	if err != nil {
		t.Fatalf("node: %v", err)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
}

// phoneAlmanac builds the almanac for the phone and gives the paths of Go's
// loader and of what was built.
func phoneAlmanac(t testing.TB) (loader, wasm string) {
	t.Helper()
	wasm = filepath.Join(t.TempDir(), "almanac.wasm")
	build := exec.Command("go", "build", "-o", wasm, ".")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("building the almanac for the phone: %v\n%s", err, out)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	return filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"), wasm
}

func differ(a, b string) int {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return i
		}
	}
	return min(len(a), len(b))
}

func around(s string, at int) string { return s[max(0, at-120):min(len(s), at+120)] }
