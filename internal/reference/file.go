package reference

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// JSON reads a file of testdata/reference into what is pointed at.
func JSON(t testing.TB, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(path(t, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// path gives where a file of testdata/reference lies. A test runs in the folder
// of its package, so the module's root is the first folder upwards with a go.mod.
func path(t testing.TB, name string) string {
	t.Helper()
	folder, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(folder, "go.mod")); err == nil {
			return filepath.Join(folder, "testdata", "reference", name)
		}
		above := filepath.Dir(folder)
		if above == folder {
			t.Fatalf("%s: no folder from here upwards has a go.mod, beside which testdata/reference lies: run the test where its source is", name)
		}
		folder = above
	}
}
