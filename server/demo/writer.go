package demo

import (
	"encoding/json"
	"fmt"

	"haulm/garden"
)

// A writer gathers records, each field checked. After the first error it gathers
// no more.
type writer struct {
	records []garden.Record
	err     error
}

// put writes one record; fields that are nil are left out.
func (w *writer) put(kind garden.RecordKind, id string, fields map[string]any) {
	raw := garden.Fields{}
	for name, value := range fields {
		if value == nil || w.err != nil {
			continue
		}
		text, err := json.Marshal(value)
		if err == nil {
			err = garden.Check(kind, name, text)
		}
		if err != nil {
			w.err = fmt.Errorf("demo garden: %s/%s: %s: %w", kind, id, name, err)
			return
		}
		raw[name] = text
	}
	ref, err := garden.ParseRef(string(kind) + "/" + id)
	if err != nil && w.err == nil {
		w.err = fmt.Errorf("demo garden: %w", err)
	}
	w.records = append(w.records, garden.Record{Ref: ref, Fields: raw})
}
