package assess

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"

	"haulm/garden"
)

// A book holds a garden's records decoded, each kind under its id.
type book struct {
	catalogue  map[string]garden.Kind
	written    map[string]garden.Fields // the catalogue's kinds as fields
	gardens    map[string]garden.Garden // one, unless the input is odd
	first      *garden.Garden           // of them, once asked for; nil when stale
	beds       map[string]garden.Bed
	kinds      map[string]garden.Kind // the garden's own and its overrides
	anyCold    map[string]bool        // of them, those of which nobody said what cold they stand
	plantings  map[string]garden.Planting
	looks      looks
	works      map[string]garden.Work
	tasks      map[string]garden.Task
	dismissals map[string]garden.Dismissal
	structures map[string]garden.Structure
	sky        sky
	skipped    map[garden.Ref]string
	lifeNews   int // counts what has changed that bears on coming up; see life.go
}

func newBook(kinds []garden.Kind) (book, error) {
	b := book{
		catalogue:  make(map[string]garden.Kind, len(kinds)),
		written:    make(map[string]garden.Fields, len(kinds)),
		gardens:    map[string]garden.Garden{},
		beds:       map[string]garden.Bed{},
		kinds:      map[string]garden.Kind{},
		anyCold:    map[string]bool{},
		plantings:  map[string]garden.Planting{},
		looks:      newLooks(),
		works:      map[string]garden.Work{},
		tasks:      map[string]garden.Task{},
		dismissals: map[string]garden.Dismissal{},
		structures: map[string]garden.Structure{},
		sky:        newSky(),
		skipped:    map[garden.Ref]string{},
	}
	for _, kind := range kinds {
		fields, err := fieldsOf(kind)
		if err != nil {
			return book{}, err
		}
		b.catalogue[kind.ID], b.written[kind.ID] = kind, fields
	}
	return b, nil
}

func fieldsOf(kind garden.Kind) (garden.Fields, error) {
	text, err := json.Marshal(kind)
	if err != nil {
		return nil, err
	}
	var fields garden.Fields
	return fields, json.Unmarshal(text, &fields)
}

// put decodes one record into its place, or names it as skipped.
func (b *book) put(record garden.Record) {
	b.drop(record.Ref)
	if err := b.decode(record); err != nil {
		b.skipped[record.Ref] = err.Error()
	}
}

func (b *book) decode(record garden.Record) error {
	switch record.Ref.Kind {
	case garden.GardenRecord:
		return keep(b.gardens, record, &garden.Garden{})
	case garden.BedRecord:
		return keep(b.beds, record, &garden.Bed{})
	case garden.KindRecord:
		record.Fields = over(b.written[record.Ref.ID], record.Fields)
		b.anyCold[record.Ref.ID] = absent(record.Fields, "minWinterC")
		return keep(b.kinds, record, &garden.Kind{})
	case garden.PlantingRecord:
		return keep(b.plantings, record, &garden.Planting{})
	case garden.ObservationRecord:
		var o garden.Observation
		if err := garden.Decode(record, &o); err != nil {
			return err
		}
		day, err := o.Day()
		if err != nil {
			return err
		}
		s := &seen{o, day}
		b.looks.add(s)
		b.lifeChanged(saysLife(s))
		return nil
	case garden.WorkRecord:
		return keep(b.works, record, &garden.Work{})
	case garden.TaskRecord:
		return keep(b.tasks, record, &garden.Task{})
	case garden.WeatherRecord:
		var w garden.Weather
		if err := garden.Decode(record, &w); err != nil {
			return err
		}
		b.sky.add(w)
		return nil
	case garden.StructureRecord:
		return keep(b.structures, record, &garden.Structure{})
	case garden.DismissalRecord:
		return keep(b.dismissals, record, &garden.Dismissal{})
	}
	return nil // decisions say nothing about how a plant does
}

// decoded is what garden.Decode reads into.
type decoded[T any] interface {
	*T
	garden.Decodable
}

func keep[T any, P decoded[T]](into map[string]T, record garden.Record, value P) error {
	if err := garden.Decode(record, value); err != nil {
		return err
	}
	into[record.Ref.ID] = *value
	return nil
}

// over lays a garden's own fields over the catalogue's, each whole: half a list
// of flushes is no list. A cleared field is the catalogue's again.
func over(catalogue, own garden.Fields) garden.Fields {
	fields := maps.Clone(catalogue)
	if fields == nil {
		return own
	}
	for name, value := range own {
		if !absent(own, name) {
			fields[name] = value
		}
	}
	return fields
}

// absent tells whether a field is not given: once decoded it is 0.
func absent(fields garden.Fields, name string) bool {
	value, there := fields[name]
	return !there || string(value) == "null"
}

func (b *book) drop(ref garden.Ref) {
	id := ref.ID
	delete(b.skipped, ref)
	b.lifeChanged(ref.Kind == garden.GardenRecord || ref.Kind == garden.KindRecord || ref.Kind == garden.PlantingRecord || ref.Kind == garden.WeatherRecord)
	switch ref.Kind {
	case garden.GardenRecord:
		delete(b.gardens, id)
		b.first = nil
	case garden.BedRecord:
		delete(b.beds, id)
	case garden.KindRecord:
		delete(b.kinds, id)
		delete(b.anyCold, id)
	case garden.PlantingRecord:
		delete(b.plantings, id)
	case garden.ObservationRecord:
		b.lifeChanged(saysLife(b.looks.byID[id]))
		b.looks.remove(id)
	case garden.WorkRecord:
		delete(b.works, id)
	case garden.TaskRecord:
		delete(b.tasks, id)
	case garden.WeatherRecord:
		b.sky.remove(id)
	case garden.StructureRecord:
		delete(b.structures, id)
	case garden.DismissalRecord:
		delete(b.dismissals, id)
	}
}

// garden gives the garden's own record, the first by id when there are several.
func (b *book) garden() garden.Garden {
	if b.first == nil {
		b.first = &garden.Garden{}
		if ids := sortedKeys(b.gardens); len(ids) > 0 {
			*b.first = b.gardens[ids[0]]
		}
	}
	return *b.first
}

// kind gives a planting's kind: the garden's own word first, then the
// catalogue's.
func (b *book) kind(id string) (garden.Kind, bool) {
	if own, there := b.kinds[id]; there {
		return own, true
	}
	kind, there := b.catalogue[id]
	return kind, there
}

// round lists the plantings in walking order: by bed, then along the plan, then
// by id.
func (b *book) round() []garden.Planting {
	list := make([]garden.Planting, 0, len(b.plantings))
	for _, id := range sortedKeys(b.plantings) {
		list = append(list, b.plantings[id])
	}
	slices.SortStableFunc(list, func(p, q garden.Planting) int {
		return cmp.Or(cmp.Compare(b.beds[p.Bed].Order, b.beds[q.Bed].Order), cmp.Compare(p.Bed, q.Bed),
			cmp.Compare(along(p), along(q)), cmp.Compare(p.ID, q.ID))
	})
	return list
}

// along is how far east a planting stands, which is the order in which a bed is
// walked.
func along(p garden.Planting) float64 {
	if p.At == nil {
		return 0
	}
	return p.At[0]
}

func sortedKeys[T any](m map[string]T) []string { return slices.Sorted(maps.Keys(m)) }
