package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// may says, for each layer, which of our own packages it may import and which
// outside libraries are its alone. A layer is a package path's longest prefix
// in this table.
var may = map[string][]string{
	"haulm/garden":        {},
	"haulm/almanac":       {"haulm/garden", "haulm/almanac"},
	"haulm/sync/change":   {"haulm/garden", "haulm/sync/change"},
	"haulm/sync/journal":  {"haulm/garden", "haulm/sync", badger},
	"haulm/sync/synctest": {"haulm/garden", "haulm/sync"},
	"haulm/media":         {"haulm/garden", "haulm/media", badger},
	"haulm/pwa":           {"haulm/garden", "haulm/almanac"},
	"haulm/server":        {"haulm/garden", "haulm/almanac", "haulm/sync", "haulm/media", "haulm/pwa", "haulm/server", fiber},
	"haulm/internal":      {"haulm/garden"},
}

// testSupport is what only tests import, whatever the layer.
const testSupport = "haulm/internal"

const (
	badger = "github.com/dgraph-io/badger"
	fiber  = "github.com/gofiber/fiber"
)

// The almanac runs on the phone and must give the same answer twice: it reads
// no file, no network, no clock, and starts no other thread of work.
var almanacNever = []string{"os", "net", "net/http", "math/rand", "math/rand/v2", "sync", "context", "syscall", "time/tzdata"}

// mayDraw are the packages that invent gardens, or inputs for tests, from a seed
// that they are given.
var mayDraw = []string{"haulm/almanac/simulate", "haulm/almanac/assess/assesstest", "haulm/almanac/verbs/verbstest"}

// neverCalled are the functions of packages otherwise allowed that ask the
// machine what time it is, where it stands, or for chance that no seed repeats.
var neverCalled = map[string][]string{
	"time": {"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker", "LoadLocation", "Local"},
	"rand": {"Int", "IntN", "Int32", "Int32N", "Int64", "Int64N", "Uint32", "Uint64", "Uint64N", "N", "Float32", "Float64",
		"NormFloat64", "ExpFloat64", "Perm", "Shuffle"},
}

func TestLayersPointOneWay(t *testing.T) {
	for pkg, imports := range imports(t) {
		layer := layerOf(pkg)
		if layer == "" {
			t.Errorf("%s belongs to no layer; the map of the house needs a line for it", pkg)
			continue
		}
		for _, imported := range imports {
			guarded := strings.HasPrefix(imported, "haulm/") || strings.HasPrefix(imported, badger) || strings.HasPrefix(imported, fiber)
			if guarded && !within(imported, may[layer]) {
				t.Errorf("%s imports %s, which %s may not", pkg, imported, layer)
			}
			if within(imported, []string{testSupport}) {
				t.Errorf("%s imports %s outside its tests, and it is for tests alone", pkg, imported)
			}
		}
	}
}

func TestAlmanacIsPure(t *testing.T) {
	for pkg, imports := range imports(t) {
		if !within(pkg, []string{"haulm/almanac", "haulm/garden"}) {
			continue
		}
		for _, imported := range imports {
			drawing := imported == "math/rand/v2" && within(pkg, mayDraw)
			if slices.Contains(almanacNever, imported) && !drawing {
				t.Errorf("%s imports %s", pkg, imported)
			}
		}
	}
}

// Where a test of the imports is too coarse, the sources are read.
func TestAlmanacAsksNoClockAndStartsNoThread(t *testing.T) {
	read := 0
	for _, root := range []string{"../almanac", "../garden"} {
		err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			read++
			fset := token.NewFileSet()
			file, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(node ast.Node) bool {
				if wrong := impure(node); wrong != "" {
					t.Errorf("%s: %s", fset.Position(node.Pos()), wrong)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if read < 50 {
		t.Errorf("only %d files were read", read)
	}
}

// impure says what a piece of source does that the almanac never does; "" for
// what it may do.
func impure(node ast.Node) string {
	switch n := node.(type) {
	case *ast.GoStmt:
		return "starts a goroutine"
	case *ast.ChanType:
		return "uses a channel"
	case *ast.SelectorExpr:
		if pkg, named := n.X.(*ast.Ident); named && slices.Contains(neverCalled[pkg.Name], n.Sel.Name) {
			return "asks for " + pkg.Name + "." + n.Sel.Name
		}
	}
	return ""
}

func layerOf(pkg string) string {
	longest := ""
	for layer := range may {
		if within(pkg, []string{layer}) && len(layer) > len(longest) {
			longest = layer
		}
	}
	return longest
}

func within(pkg string, roots []string) bool {
	for _, root := range roots {
		if pkg == root || strings.HasPrefix(pkg, root+"/") {
			return true
		}
	}
	return false
}

// imports gives every package of the module with what it imports outside its
// tests; the phone's WebAssembly is listed under its own system.
func imports(t *testing.T) map[string][]string {
	t.Helper()
	found := map[string][]string{}
	for _, target := range [][]string{{"GOOS=linux"}, {"GOOS=js", "GOARCH=wasm"}} {
		list := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "haulm/...")
		list.Env = append(list.Environ(), target...)
		out, err := list.Output()
		if err != nil {
			t.Fatalf("go list: %v", err)
		}
		for line := range strings.Lines(string(out)) {
			if words := strings.Fields(line); len(words) > 0 {
				found[words[0]] = words[1:]
			}
		}
	}
	if len(found) < 10 {
		t.Fatalf("only %d packages were found", len(found))
	}
	return found
}
