package httpapi

import (
	"errors"
	"net/http"
	"syscall"

	"github.com/gofiber/fiber/v2"

	"haulm/garden"
	"haulm/media"
	"haulm/server/refusal"
	"haulm/sync/journal"
)

// problemBody is what every error is answered with.
type problemBody struct {
	Code string `json:"code"`
	Why  string `json:"why"`
}

// answerProblem is the application's error handler.
func (a *App) answerProblem(c *fiber.Ctx, err error) error {
	told := asRefusal(err)
	status := statusOf(told.Kind)
	if told.Kind == refusal.Fault {
		a.Logger.ErrorContext(c.UserContext(), "request failed", "request", requestID(c), "route", c.Route().Path, "error", err)
	}
	c.Locals(localCode, told.Code)
	setSecureHeaders(&c.Response().Header)
	return c.Status(status).JSON(problemBody{told.Code, told.Why})
}

// statusOf is the one place where a kind of refusal becomes an HTTP status.
func statusOf(kind refusal.Kind) int {
	switch kind {
	case refusal.Invalid:
		return http.StatusBadRequest
	case refusal.Unknown:
		return http.StatusUnauthorized
	case refusal.Forbidden:
		return http.StatusForbidden
	case refusal.Missing:
		return http.StatusNotFound
	case refusal.Conflict:
		return http.StatusConflict
	case refusal.TooLarge:
		return http.StatusRequestEntityTooLarge
	case refusal.Unsupported:
		return http.StatusUnsupportedMediaType
	case refusal.Unprocessable:
		return http.StatusUnprocessableEntity
	case refusal.TooMany:
		return http.StatusTooManyRequests
	case refusal.Unready:
		return http.StatusServiceUnavailable
	case refusal.Full:
		return http.StatusInsufficientStorage
	case refusal.OutOfRange:
		return http.StatusRequestedRangeNotSatisfiable
	default:
		return http.StatusInternalServerError
	}
}

// asRefusal reads the errors of every layer below. What none of them named is a
// fault, and its text stays in the log: it may name files.
func asRefusal(err error) *refusal.Refusal {
	var (
		told    *refusal.Refusal
		word    *garden.Problem
		medium  *media.Problem
		ofFiber *fiber.Error
	)
	switch {
	case errors.As(err, &told):
		return told
	case errors.Is(err, syscall.ENOSPC):
		return refusal.New(refusal.Full, "disk_full", "the server's disk is full, so this was not kept: make room on it, then send again")
	case errors.As(err, &word):
		return refusal.New(refusal.Invalid, word.Code, "%s", word.Error())
	case errors.As(err, &medium):
		return refusalOfMedium(medium)
	case errors.As(err, &ofFiber) && ofFiber.Code != http.StatusInternalServerError:
		return refusalOfRequest(ofFiber.Code)
	}
	return refusalOfJournal(err)
}

// refusalOfRequest is for requests that Fiber could not read or place. Its own
// words are left out, since they repeat the request, secrets included.
func refusalOfRequest(status int) *refusal.Refusal {
	switch status {
	case http.StatusNotFound, http.StatusMethodNotAllowed:
		return refusal.New(refusal.Missing, "no_such_address", "there is nothing at this address; /api/v1/openapi.json lists what there is")
	case http.StatusRequestHeaderFieldsTooLarge:
		return refusal.New(refusal.Invalid, "headers_too_large", "the request's headers have more than %d bytes together: send fewer or shorter ones", headerBytes)
	case http.StatusRequestTimeout:
		return refusal.New(refusal.Invalid, "too_slow", "the request did not arrive in time: send it again")
	}
	return refusal.New(refusal.Invalid, "bad_request", "this is not a request as HTTP/1.1 writes them: check its first line and its headers")
}

func refusalOfMedium(p *media.Problem) *refusal.Refusal {
	return refusal.New(kindOfMedium(p.Code), string(p.Code), "%s", p.Text)
}

func kindOfMedium(code media.Code) refusal.Kind {
	switch code {
	case media.BadName, media.BadLength:
		return refusal.Invalid
	case media.WrongOffset:
		return refusal.Conflict
	case media.WrongContent, media.NotAPicture, media.TooManyPixels:
		return refusal.Unprocessable
	case media.TooLarge:
		return refusal.TooLarge
	case media.UnknownType:
		return refusal.Unsupported
	case media.NotHere, media.NoPreview:
		return refusal.Missing
	default:
		return refusal.Fault
	}
}

func refusalOfJournal(err error) *refusal.Refusal {
	var (
		badCursor *journal.CursorError
		badClock  *journal.ClockError
		noGarden  *journal.UnknownGardenError
		noRecord  *journal.MissingError
		damage    *journal.DamageError
	)
	switch {
	case errors.As(err, &badCursor):
		return refusal.New(refusal.Invalid, "bad_cursor", "%s", badCursor.Error())
	case errors.As(err, &badClock):
		return refusal.New(refusal.Unready, "clock_behind", "%s", badClock.Error())
	case errors.As(err, &noGarden):
		return refusal.New(refusal.Missing, "no_such_garden", "%s", noGarden.Error())
	case errors.As(err, &noRecord):
		return refusal.New(refusal.Missing, "no_such_record", "%s", noRecord.Error())
	case errors.As(err, &damage):
		return refusal.New(refusal.Fault, "damaged", "%s", damage.Error())
	}
	return refusal.New(refusal.Fault, "fault", "something went wrong in the server: nothing was lost that it had acknowledged; look in its log")
}
