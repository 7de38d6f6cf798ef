package httpapi

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/gofiber/fiber/v2"

	"haulm/server/refusal"
)

// A byteSpan is what of a file is sent.
type byteSpan struct {
	from, length int64
	partial      bool
}

func (s byteSpan) header(size int64) string {
	return fmt.Sprintf("bytes %d-%d/%d", s.from, s.from+s.length-1, size)
}

// rangeOf reads the Range header (RFC 9110, section 14). One that is malformed,
// in another unit, or of several ranges is answered with the whole file, as the
// section allows; one beyond the end with 416.
func (a *App) rangeOf(c *fiber.Ctx, size int64, tag string) (byteSpan, error) {
	whole := byteSpan{0, size, false}
	if condition := c.Get(fiber.HeaderIfRange); condition != "" && condition != tag {
		return whole, nil
	}
	asked, found := parseRange(c.Get(fiber.HeaderRange))
	if !found {
		return whole, nil
	}
	from, to := asked.within(size)
	if from > to {
		c.Set(fiber.HeaderContentRange, fmt.Sprintf("bytes */%d", size))
		return whole, refusal.New(refusal.OutOfRange, "out_of_range", "the file has %d bytes: ask for a range within them", size)
	}
	return byteSpan{from, to - from + 1, true}, nil
}

// A byteRange is one range as it was asked for: from first to last, or the last
// suffix bytes where first is negative.
type byteRange struct{ first, last, suffix int64 }

// parseRange reads a header such as "bytes=0-99", "bytes=100-" or "bytes=-20";
// found is false for anything else.
func parseRange(header string) (asked byteRange, found bool) {
	unit, set, _ := strings.Cut(header, "=")
	from, to, found := strings.Cut(strings.Trim(set, " \t"), "-")
	if !found || !strings.EqualFold(unit, "bytes") {
		return asked, false
	}
	first, hasFirst := position(from)
	last, hasLast := position(to)
	switch {
	case hasFirst && to == "":
		return byteRange{first, math.MaxInt64, 0}, true
	case hasFirst && hasLast:
		return byteRange{first, last, 0}, first <= last
	}
	return byteRange{-1, 0, last}, hasLast && from == ""
}

// position reads digits; more than fit are beyond any file.
func position(digits string) (n int64, found bool) {
	value, err := strconv.ParseUint(digits, 10, 63)
	if errors.Is(err, strconv.ErrRange) {
		return math.MaxInt64, true
	}
	return int64(value), err == nil
}

// within gives the first and last byte of a file that are meant; the first is
// the greater when there is none.
func (r byteRange) within(size int64) (from, to int64) {
	if r.first < 0 {
		return size - min(r.suffix, size), size - 1
	}
	return r.first, min(r.last, size-1)
}
