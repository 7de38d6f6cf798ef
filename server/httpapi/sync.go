package httpapi

import (
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"time"

	"github.com/gofiber/fiber/v2"

	"haulm/server/household"
	"haulm/server/refusal"
	"haulm/sync/change"
	"haulm/sync/journal"
)

const (
	defaultPage = 500
	largestPage = 2000 // records; the journal bounds a page's bytes besides
	// largestPush bounds the changes of one request; phones send at most 500.
	largestPush = 2000
)

type syncBody struct {
	Cursor  string          `json:"cursor"`
	Limit   int             `json:"limit"`
	Changes []change.Change `json:"changes"`
}

func (a *App) sync(c *fiber.Ctx) error {
	var asked syncBody
	if err := readJSON(c, syncBodyLimit, &asked); err != nil {
		return err
	}
	if len(asked.Changes) > largestPush {
		return refusal.New(refusal.TooLarge, "too_many_changes", "%d changes at once are more than the %d taken: send them in several requests",
			len(asked.Changes), largestPush)
	}
	here := seat(c)
	if err := a.Journal.Check(c.UserContext(), here.Garden, asked.Cursor); err != nil {
		return answerEpoch(c, asked.Cursor, err)
	}
	pushed, err := a.push(c, here, asked.Changes)
	if err != nil {
		return err
	}
	page, err := a.Journal.Pull(c.UserContext(), here.Garden, asked.Cursor, pageSize(asked.Limit))
	if err != nil {
		return answerEpoch(c, asked.Cursor, err)
	}
	c.Set(fiber.HeaderContentType, fiber.MIMEApplicationJSON)
	answer, err := appendSynced(make([]byte, 0, sizeHint(page)), pushed, page, a.Now())
	c.Response().SetBodyRaw(answer)
	return err
}

func pageSize(asked int) int {
	if asked <= 0 {
		return defaultPage
	}
	return min(asked, largestPage)
}

func (a *App) push(c *fiber.Ctx, here household.Seat, changes []change.Change) (journal.Answer, error) {
	if len(changes) == 0 {
		return journal.Answer{}, nil
	}
	writer := journal.Writer{Member: here.Member.ID, Device: here.Device.ID, May: mayWrite(here)}
	answer, err := a.Journal.Push(c.UserContext(), here.Garden, writer, changes)
	if err == nil {
		a.metrics.pushed(len(answer.Applied), len(answer.Refused))
	}
	return answer, err
}

// mayWrite judges one change by the member's role; a refusal is of that change
// alone.
func mayWrite(here household.Seat) func(change.Change) error {
	return func(one change.Change) error {
		var told *refusal.Refusal
		if err := here.Member.Role.May(one.Record); errors.As(err, &told) {
			return &change.Refusal{Code: told.Code, Why: told.Why}
		}
		return nil
	}
}

// epochBody tells a phone that the garden has begun another life since.
type epochBody struct {
	Code   string `json:"code"`
	Why    string `json:"why"`
	Cursor string `json:"cursor"` // where the garden stands
	Held   string `json:"held"`   // what the phone held
	Fork   uint64 `json:"fork"`   // the last sequence that both lives share
}

func answerEpoch(c *fiber.Ctx, held string, err error) error {
	var foreign *journal.EpochError
	if !errors.As(err, &foreign) {
		return err
	}
	c.Locals(localCode, codeOtherEpoch)
	return c.Status(http.StatusConflict).JSON(epochBody{codeOtherEpoch, foreign.Error(), foreign.Now.String(), held, foreign.Fork})
}

const codeOtherEpoch = "other_epoch"

// bytesPerRecord is about what a record of the feed takes, for the first
// allocation of an answer.
const bytesPerRecord = 512

func sizeHint(page journal.Page) int { return (len(page.Records) + 1) * bytesPerRecord }

// appendSynced writes the answer by hand: a pull of thousands of records would
// spend most of its time in checking again what the journal keeps as sound JSON.
func appendSynced(buf []byte, pushed journal.Answer, page journal.Page, now time.Time) ([]byte, error) {
	applied, err := json.Marshal(orEmpty(pushed.Applied))
	if err != nil {
		return nil, err
	}
	refused, err := json.Marshal(orEmpty(pushed.Refused))
	if err != nil {
		return nil, err
	}
	buf = append(append(buf, `{"applied":`...), applied...)
	buf = append(append(buf, `,"refused":`...), refused...)
	buf = appendRecords(append(buf, `,"records":`...), page.Records)
	buf = strconv.AppendQuote(append(buf, `,"cursor":`...), page.Cursor)
	buf = strconv.AppendBool(append(buf, `,"more":`...), page.More)
	if !page.More {
		buf = strconv.AppendQuote(append(buf, `,"digest":`...), page.Digest)
	}
	buf = now.UTC().AppendFormat(append(buf, `,"now":"`...), clockFormat)
	return append(buf, `"}`...), nil
}

// clockFormat is RFC 3339 in UTC with milliseconds, the resolution of stamps.
const clockFormat = "2006-01-02T15:04:05.000Z"

func appendRecords(buf []byte, records []change.Record) []byte {
	buf = append(buf, '[')
	for i, record := range records {
		if i > 0 {
			buf = append(buf, ',')
		}
		buf = record.AppendJSON(buf)
	}
	return append(buf, ']')
}

func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func (a *App) sums(c *fiber.Ctx) error {
	sums, err := a.Journal.PullSums(c.UserContext(), seat(c).Garden)
	if err != nil {
		return err
	}
	return c.JSON(sums)
}

func (a *App) bucket(c *fiber.Ctx) error {
	text := param(c, "bucket")
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n >= change.Buckets {
		return refusal.New(refusal.Invalid, "invalid_bucket", "the bucket must be a number from 0 to %d, not %q", change.Buckets-1, shorten(text))
	}
	page, err := a.Journal.PullBucket(c.UserContext(), seat(c).Garden, n)
	if err != nil {
		return err
	}
	c.Set(fiber.HeaderContentType, fiber.MIMEApplicationJSON)
	answer := strconv.AppendQuote([]byte(`{"cursor":`), page.Cursor)
	answer = appendRecords(append(answer, `,"records":`...), page.Records)
	c.Response().SetBodyRaw(append(answer, '}'))
	return nil
}
