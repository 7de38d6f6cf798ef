package httpapi

import (
	"errors"
	"fmt"

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

// rangeOf reads the Range header (RFC 9110, section 14). Several ranges at once
// are answered with the whole file, as the section allows; a range beyond the
// end with 416.
func (a *App) rangeOf(c *fiber.Ctx, size int64, tag string) (byteSpan, error) {
	whole := byteSpan{0, size, false}
	if c.Get(fiber.HeaderRange) == "" || c.Get(fiber.HeaderIfRange) != "" && c.Get(fiber.HeaderIfRange) != tag {
		return whole, nil
	}
	asked, err := c.Range(int(size))
	if err == nil && asked.Type == "bytes" && len(asked.Ranges) == 1 {
		from, to := int64(asked.Ranges[0].Start), int64(asked.Ranges[0].End)
		return byteSpan{from, to - from + 1, true}, nil
	}
	if errors.Is(err, fiber.ErrRangeUnsatisfiable) {
		c.Set(fiber.HeaderContentRange, fmt.Sprintf("bytes */%d", size))
		return whole, refusal.New(refusal.OutOfRange, "out_of_range", "the file has %d bytes: ask for a range within them", size)
	}
	return whole, nil
}
