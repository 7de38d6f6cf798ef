package httpapi

import (
	"context"

	"github.com/gofiber/fiber/v2"

	"haulm/server/refusal"
	"haulm/sync/journal/entry"
)

type healthBody struct {
	Status string `json:"status"`
}

// healthz says that the process answers.
func (a *App) healthz(c *fiber.Ctx) error { return c.JSON(healthBody{"alive"}) }

// readyz says that the journal takes changes: its disk works and the clock is
// not behind what was written before.
func (a *App) readyz(c *fiber.Ctx) error {
	if err := a.Journal.Ready(); err != nil {
		return refusal.New(refusal.Unready, "not_ready", "%s", err.Error())
	}
	return c.JSON(healthBody{"ready"})
}

// highestSeq is the highest sequence in any garden, for the metrics.
func (a *App) highestSeq() float64 {
	ctx := context.Background()
	gardens, err := a.Journal.Gardens(ctx)
	if err != nil {
		return 0
	}
	var highest uint64
	for _, garden := range gardens {
		cursor, err := a.Journal.Cursor(ctx, garden)
		if err != nil {
			continue
		}
		if head, err := entry.ParseCursor(cursor); err == nil {
			highest = max(highest, head.Seq)
		}
	}
	return float64(highest)
}
