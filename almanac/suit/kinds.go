package suit

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"haulm/garden"
)

// A candidate is a kind to choose from.
type candidate struct {
	kind   garden.Kind
	absent []string // fields that a whole kind leaves out and whose 0 means something
	fit    float64
	flower calendar
}

func (c candidate) lacks(field string) bool { return slices.Contains(c.absent, field) }

// cautions are the codes, each once.
func (c candidate) cautions() []string {
	codes := []string{}
	for _, caution := range c.kind.Cautions {
		codes = append(codes, caution.Code)
	}
	slices.Sort(codes)
	return slices.Compact(codes)
}

// candidates reads the kinds of the input, sorted by id.
func (in Input) candidates(catalogue []garden.Kind) ([]candidate, error) {
	if in.Kinds == nil {
		return candidatesOf(catalogue), nil
	}
	kinds := make([]candidate, 0, len(in.Kinds))
	for i, raw := range in.Kinds {
		c, err := readKind(catalogue, raw)
		if err != nil {
			return nil, fmt.Errorf("kinds[%d]: %w", i, err)
		}
		kinds = append(kinds, c)
	}
	slices.SortStableFunc(kinds, func(a, b candidate) int { return strings.Compare(a.kind.ID, b.kind.ID) })
	for i := 1; i < len(kinds); i++ {
		if id := kinds[i].kind.ID; id == kinds[i-1].kind.ID {
			return nil, fmt.Errorf("kinds has %q twice: give each once", id)
		}
	}
	return kinds, nil
}

func candidatesOf(catalogue []garden.Kind) []candidate {
	kinds := make([]candidate, len(catalogue))
	for i, kind := range catalogue {
		kinds[i].kind = kind
	}
	return kinds
}

// readKind reads a slug or a whole kind.
func readKind(catalogue []garden.Kind, raw json.RawMessage) (candidate, error) {
	if bytes.HasPrefix(bytes.TrimSpace(raw), []byte(`"`)) {
		var slug string
		if err := json.Unmarshal(raw, &slug); err != nil {
			return candidate{}, err
		}
		kind, known := inCatalogue(catalogue, slug)
		if !known {
			return candidate{}, fmt.Errorf("%q is not in the catalogue: give its slug, or the whole kind", slug)
		}
		return candidate{kind: kind}, nil
	}
	return wholeKind(raw)
}

// wholeKind reads a kind by the rules of a kind record; a field that no kind has
// is a misspelling.
func wholeKind(raw json.RawMessage) (candidate, error) {
	var fields garden.Fields
	if err := json.Unmarshal(raw, &fields); err != nil || fields == nil {
		return candidate{}, fmt.Errorf("a kind is its slug or an object")
	}
	var id string
	if err := json.Unmarshal(fields["id"], &id); err != nil || id == "" {
		return candidate{}, fmt.Errorf(`field "id" is missing: give the kind any name of its own`)
	}
	if err := strictly(raw); err != nil {
		return candidate{}, fmt.Errorf("%s: %w", id, err)
	}
	var c candidate
	record := garden.Record{Ref: garden.Ref{Kind: garden.KindRecord, ID: id}, Fields: fields}
	if err := garden.Decode(record, &c.kind); err != nil {
		return candidate{}, fmt.Errorf("%s: %w", id, err)
	}
	if value, there := fields["minWinterC"]; !there || string(value) == "null" {
		c.absent = append(c.absent, "minWinterC")
	}
	return c, nil
}

// strictly refuses a field that no kind has.
func strictly(raw json.RawMessage) error {
	decoder := json.NewDecoder(bytes.NewReader(raw))
	decoder.DisallowUnknownFields()
	if name, unknown := strings.CutPrefix(fmt.Sprint(decoder.Decode(&garden.Kind{})), "json: unknown field "); unknown {
		return fmt.Errorf("field %s is not known in a kind", name)
	}
	return nil
}

func inCatalogue(catalogue []garden.Kind, slug string) (garden.Kind, bool) {
	i, found := slices.BinarySearchFunc(catalogue, slug, func(k garden.Kind, slug string) int { return strings.Compare(k.ID, slug) })
	if !found {
		return garden.Kind{}, false
	}
	return catalogue[i], true
}
