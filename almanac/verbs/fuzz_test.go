package verbs_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"haulm/almanac/verbs"
	"haulm/almanac/verbs/verbstest"
)

// largestFuzzed bounds inputs that are changed, so that many are tried; large
// ones are measured in BenchmarkVerbWorst.
const largestFuzzed = 20_000

// FuzzVerb holds that no input makes a verb panic or answer with anything but
// JSON of finite numbers, and that what it refuses it refuses in a sentence.
// With chance 0 the input is taken as it is, else changed in a few places.
func FuzzVerb(f *testing.F) {
	seeds := 0
	for _, verb := range verbs.All() {
		for _, seed := range verbstest.Seeds(verb) {
			for chance := range uint64(60) {
				f.Add(verb.Name, seed, chance)
				seeds++
			}
		}
	}
	if seeds < 60*9 {
		f.Fatalf("only %d seeds", seeds)
	}
	f.Add("assess", []byte(`{"on":"2015-07-10","records":[{"record":"planting/p","fields":{"kind":"iris-sibirica"}},{"record":"observation/o","fields":{"planting":"p","seen":"0001-01-01T00:00:00Z","stage":65}}]}`), uint64(0))
	f.Fuzz(func(t *testing.T, name string, in []byte, chance uint64) {
		if _, err := verbs.Named(name); err != nil {
			return
		}
		if chance > 0 {
			in = verbstest.Wild(in, chance, largestFuzzed)
		}
		out, err := verbs.Run(name, in)
		if err != nil {
			checkSentence(t, name, in, err.Error())
			return
		}
		var answer any
		if err := json.Unmarshal(out, &answer); err != nil {
			t.Fatalf("%s answers %q to %s: %v", name, out, in, err)
		}
		if !allFinite(answer) {
			t.Errorf("%s answers %s to %s", name, out, in)
		}
	})
}

// checkSentence holds that an error names the verb and then says something, and
// is not the encoder's word for a number that JSON has not.
func checkSentence(t *testing.T, name string, in []byte, said string) {
	t.Helper()
	rest, named := strings.CutPrefix(said, name+": ")
	if !named || len(strings.Fields(rest)) < 3 {
		t.Errorf("%s refuses %s with %q", name, in, said)
	}
	for _, never := range []string{"json:", "unsupported value", "cannot be written", "NaN", "Inf"} {
		if strings.Contains(rest, never) && !strings.Contains(string(in), never) {
			t.Errorf("%s says %q of %s", name, said, in)
		}
	}
}

func allFinite(value any) bool {
	switch v := value.(type) {
	case float64:
		return !math.IsInf(v, 0) && !math.IsNaN(v)
	case []any:
		for _, one := range v {
			if !allFinite(one) {
				return false
			}
		}
	case map[string]any:
		for _, one := range v {
			if !allFinite(one) {
				return false
			}
		}
	}
	return true
}
