package promise

import (
	"encoding/json"
	"testing"
)

// Fuzz holds that a verb on whatever JSON neither panics nor gives what JSON
// cannot hold (no NaN, no infinity); the first seed gets an answer, the others an
// error.
func Fuzz[In, Out any](f *testing.F, verb func(In) (Out, error), seeds ...string) {
	f.Helper()
	if len(seeds) == 0 {
		f.Fatal("there is no seed that gets an answer")
	}
	for i, seed := range seeds {
		var in In
		if err := json.Unmarshal([]byte(seed), &in); err != nil {
			f.Fatal(err)
		}
		if _, err := verb(in); (err == nil) != (i == 0) {
			f.Fatalf("%s: %v", seed, err)
		}
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var in In
		if json.Unmarshal(text, &in) != nil {
			return
		}
		out, err := verb(in)
		if err != nil {
			return
		}
		if _, err := json.Marshal(out); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	})
}
