package unsent

import (
	"compress/flate"
	"context"
	"errors"
	"fmt"

	"haulm/server/household"
	"haulm/server/refusal"
	"haulm/sync/change"
	"haulm/sync/journal"
)

// writtenBy is in whose name the changes are taken: in that of the phone's own
// person and device where the bringer may speak for them, so that what the phone
// sends later by itself follows on from it.
//
// A keeper, and whoever has the machine, may bring anyone's file, but each change
// is judged by what its writer may do; others bring theirs in their own name.
func (r *run) writtenBy(ctx context.Context) (journal.Writer, error) {
	as, err := r.owner(ctx)
	if err != nil {
		return journal.Writer{}, err
	}
	writer := journal.Writer{Member: as.Member.ID, Device: as.Device.ID}
	if writer.Device == "" {
		writer.Device = "saved/" + r.file.manifest.Device
	}
	if as.Member.Role != "" {
		writer.May = func(one change.Change) error { return mayWrite(as.Member.Role, one) }
	}
	return writer, nil
}

// owner finds the member and device that a file is of. Without them it is the
// bringer's; the zero Seat is the machine itself, which may write everything.
func (r *run) owner(ctx context.Context) (household.Seat, error) {
	bringer := household.Seat{}
	if r.By != nil {
		bringer.Member = r.By.Member
	}
	mayForAnyone := r.By == nil || r.By.Member.Role == household.Keeper
	if !mayForAnyone && r.file.manifest.Member != r.By.Member.ID {
		return bringer, nil
	}
	members, err := r.Household.Members(ctx, r.Garden)
	if err != nil {
		return bringer, err
	}
	for _, member := range members {
		if member.ID == r.file.manifest.Member {
			device, err := r.phone(ctx, member.ID)
			return household.Seat{Garden: r.Garden, Member: member, Device: device}, err
		}
	}
	return bringer, nil
}

// phone is the member's device of the file's name; the zero Device unless there
// is exactly one.
func (r *run) phone(ctx context.Context, member string) (household.Device, error) {
	devices, err := r.Household.Devices(ctx, r.Garden)
	if err != nil {
		return household.Device{}, err
	}
	var found []household.Device
	for _, device := range devices {
		if device.Member == member && device.Name == r.file.manifest.Device {
			found = append(found, device)
		}
	}
	if len(found) != 1 {
		return household.Device{}, nil
	}
	return found[0], nil
}

func mayWrite(role household.Role, one change.Change) error {
	var told *refusal.Refusal
	if err := role.May(one.Record); errors.As(err, &told) {
		return &change.Refusal{Code: told.Code, Why: told.Why}
	}
	return nil
}

// push judges a batch and counts what became of it.
func (r *run) push(ctx context.Context, batch []lined) error {
	if len(batch) == 0 {
		return ctx.Err()
	}
	known, err := r.known(ctx, batch)
	if err != nil {
		return err
	}
	answer, err := r.judged(ctx, batch)
	if err != nil {
		return err
	}
	why := map[string]journal.Refused{}
	for _, refused := range answer.Refused {
		why[refused.ID] = refused
	}
	for _, one := range batch {
		switch refused, no := why[one.ID]; {
		case no:
			r.summary.aside(&r.summary.Changes, one.entry, refused.Code, refused.Why)
		case known[one.ID]:
			r.summary.Changes.Known++
		default:
			r.summary.Changes.New++
		}
	}
	return nil
}

// known tells which changes of a batch the garden has.
func (r *run) known(ctx context.Context, batch []lined) (map[string]bool, error) {
	known := map[string]bool{}
	for _, one := range batch {
		if change.CheckShape(one.Change, r.Garden) != nil {
			continue
		}
		_, err := r.Journal.Applied(ctx, r.Garden, one.ID)
		var missing *journal.MissingError
		if err != nil && !errors.As(err, &missing) {
			return nil, err
		}
		known[one.ID] = err == nil
	}
	return known, nil
}

// judged has a batch judged: by the journal, which keeps what it takes, or when
// only looking by the same rules against an empty record.
func (r *run) judged(ctx context.Context, batch []lined) (journal.Answer, error) {
	changes := make([]change.Change, 0, len(batch))
	for _, one := range batch {
		changes = append(changes, one.Change)
	}
	if !r.Check {
		return r.Journal.Push(ctx, r.Garden, r.writer, changes)
	}
	var answer journal.Answer
	for _, one := range changes {
		if refused := r.look(one); refused != nil {
			answer.Refused = append(answer.Refused, journal.Refused{ID: one.ID, Code: refused.Code, Why: refused.Why})
		}
	}
	return answer, nil
}

func (r *run) look(one change.Change) *change.Refusal {
	if refused := change.CheckShape(one, r.Garden); refused != nil {
		return refused
	}
	if r.writer.May != nil {
		if err := r.writer.May(one); err != nil {
			return change.RefusalOf(err)
		}
	}
	terms := change.Terms{Garden: r.Garden, By: change.Writer{Member: r.writer.Member, Device: r.writer.Device}, Seq: 1, Now: r.Household.Now()}
	_, refused := change.Judge(new(change.State), one, terms)
	return refused
}

func lineName(entry string, number int) string { return fmt.Sprintf("%s line %d", entry, number) }

func isCorruptDeflate(err error) bool {
	var corrupt flate.CorruptInputError
	return errors.As(err, &corrupt)
}
