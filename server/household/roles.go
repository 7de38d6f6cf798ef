package household

import (
	"haulm/garden"
	"haulm/server/refusal"
)

// A Role says what a member may write. Every member reads all of the garden.
type Role string

// The roles.
const (
	Keeper Role = "keeper" // everything, members included
	Helper Role = "helper" // logs, works, ticks off
	Viewer Role = "viewer" // looks
)

// ParseRole reads a role's word.
func ParseRole(text string) (Role, error) {
	switch role := Role(text); role {
	case Keeper, Helper, Viewer:
		return role, nil
	}
	return "", refusal.New(refusal.Invalid, "invalid_role", "the role must be keeper, helper or viewer, not %.30q", text)
}

// May gives nil when the role may write such a record, or a *refusal.Refusal
// for this one change.
func (r Role) May(record garden.Ref) error {
	switch r {
	case Keeper:
		return nil
	case Helper:
		switch record.Kind {
		case garden.ObservationRecord, garden.WorkRecord, garden.TaskRecord:
			return nil
		}
		return refusal.New(refusal.Forbidden, "role_helper",
			"a helper may log, note work and tick off tasks, but not change a %s: ask a keeper of the garden", record.Kind)
	}
	return refusal.New(refusal.Forbidden, "role_viewer", "a viewer may look but not write: ask a keeper of the garden for another role")
}
