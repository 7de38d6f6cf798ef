package main

import (
	"bytes"
	"flag"
	"fmt"
	"go/ast"
	"go/format"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write docs/constants.md anew; read the difference before committing it")

const constantsPage = "../docs/constants.md"

const constantsHead = `# The numbers that are chosen

Every numeric constant of the almanac, package by package, with its reason as the source states it. **s** marks a reason that names its source, an
author, a body or a standard; **c** one that is common practice of the trade; without a mark it is our own choice, to be held against the skill table,
or a matter of units. Written by ` + "`go test ./server -run Constants -update`" + ` from the sources, which are what counts.
`

// TestConstantsStandInOneTable holds that every numeric constant of the almanac
// has a reason beside it, and that docs/constants.md shows them as they are.
func TestConstantsStandInOneTable(t *testing.T) {
	var page bytes.Buffer
	page.WriteString(constantsHead)
	count := 0
	for _, folder := range almanacFolders(t) {
		chosen := constantsOf(t, folder)
		count += len(chosen)
		writeConstants(&page, strings.TrimPrefix(folder, "../"), chosen)
	}
	if count < 100 {
		t.Errorf("only %d constants were found", count)
	}
	if *update {
		if err := os.WriteFile(constantsPage, page.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(constantsPage)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(kept, page.Bytes()) {
		t.Errorf("%s is not what the sources say; run go test ./server -run Constants -update, read the difference and commit it", constantsPage)
	}
}

// almanacFolders are the packages of the almanac, by path, but for those that
// only tests use.
func almanacFolders(t *testing.T) []string {
	t.Helper()
	var folders []string
	err := filepath.WalkDir("../almanac", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.IsDir() {
			return err
		}
		if entry.Name() == "testdata" || strings.HasSuffix(entry.Name(), "test") {
			return fs.SkipDir
		}
		folders = append(folders, filepath.ToSlash(path))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return folders
}

// A chosenConstant is one line of the table.
type chosenConstant struct{ names, value, reason string }

// constantsOf lists a package's numeric constants, by file and in the order
// written.
func constantsOf(t *testing.T, folder string) []chosenConstant {
	t.Helper()
	files, err := filepath.Glob(folder + "/*.go")
	if err != nil {
		t.Fatal(err)
	}
	var chosen []chosenConstant
	for _, path := range files {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		fset := token.NewFileSet()
		file, err := parser.ParseFile(fset, path, nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		for _, decl := range file.Decls {
			if group, ok := decl.(*ast.GenDecl); ok && group.Tok == token.CONST {
				chosen = append(chosen, constantsIn(t, fset, group)...)
			}
		}
	}
	return chosen
}

// constantsIn lists the numeric constants of one declaration. A line without a
// comment of its own goes with the lines right above it.
func constantsIn(t *testing.T, fset *token.FileSet, group *ast.GenDecl) []chosenConstant {
	t.Helper()
	var chosen []chosenConstant
	reason, lastLine := "", 0
	for _, one := range group.Specs {
		spec, ok := one.(*ast.ValueSpec)
		if !ok {
			continue
		}
		own := strings.TrimSpace(wordsOf(spec.Doc) + " " + wordsOf(spec.Comment))
		switch line := fset.Position(spec.Pos()).Line; {
		case own != "":
			reason = own
		case line != lastLine+1:
			reason = wordsOf(group.Doc)
		}
		lastLine = fset.Position(spec.End()).Line
		names, values := namesOf(spec), valuesOf(t, fset, spec)
		if values == "" {
			continue
		}
		if reason == "" {
			t.Errorf("%s: %s has no reason beside it", fset.Position(spec.Pos()), names)
		}
		chosen = append(chosen, chosenConstant{names, values, reason})
	}
	return chosen
}

func wordsOf(comment *ast.CommentGroup) string {
	return strings.Join(strings.Fields(comment.Text()), " ")
}

func namesOf(spec *ast.ValueSpec) string {
	names := make([]string, len(spec.Names))
	for i, name := range spec.Names {
		names[i] = name.Name
	}
	return strings.Join(names, ", ")
}

// valuesOf gives the values of a line as written; "" when none is a number.
func valuesOf(t *testing.T, fset *token.FileSet, spec *ast.ValueSpec) string {
	t.Helper()
	var values []string
	numeric := false
	for _, value := range spec.Values {
		var text bytes.Buffer
		if err := format.Node(&text, fset, value); err != nil {
			t.Fatal(err)
		}
		values = append(values, strings.Join(strings.Fields(text.String()), " "))
		ast.Inspect(value, func(node ast.Node) bool {
			literal, ok := node.(*ast.BasicLit)
			numeric = numeric || ok && (literal.Kind == token.INT || literal.Kind == token.FLOAT)
			return true
		})
	}
	if !numeric {
		return ""
	}
	return strings.Join(values, ", ")
}

func writeConstants(page *bytes.Buffer, folder string, chosen []chosenConstant) {
	if len(chosen) == 0 {
		return
	}
	fmt.Fprintf(page, "\n## %s\n\n| name | value | | reason |\n|---|---|---|---|\n", folder)
	reason := ""
	for _, one := range chosen {
		said := one.reason
		if said == reason {
			said = "as above"
		}
		reason = one.reason
		fmt.Fprintf(page, "| %s | %s | %s | %s |\n", one.names, cell(one.value), sourceMark(one.reason), cell(said))
	}
}

func cell(text string) string { return strings.ReplaceAll(text, "|", `\|`) }

// source finds an author or body with a year, as "(Hopkins A.D. 1918, …".
var source = regexp.MustCompile(`[A-Z][A-Za-z.&]+[^;:]{0,40}\b(1[89]|20)\d\d\b|FAO|NREL|WMO|RFC \d`)

func sourceMark(reason string) string {
	switch {
	case source.MatchString(reason):
		return "**s**"
	case strings.Contains(strings.ToLower(reason), "common practice"):
		return "**c**"
	}
	return ""
}
