package httpapi

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"io"
	"strings"

	"github.com/gofiber/fiber/v2"

	"haulm/server/refusal"
)

const (
	// syncBodyLimit holds 500 changes with the longest notes many times over,
	// and bounds what one request can make a 512 MB machine hold.
	syncBodyLimit = 8 << 20
	// smallBodyLimit is for bodies of a few short fields.
	smallBodyLimit = 16 << 10
	// drainLimit is what is read and thrown away of a refused body: a client
	// that is still sending reads no answer, and a connection closed under it
	// loses the answer with it. More than that and it is closed all the same.
	drainLimit = 2 * syncBodyLimit
)

// A bodyReader counts a streamed body, refuses more than limit bytes, and tells
// a body that was cut off from one that ended.
type bodyReader struct {
	from     io.Reader
	declared int // Content-Length, or −1 when chunked
	limit    int
	read     int
	ended    bool
	broken   bool // what follows on the connection cannot be told from a request
}

// body gives the request's body, of at most limit bytes.
func body(c *fiber.Ctx, limit int) *bodyReader {
	reader := &bodyReader{from: c.Context().RequestBodyStream(), declared: c.Request().Header.ContentLength(), limit: limit}
	if reader.from == nil {
		reader.from = bytes.NewReader(c.Request().Body())
	}
	c.Locals(localBody, reader)
	return reader
}

// Read gives bytes, or a *refusal.Refusal with the code "too_large", "cut_off" or
// "bad_body". What fasthttp says of a bad body is not passed on: it repeats what
// else lies in the connection's buffer, which may be another request's secret.
func (b *bodyReader) Read(into []byte) (int, error) {
	if b.declared > b.limit {
		return 0, b.tooLarge()
	}
	n, err := b.from.Read(into)
	b.read += n
	if b.read > b.limit {
		return 0, b.tooLarge()
	}
	switch {
	case err == nil:
		return n, nil
	case !errors.Is(err, io.EOF):
		b.broken = true
		return n, refusal.New(refusal.Invalid, "bad_body", "the body did not arrive whole, or not as its headers said: send it again")
	case b.read < b.declared:
		return n, refusal.New(refusal.Invalid, "cut_off", "%d of %d bytes arrived: send the rest, or all of it again", b.read, b.declared)
	}
	b.ended = true
	return n, err
}

func (b *bodyReader) tooLarge() error {
	return refusal.New(refusal.TooLarge, "too_large", "this takes at most %d bytes at a time: send it in smaller parts", b.limit)
}

// readJSON reads one JSON object into a struct. A field that the struct does
// not have is left aside: an older server must take a newer phone's requests.
func readJSON(c *fiber.Ctx, limit int, into any) error {
	from := body(c, limit)
	text := bytes.NewBuffer(make([]byte, 0, roomFor(from.declared)))
	if _, err := text.ReadFrom(from); err != nil {
		return err
	}
	if err := json.Unmarshal(text.Bytes(), into); err != nil {
		return badJSON(err)
	}
	return nil
}

// roomFor is the memory that a body begins with. It grows with what arrives: a
// body that is announced and never sent must not hold what it announced.
func roomFor(declared int) int {
	const most = 64 << 10 // bytes; doubling from here to the largest body copies it once more
	return max(0, min(declared, most)) + bytes.MinRead
}

// badJSON says where a body is not what was expected, in words of JSON rather
// than of Go.
func badJSON(err error) error {
	var (
		syntax *json.SyntaxError
		shape  *json.UnmarshalTypeError
	)
	switch {
	case errors.As(err, &syntax):
		return refusal.New(refusal.Invalid, "bad_json", "the body is not JSON from byte %d on; send one JSON object", syntax.Offset)
	case errors.As(err, &shape):
		return refusal.New(refusal.Invalid, "bad_json", "%s cannot be %s; /api/v1/openapi.json tells what it must be",
			cmp.Or(shape.Field, "the body"), withArticle(shape.Value))
	}
	return refusal.New(refusal.Invalid, "bad_json", "the body cannot be read as JSON; send one JSON object")
}

// withArticle is for JSON's own words: array, object, number, string, bool.
func withArticle(word string) string {
	if strings.HasPrefix(word, "a") || strings.HasPrefix(word, "o") {
		return "an " + word
	}
	return "a " + word
}

// finishBody runs after every handler: bytes of a body that nobody read would
// be taken for the next request on the connection. It reads a small rest and
// closes the connection over a larger one.
func finishBody(c *fiber.Ctx) {
	stream := c.Context().RequestBodyStream()
	if stream == nil {
		return
	}
	if reader, ok := c.Locals(localBody).(*bodyReader); ok && reader.ended {
		return
	} else if ok && reader.broken {
		c.Context().SetConnectionClose()
		return
	}
	if declared := c.Request().Header.ContentLength(); declared > drainLimit {
		c.Context().SetConnectionClose()
		return
	}
	n, err := io.Copy(io.Discard, io.LimitReader(stream, drainLimit))
	if err != nil || n == drainLimit {
		c.Context().SetConnectionClose()
	}
}
