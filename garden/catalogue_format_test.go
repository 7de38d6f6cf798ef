package garden

import (
	"bytes"
	"encoding/json"
	commandline "flag"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
)

var update = commandline.Bool("update", false, "rewrite golden files, catalogue.json among them, then read the diff")

// A catalogueFile is the file as it is written: fields stay the text they were.
type catalogueFile struct {
	Version int      `json:"version"`
	Source  string   `json:"source"`
	Kinds   []Fields `json:"kinds"`
}

// Gardeners edit catalogue.json by hand, so it has one layout: kinds sorted by
// id, one field a line in the order of the struct, one flush, interest, care or
// caution a line.
func TestCatalogueIsLaidOutForReading(t *testing.T) {
	want := laidOut(t, parsedCatalogue(t))
	if *update {
		if err := os.WriteFile("catalogue.json", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, wanted := strings.Split(catalogueText, "\n"), strings.Split(want, "\n")
	for i := range min(len(got), len(wanted)) {
		if got[i] != wanted[i] {
			t.Fatalf("catalogue.json line %d is\n%s\nwant\n%s\n(go test ./garden -run LaidOut -update rewrites it)", i+1, got[i], wanted[i])
		}
	}
	if len(got) != len(wanted) {
		t.Fatalf("catalogue.json has %d lines, want %d", len(got), len(wanted))
	}
}

func TestLayoutPutsSpacesOutsideTextOnly(t *testing.T) {
	const given = `{"a":["1,2:3","say \"a,b\""],"b":{"c":[0.5,-1]}}`
	const want = `{"a": ["1,2:3", "say \"a,b\""], "b": {"c": [0.5, -1]}}`
	if got := oneLine(t, json.RawMessage(given)); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func parsedCatalogue(t *testing.T) catalogueFile {
	t.Helper()
	var file catalogueFile
	if err := json.Unmarshal([]byte(catalogueText), &file); err != nil {
		t.Fatal(err)
	}
	return file
}

func marshalled(t *testing.T, value any) []byte {
	t.Helper()
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil {
		t.Fatal(err)
	}
	return bytes.TrimSpace(out.Bytes())
}

func laidOut(t *testing.T, file catalogueFile) string {
	slices.SortFunc(file.Kinds, func(a, b Fields) int { return bytes.Compare(a["id"], b["id"]) })
	kinds := make([]string, len(file.Kinds))
	for i, fields := range file.Kinds {
		var lines []string
		for _, name := range kindFieldNames(reflect.TypeFor[Kind]()) {
			lines = append(lines, `      "`+name+`": `+laidOutValue(t, fields[name]))
		}
		kinds[i] = "    {\n" + strings.Join(lines, ",\n") + "\n    }"
	}
	head := `{
  "version": ` + string(marshalled(t, file.Version)) + `,
  "source": ` + string(marshalled(t, file.Source)) + `,
  "kinds": [
`
	return head + strings.Join(kinds, ",\n") + "\n  ]\n}\n"
}

// kindFieldNames gives the JSON names of a struct in its order, embedded structs
// first where they stand.
func kindFieldNames(structure reflect.Type) []string {
	var names []string
	for i := range structure.NumField() {
		if field := structure.Field(i); field.Anonymous {
			names = append(names, kindFieldNames(field.Type)...)
		} else {
			name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
			names = append(names, name)
		}
	}
	return names
}

func laidOutValue(t *testing.T, value json.RawMessage) string {
	var objects []map[string]json.RawMessage
	var items []json.RawMessage
	if json.Unmarshal(value, &objects) != nil || len(objects) == 0 {
		return oneLine(t, value)
	}
	if err := json.Unmarshal(value, &items); err != nil {
		t.Fatal(err)
	}
	lines := make([]string, len(items))
	for i, item := range items {
		lines[i] = "        " + oneLine(t, item)
	}
	return "[\n" + strings.Join(lines, ",\n") + "\n      ]"
}

// oneLine writes a JSON value on one line with a space after each comma and
// colon that stands outside a text.
func oneLine(t *testing.T, value json.RawMessage) string {
	var compact bytes.Buffer
	if err := json.Compact(&compact, value); err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	inText, escaped := false, false
	for _, c := range compact.Bytes() {
		out.WriteByte(c)
		if c == '"' && !escaped {
			inText = !inText
		}
		escaped = c == '\\' && !escaped
		if !inText && (c == ',' || c == ':') {
			out.WriteByte(' ')
		}
	}
	return out.String()
}
