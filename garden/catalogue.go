package garden

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
)

//go:embed catalogue.json
var catalogueText string

// Catalogue gives the kinds that ship with Haulm, sorted by their ids, and the
// version of the file. The values are typical ones for the reference site
// (51.5° N, 50 m, maritime temperate), from general horticultural knowledge;
// catalogue.json says so itself. Each call parses the file afresh, so that
// nobody can change another's kinds: keep the answer.
func Catalogue() (kinds []Kind, version int, err error) {
	return ParseCatalogue([]byte(catalogueText))
}

// ParseCatalogue reads a catalogue: an object with "version" (1 and up),
// "source" (a sentence on where the values come from) and "kinds", each an id
// and every field of a kind record. Only emerges may be null. The error names
// the kind and the field; a *Problem is wrapped in it where a value was wrong.
func ParseCatalogue(text []byte) (kinds []Kind, version int, err error) {
	var file struct {
		Version int               `json:"version"`
		Source  string            `json:"source"`
		Kinds   []json.RawMessage `json:"kinds"`
	}
	if err := strictly(text, &file); err != nil {
		return nil, 0, fmt.Errorf("catalogue: %w", err)
	}
	if file.Version < 1 || file.Source == "" {
		return nil, 0, fmt.Errorf("catalogue: version must be 1 or more and source a sentence")
	}
	for i, raw := range file.Kinds {
		kind, err := parseCatalogueKind(raw)
		if err != nil {
			return nil, 0, fmt.Errorf("catalogue: kind %s: %w", nameInError(kind.ID, i), err)
		}
		kinds = append(kinds, kind)
	}
	slices.SortFunc(kinds, func(a, b Kind) int { return strings.Compare(a.ID, b.ID) })
	for i := 1; i < len(kinds); i++ {
		if kinds[i].ID == kinds[i-1].ID {
			return nil, 0, fmt.Errorf("catalogue: kind %s: written twice", kinds[i].ID)
		}
	}
	return kinds, file.Version, nil
}

// parseCatalogueKind reads one kind; with an error it still gives the id, where
// there is one, for the message.
func parseCatalogueKind(raw json.RawMessage) (Kind, error) {
	var fields Fields
	if err := json.Unmarshal(raw, &fields); err != nil {
		return Kind{}, err
	}
	var kind Kind
	if err := json.Unmarshal(fields["id"], &kind.ID); err != nil || !validSlug(kind.ID) {
		return kind, problem("invalid_id", "id", string(fields["id"]), "a slug of small letters, digits and single hyphens, such as rosa-glauca")
	}
	delete(fields, "id")
	if err := checkComplete(fields); err != nil {
		return kind, err
	}
	return kind, strictly(raw, &kind)
}

// checkComplete judges every field that a kind record has, in a fixed order,
// and asks for those that are not there.
func checkComplete(fields Fields) error {
	for _, field := range slices.Sorted(maps.Keys(schemas[KindRecord])) {
		value, there := fields[field]
		if !there || string(value) == "null" && field != "emerges" {
			return fmt.Errorf("%s is missing", field)
		}
		if err := Check(KindRecord, field, value); err != nil {
			return err
		}
	}
	return nil
}

// strictly decodes one JSON value and refuses fields that nothing reads, which
// in a file kept by hand are misspellings.
func strictly(text []byte, into any) error {
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	return decoder.Decode(into)
}

// validSlug allows "rosa-glauca": it is an id for good, in records, paths and
// file names.
func validSlug(slug string) bool {
	for _, word := range strings.Split(slug, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

func nameInError(id string, index int) string {
	if id == "" {
		return fmt.Sprintf("number %d", index+1)
	}
	return id
}
