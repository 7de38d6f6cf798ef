//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"haulm/almanac/assess/assesstest"
	"haulm/almanac/verbs"
	"haulm/garden"
	"haulm/server/demo"
)

// inventedGardens is how many gardens the two machines are compared on, besides
// the demo garden.
const inventedGardens = 200

// picturesEach is how many plantings of each garden are drawn besides its
// assessment.
const picturesEach = 2

// A question is one line for node: records to load, then what to ask.
type question struct {
	Records json.RawMessage `json:"records"`
	Ask     []asked         `json:"ask"`
}

type asked struct {
	Verb string          `json:"verb"`
	In   json.RawMessage `json:"in"`
}

// TestPhoneAndServerAgree holds that the almanac compiled to WebAssembly and run
// by a JavaScript engine answers, byte for byte, what it answers natively.
func TestPhoneAndServerAgree(t *testing.T) {
	questions := []question{demoQuestion(t)}
	for seed := range uint64(inventedGardens) {
		questions = append(questions, inventedQuestion(t, seed))
	}
	for _, verb := range verbs.All() {
		if verb.Name == "assess" || verb.Name == "picture" {
			continue // a standing almanac answers these from what it keeps, as above
		}
		questions = append(questions, question{json.RawMessage(`[]`), []asked{{verb.Name, json.RawMessage(verb.Example)}}})
	}
	phone := askPhone(t, questions)
	line := 0
	for n, q := range questions {
		for _, native := range askHere(t, q) {
			if line >= len(phone) {
				t.Fatalf("the phone gave %d answers; question %d has none", len(phone), n)
			}
			if native != phone[line] {
				t.Fatalf("question %d differs at byte %d:\nserver %s\nphone  %s", n, differ(native, phone[line]), around(native, differ(native, phone[line])), around(phone[line], differ(native, phone[line])))
			}
			line++
		}
	}
	if line != len(phone) || line < inventedGardens {
		t.Errorf("compared %d answers of %d", line, len(phone))
	}
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
	q := question{Records: text, Ask: []asked{{"assess", json.RawMessage(fmt.Sprintf(`{"on":%q}`, on))}}}
	for _, record := range records {
		if record.Ref.Kind == garden.PlantingRecord && len(q.Ask) <= picturesEach {
			q.Ask = append(q.Ask, asked{"picture", json.RawMessage(fmt.Sprintf(`{"on":%q,"planting":%q}`, on, record.Ref.ID))})
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
		answer, err := almanac.Ask(ask.Verb, ask.In)
		if err != nil {
			t.Fatalf("%s: %v", ask.Verb, err)
		}
		answers = append(answers, `{"answer":`+strings.TrimSpace(string(answer))+`}`)
	}
	return answers
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
