package pwa

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"io/fs"
	"strings"
	"testing"
)

// TestFiles holds what the server relies on: either the app is whole, each
// compressed file being its plain one, or the error says how to build it.
func TestFiles(t *testing.T) {
	files, err := Files()
	if errors.Is(err, ErrNotBuilt) {
		if !strings.Contains(err.Error(), "make build") {
			t.Errorf("the error does not say how to build the app: %v", err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"index.html", "service-worker.js", "catalogue.json", "almanac.wasm", "manifest.webmanifest"} {
		sameCompressed(t, files, name)
	}
}

func sameCompressed(t *testing.T, files fs.FS, name string) {
	t.Helper()
	plain, err := fs.ReadFile(files, name)
	if err != nil {
		t.Error(err)
		return
	}
	if _, err := fs.Stat(files, name+".br"); err != nil {
		t.Error(err)
	}
	packed, err := fs.ReadFile(files, name+".gz")
	if err != nil {
		t.Error(err)
		return
	}
	if got := unpacked(t, packed); !bytes.Equal(got, plain) {
		t.Errorf("%s.gz holds %d bytes that are not those %d of %s", name, len(got), len(plain), name)
	}
}

func unpacked(t *testing.T, packed []byte) []byte {
	t.Helper()
	reader, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := io.ReadAll(reader)
	if err != nil {
		t.Fatal(err)
	}
	return plain
}
