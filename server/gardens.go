package main

import (
	"context"
	"fmt"

	"github.com/google/uuid"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
)

// prepareGardens makes what a first start needs: an empty garden for the
// household, or with --demo the invented one, whose id it gives.
func (c *serveCommand) prepareGardens(ctx context.Context, f *folder) (demoGarden string, err error) {
	gardens, err := f.journal.Gardens(ctx)
	if err != nil || len(gardens) > 0 {
		return "", err
	}
	id := uuid.Must(uuid.NewV7()).String()
	return "", f.sow(ctx, id, []garden.Record{emptyGarden(id)})
}

// sowBatch is how many records are written at once.
const sowBatch = 500

// sow makes a garden and writes records into it as the program itself.
func (f *folder) sow(ctx context.Context, id string, records []garden.Record) error {
	if err := f.journal.CreateGarden(ctx, id); err != nil {
		return err
	}
	clock := change.Clock{Device: "haulm"}
	for len(records) > 0 {
		n := min(sowBatch, len(records))
		changes := make([]change.Change, 0, n)
		for _, record := range records[:n] {
			changes = append(changes, change.Change{ID: uuid.Must(uuid.NewV7()).String(), Record: record.Ref,
				At: clock.Next(f.household.Now()), Set: record.Fields})
		}
		if err := f.pushAll(ctx, id, changes); err != nil {
			return err
		}
		records = records[n:]
	}
	return nil
}

// pushAll writes changes of the program's own, none of which may be refused.
func (f *folder) pushAll(ctx context.Context, id string, changes []change.Change) error {
	answer, err := f.journal.Push(ctx, id, journal.Writer{Device: "haulm"}, changes)
	if err != nil {
		return err
	}
	for _, refused := range answer.Refused {
		return fmt.Errorf("garden %s cannot be sown: %s", id, refused.Why)
	}
	return nil
}
