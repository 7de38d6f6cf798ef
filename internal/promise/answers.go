package promise

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// Answers holds answers to those kept in the test's testdata folder, byte for
// byte: a change of a model shows as a difference there, and WebAssembly and arm64
// must give the same (GOOS=js GOARCH=wasm go test, GOARCH=arm64 go test). With
// anew, which is the test's -update, they are written first.
func Answers(t testing.TB, name string, got []byte, anew bool) {
	t.Helper()
	kept := filepath.Join("testdata", name)
	if anew {
		if err := os.WriteFile(kept, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(kept)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the answers differ from %s; where that is meant, run with -update and read the difference", kept)
	}
}
