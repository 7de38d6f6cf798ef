package verbs_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"haulm/almanac/assess/assesstest"
	"haulm/almanac/verbs"
	"haulm/almanac/verbs/verbstest"
)

var update = flag.Bool("update", false, "write the answers anew; read the difference before committing it")

// A golden is one question with its answer.
type golden struct {
	Verb   string `json:"verb"`
	In     string `json:"in"`
	Answer string `json:"answer"`
}

// goldenEach is how many varied questions of each verb are kept besides its seeds.
const goldenEach = 6

// longestKept is how many bytes an answer has that is kept: longer ones nobody
// would read the difference of.
const longestKept = 12_000

// The answers of every verb, byte for byte: a change of a model shows as a
// difference here, and WebAssembly and arm64 must give the same
// (GOOS=js GOARCH=wasm go test, make test-arm64).
func TestAnswersAreTheSameToTheByteOnEveryMachine(t *testing.T) {
	path := filepath.Join("testdata", "answers.jsonl")
	if *update {
		if err := os.WriteFile(path, newGoldens(t), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	asked := map[string]int{}
	for line := range bytes.Lines(kept) {
		var was golden
		if err := json.Unmarshal(line, &was); err != nil {
			t.Fatal(err)
		}
		asked[was.Verb]++
		now, err := verbs.Run(was.Verb, []byte(was.In))
		if err != nil || string(now) != was.Answer {
			t.Errorf("%s to %.200s\nanswers %s (%v)\nand did %s\nwhere that is meant, run with -update and read the difference", was.Verb, was.In, now, err, was.Answer)
		}
	}
	for _, verb := range verbs.All() {
		if asked[verb.Name] < 2 {
			t.Errorf("%s has %d answers in %s", verb.Name, asked[verb.Name], path)
		}
	}
}

func newGoldens(t *testing.T) []byte {
	t.Helper()
	var lines bytes.Buffer
	for _, verb := range verbs.All() {
		inputs := append(verbstest.Seeds(verb), verbstest.Varied(verb, goldenEach)...)
		if verb.Name == "assess" || verb.Name == "worth" {
			inputs = append(inputs, inventedQuestion(t))
		}
		for _, in := range inputs {
			answer, err := verbs.Run(verb.Name, in)
			if err != nil {
				t.Fatal(err)
			}
			if len(answer) > longestKept {
				continue
			}
			line, err := json.Marshal(golden{verb.Name, string(in), string(answer)})
			if err != nil {
				t.Fatal(err)
			}
			lines.Write(append(line, '\n'))
		}
	}
	return lines.Bytes()
}

func inventedQuestion(t *testing.T) []byte {
	t.Helper()
	shape := assesstest.Shape{Seed: 3, Plantings: 8, Years: 2, LastYear: 2015, LookEvery: 20}
	records, err := assesstest.Invent(shape)
	if err != nil {
		t.Fatal(err)
	}
	question, err := json.Marshal(map[string]any{"on": shape.Today(), "records": records})
	if err != nil {
		t.Fatal(err)
	}
	return question
}
