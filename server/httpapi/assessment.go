package httpapi

import (
	"context"
	"encoding/json"
	"time"

	"github.com/gofiber/fiber/v2"

	"haulm/almanac/assess"
	"haulm/garden"
	"haulm/server/refusal"
)

const (
	// assessmentsWaiting bounds who waits: whoever has left still waits, since
	// nothing tells a handler of it, and would keep the others out.
	assessmentsWaiting = 4
	// assessmentSeconds is about what those take on a small machine.
	assessmentSeconds = "5"
)

// assessment answers what the reckoning says of the garden on a day: the one
// asked for, or today in the garden. Small machines have room for one at a time.
func (a *App) assessment(c *fiber.Ctx) error {
	select {
	case a.waiting <- struct{}{}:
		defer func() { <-a.waiting }()
	default:
		c.Set(fiber.HeaderRetryAfter, assessmentSeconds)
		return refusal.New(refusal.Unready, "busy", "several gardens are being reckoned at this moment: ask again in some seconds")
	}
	a.assessing <- struct{}{}
	defer func() { <-a.assessing }()
	ctx := c.UserContext()
	records, err := a.liveRecords(ctx, seat(c).Garden)
	if err != nil {
		return err
	}
	on, err := a.dayAsked(query(c, "on"), records)
	if err != nil {
		return err
	}
	engine, err := assess.New()
	if err != nil {
		return err
	}
	engine.Upsert(records)
	return c.JSON(engine.Assess(on))
}

func (a *App) liveRecords(ctx context.Context, ofGarden string) ([]garden.Record, error) {
	var records []garden.Record
	for record, err := range a.Journal.Each(ctx, ofGarden) {
		if err != nil {
			return nil, err
		}
		records = append(records, record.Garden())
	}
	return records, nil
}

func (a *App) dayAsked(text string, records []garden.Record) (garden.Day, error) {
	if text == "" {
		return a.today(records), nil
	}
	day, err := garden.ParseDay(text)
	if err != nil {
		return 0, refusal.New(refusal.Invalid, "invalid_day", "on must be a date written YYYY-MM-DD, not %q", shorten(text))
	}
	return day, nil
}

// today is the date in the garden's zone, or where its clock is fixed.
func (a *App) today(records []garden.Record) garden.Day {
	now := a.Now().UTC()
	for _, record := range records {
		if record.Ref.Kind != garden.GardenRecord {
			continue
		}
		var clock garden.Day
		if json.Unmarshal(record.Fields["clock"], &clock) == nil {
			return clock
		}
		var zone string
		if json.Unmarshal(record.Fields["timeZone"], &zone) == nil {
			if place, err := time.LoadLocation(zone); err == nil {
				now = now.In(place)
			}
		}
	}
	return garden.DayOf(now.Date())
}
