package pwa

import (
	"errors"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"testing"
)

// firstDownloadMost is the most that a phone fetches before its first screen, in
// bytes of script and style as compressed here: a few seconds of a poor mobile
// link in a garden, which gives some 50 kB a second.
const firstDownloadMost = 150_000

var (
	namedInPage   = regexp.MustCompile(`(?:src|href)="/([^"]+\.(?:js|css))"`)
	importedThere = regexp.MustCompile("(?:from|import)\\s*[\"'`]\\./([^\"'`]+\\.js)[\"'`]")
)

// TestFirstDownload holds what index.html names, whatever that imports at once, and
// the texts of the longest language to firstDownloadMost: screens that can wait and
// the other languages are fetched later.
func TestFirstDownload(t *testing.T) {
	files, err := Files()
	if errors.Is(err, ErrNotBuilt) {
		t.Skip("the app was not built")
	}
	if err != nil {
		t.Fatal(err)
	}
	first := firstFiles(t, files)
	if len(first) < 3 {
		t.Fatalf("the page, a script and a style at least are fetched first, found only %v", first)
	}
	first = append(first, longestTexts(t, files, first))
	total := 0
	for _, name := range first {
		total += compressedSize(t, files, name)
	}
	if total > firstDownloadMost {
		t.Errorf("the first download weighs %d bytes compressed, at most %d: %v", total, firstDownloadMost, first)
	}
}

// firstFiles are index.html and all that is fetched with it, each once.
func firstFiles(t *testing.T, files fs.FS) []string {
	names := []string{"index.html"}
	seen := map[string]bool{"index.html": true}
	for i := 0; i < len(names); i++ {
		for _, next := range needed(t, files, names[i]) {
			if !seen[next] {
				seen[next] = true
				names = append(names, next)
			}
		}
	}
	return names
}

// longestTexts is the largest of the languages' texts, of which a phone fetches one.
func longestTexts(t *testing.T, files fs.FS, first []string) string {
	t.Helper()
	texts, err := fs.Glob(files, "assets/[a-z][a-z]-*.js")
	if err != nil || len(texts) < 2 {
		t.Fatalf("the texts of each language are a file of their own, found %v, %v", texts, err)
	}
	longest := texts[0]
	for _, name := range texts {
		if slices.Contains(first, name) {
			t.Errorf("%s is fetched whatever the phone's language", name)
		}
		if compressedSize(t, files, name) > compressedSize(t, files, longest) {
			longest = name
		}
	}
	return longest
}

func needed(t *testing.T, files fs.FS, name string) []string {
	t.Helper()
	text, err := fs.ReadFile(files, name)
	if err != nil {
		t.Fatal(err)
	}
	pattern := importedThere
	if name == "index.html" {
		pattern = namedInPage
	}
	var found []string
	for _, match := range pattern.FindAllSubmatch(text, -1) {
		found = append(found, path.Join(path.Dir(name), string(match[1])))
	}
	return found
}

// compressedSize is that of the .br, or of the file itself where compressing gained nothing.
func compressedSize(t *testing.T, files fs.FS, name string) int {
	t.Helper()
	for _, candidate := range []string{name + ".br", name} {
		if info, err := fs.Stat(files, candidate); err == nil {
			return int(info.Size())
		}
	}
	t.Fatalf("%s is not in the app", name)
	return 0
}
