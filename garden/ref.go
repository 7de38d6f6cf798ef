package garden

import (
	"fmt"
	"strings"
)

// A RecordKind is the first half of a record's reference.
type RecordKind string

// The kinds of record, in the order in which a reader meets them.
const (
	GardenRecord      RecordKind = "garden"
	BedRecord         RecordKind = "bed"
	StructureRecord   RecordKind = "structure"
	KindRecord        RecordKind = "kind"
	PlantingRecord    RecordKind = "planting"
	ObservationRecord RecordKind = "observation"
	WorkRecord        RecordKind = "work"
	TaskRecord        RecordKind = "task"
	WeatherRecord     RecordKind = "weather"
	DecisionRecord    RecordKind = "decision"
	DismissalRecord   RecordKind = "dismissal"
)

// RecordKinds lists every kind of record, in a fixed order.
func RecordKinds() []RecordKind {
	return []RecordKind{GardenRecord, BedRecord, StructureRecord, KindRecord, PlantingRecord,
		ObservationRecord, WorkRecord, TaskRecord, WeatherRecord, DecisionRecord, DismissalRecord}
}

// A Ref names one record, as "kind/id". The zero Ref names none.
type Ref struct {
	Kind RecordKind
	ID   string
}

// MaxIDBytes bounds the id in a Ref. The longest derived id is a task's work,
// "work/task/{uuid}.{rule}.{day}", well under it.
const MaxIDBytes = 160

var idBound = fmt.Sprintf("an id of 1 to %d letters, digits and -._/", MaxIDBytes)

// ParseRef reads "kind/id". The kind must be one of RecordKinds; the id is 1 to
// MaxIDBytes bytes of letters, digits and "-._/", so that it is safe as a key,
// in a path and in a file name listing.
func ParseRef(text string) (Ref, error) {
	kind, id, found := strings.Cut(text, "/")
	if !found {
		return Ref{}, problem("invalid_record", "record", text, `"kind/id", such as "planting/0192…"`)
	}
	if _, known := schemas[RecordKind(kind)]; !known {
		return Ref{}, problem("unknown_kind", "record", kind, "one of "+kindList())
	}
	if !validID(id) {
		return Ref{}, problem("invalid_record", "record", text, idBound)
	}
	return Ref{RecordKind(kind), id}, nil
}

// String gives "kind/id".
func (r Ref) String() string { return string(r.Kind) + "/" + r.ID }

// MarshalText and UnmarshalText make a Ref its text in JSON, as value or key.
func (r Ref) MarshalText() ([]byte, error) { return []byte(r.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (r *Ref) UnmarshalText(text []byte) error {
	parsed, err := ParseRef(string(text))
	if err == nil {
		*r = parsed
	}
	return err
}

// validID allows segments of letters, digits and "-._" between single slashes;
// one that is empty or "." or holds ".." could name another place in a path.
func validID(id string) bool {
	if len(id) > MaxIDBytes {
		return false
	}
	for segment := range strings.SplitSeq(id, "/") {
		plain := strings.Trim(segment, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-._") == ""
		if !plain || segment == "" || segment == "." || strings.Contains(segment, "..") {
			return false
		}
	}
	return true
}

func kindList() string {
	names := make([]string, 0, len(schemas))
	for _, kind := range RecordKinds() {
		names = append(names, string(kind))
	}
	return strings.Join(names, ", ")
}
