package httpapi

import (
	"io"
	"time"

	"github.com/gofiber/fiber/v2"

	"haulm/server/refusal"
	"haulm/server/unsent"
)

// importSaved takes in a file that a phone saved. A zip is read from its end, so
// it lies on disk first; one at a time, since each may be half a gigabyte.
func (a *App) importSaved(c *fiber.Ctx) error {
	select {
	case a.importing <- struct{}{}:
		defer func() { <-a.importing }()
	default:
		return refusal.New(refusal.TooMany, "import_running", "another file is being taken in: try again when it is done")
	}
	here := seat(c)
	taker := unsent.Taker{Journal: a.Journal, Household: a.Household, Media: a.Media}
	file := body(c, unsent.MaxFileBytes)
	summary, err := taker.Spool(c.UserContext(), a.Arriving, renewing{c, file},
		unsent.Terms{Garden: here.Garden, By: &here, Check: query(c, "check") == "true"})
	a.metrics.received(file.read)
	if err != nil {
		return err
	}
	if err := limitAnswerFromNow(c); err != nil {
		return err
	}
	return c.JSON(summary)
}

// renewing gives a large body time for as long as it goes on arriving: the
// server's own bound is for a body as a whole.
type renewing struct {
	c    *fiber.Ctx
	from io.Reader
}

func (r renewing) Read(into []byte) (int, error) {
	if err := r.c.Context().Conn().SetReadDeadline(time.Now().Add(readTimeout)); err != nil {
		return 0, err
	}
	return r.from.Read(into)
}
