package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/google/uuid"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
)

const (
	// demoGarden is the id of the invented garden.
	demoGarden = "demo"
	// sowBatch is how many records are written at once.
	sowBatch = 500
	// sownKey marks a garden whose first records were all written.
	sownKey = "sown"
	// ownDevice stands for the program itself where a device would.
	ownDevice = "haulm"
)

// prepareGardens makes what a start needs: with --demo the invented garden, or
// else, the first time, an empty one for the household. A start that was cut
// short is taken up again.
func (c *serveCommand) prepareGardens(ctx context.Context, world *console, f *folder) error {
	if c.Demo {
		return f.sowDemo(ctx, world.demo)
	}
	gardens, err := f.householdGardens(ctx)
	if err != nil {
		return err
	}
	if len(gardens) == 0 {
		gardens = []string{uuid.Must(uuid.NewV7()).String()}
	}
	for _, id := range gardens {
		if err := f.sow(ctx, id, []garden.Record{emptyGarden(id)}); err != nil {
			return err
		}
	}
	return nil
}

// householdGardens lists the gardens that are not invented.
func (f *folder) householdGardens(ctx context.Context) ([]string, error) {
	gardens, err := f.journal.Gardens(ctx)
	return slices.DeleteFunc(slices.Clone(gardens), func(id string) bool { return id == demoGarden }), err
}

// emptyGarden is what a first start makes; the keeper fills in the rest.
func emptyGarden(id string) garden.Record {
	return garden.Record{Ref: garden.Ref{Kind: garden.GardenRecord, ID: id}, Fields: garden.Fields{
		"name": []byte(`"Garden"`), "timeZone": []byte(`"UTC"`), "units": []byte(`"metric"`)}}
}

func (f *folder) sowDemo(ctx context.Context, invented func() ([]garden.Record, error)) error {
	if invented == nil {
		return errors.New("this build of Haulm has no demo garden in it: start it without --demo")
	}
	records, err := invented()
	if err != nil {
		return fmt.Errorf("the demo garden cannot be read: %w", err)
	}
	return f.sow(ctx, demoGarden, records)
}

// sow makes a garden and writes its first records as the program itself, once:
// changes have ids by record, so what an interrupted start wrote is a replay.
func (f *folder) sow(ctx context.Context, id string, records []garden.Record) error {
	var exists *journal.ExistsError
	if err := f.journal.CreateGarden(ctx, id); err != nil && !errors.As(err, &exists) {
		return err
	}
	var missing *journal.MissingError
	if _, err := f.journal.GetPrivate(ctx, id, sownKey); !errors.As(err, &missing) {
		return err
	}
	clock := change.Clock{Device: ownDevice}
	for batch := range slices.Chunk(records, sowBatch) {
		if err := f.write(ctx, id, &clock, batch); err != nil {
			return err
		}
	}
	_, err := f.journal.WritePrivate(ctx, id, journal.PrivateWrite{Key: sownKey, Value: []byte("true"), Seen: journal.Any})
	return err
}

// write pushes records as changes of the program's own; none may be refused,
// but those that an earlier start applied under another stamp are left alone.
func (f *folder) write(ctx context.Context, id string, clock *change.Clock, records []garden.Record) error {
	changes := make([]change.Change, 0, len(records))
	for _, record := range records {
		changes = append(changes, change.Change{ID: uuid.NewSHA1(uuid.NameSpaceURL, []byte(id+"/"+record.Ref.String())).String(),
			Record: record.Ref, At: clock.Next(f.household.Now()), Set: record.Fields})
	}
	answer, err := f.journal.Push(ctx, id, journal.Writer{Device: ownDevice}, changes)
	if err != nil {
		return err
	}
	for _, refused := range answer.Refused {
		if refused.Code != codeAppliedBefore {
			return fmt.Errorf("garden %s cannot be sown: %s", id, refused.Why)
		}
	}
	return nil
}

// codeAppliedBefore is how the journal refuses an id that it knows with another
// stamp.
const codeAppliedBefore = "id_reused"
