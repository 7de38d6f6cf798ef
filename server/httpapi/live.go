package httpapi

import (
	"bufio"
	"context"
	"fmt"
	"net"
	"time"

	"github.com/gofiber/fiber/v2"
)

// flushTimeout is how long one event may take to leave; a client that is gone
// without a word is noticed by it at the next heartbeat.
const flushTimeout = 10 * time.Second

// live streams the garden's cursor: at once, and whenever it moves. The stream
// ends when the client leaves, the device is shut out, or the server stops.
func (a *App) live(c *fiber.Ctx) error {
	here := seat(c)
	moved, stopWatching := a.Journal.Watch(here.Garden)
	cursor, err := a.Journal.Cursor(c.UserContext(), here.Garden)
	if err != nil {
		stopWatching()
		return err
	}
	owner := streamOwner{here.Garden, here.Device.ID}
	end, err := a.openStream(c.UserContext(), tokenOf(c), owner)
	if err != nil {
		stopWatching()
		return err
	}
	stream := eventStream{conn: c.Context().Conn(), heartbeat: a.Heartbeat, patience: flushTimeout, moved: moved, end: end}
	c.Set(fiber.HeaderContentType, "text/event-stream")
	c.Set(fiber.HeaderCacheControl, "no-cache, no-transform")
	c.Set("X-Accel-Buffering", "no")
	c.Context().SetBodyStreamWriter(func(w *bufio.Writer) {
		defer stopWatching()
		defer a.streams.remove(owner, end)
		stream.run(w, cursor)
	})
	return nil
}

// openStream adds a stream and looks the seat up once more: one that was taken
// away since the request was let in had no stream yet that could be ended, and
// one that is taken away from here on ends this one.
func (a *App) openStream(ctx context.Context, token string, owner streamOwner) (<-chan struct{}, error) {
	end := a.streams.add(owner)
	if _, err := a.Household.SeatIn(ctx, token, owner.garden); err != nil {
		a.streams.remove(owner, end)
		return nil, err
	}
	return end, nil
}

// An eventStream writes server-sent events (WHATWG HTML, section 9.2) until one
// of its ends.
type eventStream struct {
	conn      net.Conn
	heartbeat time.Duration
	patience  time.Duration // for one event to leave
	moved     <-chan string
	end       <-chan struct{}
}

func (s eventStream) run(w *bufio.Writer, cursor string) {
	if s.sendCursor(w, cursor) != nil {
		return
	}
	beat := time.NewTicker(s.heartbeat)
	defer beat.Stop()
	for {
		var err error
		select {
		case <-s.end:
			return
		case cursor, open := <-s.moved:
			if !open {
				return
			}
			err = s.sendCursor(w, cursor)
		case <-beat.C:
			err = s.send(w, ": still here\n\n")
		}
		if err != nil {
			return
		}
	}
}

func (s eventStream) sendCursor(w *bufio.Writer, cursor string) error {
	return s.send(w, fmt.Sprintf("event: cursor\ndata: %s\n\n", cursor))
}

func (s eventStream) send(w *bufio.Writer, event string) error {
	if err := s.conn.SetWriteDeadline(time.Now().Add(s.patience)); err != nil {
		return err
	}
	if _, err := w.WriteString(event); err != nil {
		return err
	}
	return w.Flush()
}
