package change

import (
	"encoding/json"
	"maps"

	"haulm/garden"
)

// A Pending is a change that a phone holds beside its copy of the record, and
// what it knows of the change's fate.
type Pending struct {
	Change  Change
	Seq     uint64 // the sequence it was applied at; 0: not yet known
	Refused bool   // kept for the person to mend, and no longer shown on top
}

// Overlay is what a phone shows of a record: the server's copy (nil: none) with
// the phone's own changes on top, in the order written. A sent change stays on
// top until the feed has passed its sequence, so that an edit never flickers.
// shown is false for a record that is gone or has nothing to show.
func Overlay(server *Record, pending []Pending, passed uint64) (fields garden.Fields, shown bool) {
	gone, exists := false, server != nil
	fields = garden.Fields{}
	if exists {
		fields, gone = server.State.Known(), server.State.Gone.Value
	}
	for _, p := range pending {
		if p.Refused || p.Seq > 0 && p.Seq <= passed {
			continue
		}
		exists = true
		maps.Copy(fields, p.Change.Set)
		if p.Change.Gone != nil {
			gone = *p.Change.Gone
		}
	}
	maps.DeleteFunc(fields, func(_ string, value json.RawMessage) bool { return isNull(value) })
	return fields, exists && !gone
}
