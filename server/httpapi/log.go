package httpapi

import (
	"log/slog"
	"strings"
	"time"

	"github.com/gofiber/fiber/v2"
	"github.com/google/uuid"
)

// observe gives each request an id, has its errors answered, and notes what
// became of it in the log and the metrics: the route's pattern, never the path,
// the query, a body or a secret.
func (a *App) observe(c *fiber.Ctx) error {
	started := time.Now()
	id := uuid.NewString()
	c.Locals(localRequest, id)
	c.Set(fiber.HeaderXRequestID, id)
	if err := c.Next(); err != nil {
		if err := a.answerProblem(c, err); err != nil {
			return err
		}
	}
	finishBody(c)
	took := time.Since(started)
	status := c.Response().StatusCode()
	a.metrics.request(c.Method(), c.Route().Path, status, took)
	a.Logger.LogAttrs(c.UserContext(), levelOf(status), "request", a.describe(c, id, status, took)...)
	return nil
}

func (a *App) describe(c *fiber.Ctx, id string, status int, took time.Duration) []slog.Attr {
	attrs := []slog.Attr{
		slog.String("request", id), slog.String("method", methodName(c.Method())), slog.String("route", strings.Clone(c.Route().Path)),
		slog.Int("status", status), slog.Float64("ms", float64(took.Microseconds())/1000), slog.String("from", a.clientAddress(c).String()),
	}
	if code, ok := c.Locals(localCode).(string); ok {
		attrs = append(attrs, slog.String("code", code))
	}
	return attrs
}

// levelOf keeps everyday requests out of a log that people read.
func levelOf(status int) slog.Level {
	switch {
	case status >= fiber.StatusInternalServerError:
		return slog.LevelError
	case status >= fiber.StatusBadRequest:
		return slog.LevelWarn
	default:
		return slog.LevelDebug
	}
}
