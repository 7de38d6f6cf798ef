package main

import (
	"bufio"
	"context"
	"net/http"
	"strings"
	"testing"
	"time"
)

// A liveStream is an open event stream; lines is closed when it ends.
type liveStream struct {
	t     testing.TB
	lines chan string
}

func (c *testClient) listen() *liveStream {
	c.t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	c.t.Cleanup(cancel)
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, c.base+c.of("/live"), nil)
	if err != nil {
		c.t.Fatal(err)
	}
	request.Header = c.header
	response, err := c.http.Do(request)
	if err != nil {
		c.t.Fatal(err)
	}
	if kind := response.Header.Get("Content-Type"); response.StatusCode != http.StatusOK || kind != "text/event-stream" {
		c.t.Fatalf("status %d, %s", response.StatusCode, kind)
	}
	if !strings.Contains(response.Header.Get("Cache-Control"), "no-transform") {
		c.t.Error("a proxy may hold the stream back")
	}
	stream := &liveStream{c.t, make(chan string, 64)}
	go func() {
		defer response.Body.Close()
		defer close(stream.lines)
		for scanner := bufio.NewScanner(response.Body); scanner.Scan(); {
			stream.lines <- scanner.Text()
		}
	}()
	return stream
}

// line gives the next line, and false when the stream ended.
func (s *liveStream) line() (string, bool) {
	s.t.Helper()
	select {
	case line, open := <-s.lines:
		return line, open
	case <-time.After(patience):
		s.t.Fatal("nothing came on the stream")
		return "", false
	}
}

func (s *liveStream) cursor() string {
	s.t.Helper()
	for {
		line, open := s.line()
		if !open {
			s.t.Fatal("the stream ended")
		}
		if cursor, found := strings.CutPrefix(line, "data: "); found {
			return cursor
		}
	}
}

func (s *liveStream) mustEnd() {
	s.t.Helper()
	for open := true; open; {
		_, open = s.line()
	}
}

func TestStreamTellsTheCursorAtOnceAndWhenItMoves(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ben := ann.invites("helper", "Ben")
	stream := ben.listen()
	start := ben.pull("").Cursor
	if got := stream.cursor(); got != start {
		t.Errorf("first event %q, want %q", got, start)
	}
	ref := newRef("observation")
	now := ann.sync("", newChange(ref, map[string]any{"note": "x"})).Cursor
	if got := stream.cursor(); got != now {
		t.Errorf("event %q, want %q", got, now)
	}
	if got := ben.pull(start); len(got.Records) != 1 || got.Records[0].Record != ref {
		t.Errorf("%+v", got.Records)
	}
}

func TestRevocationEndsTheStream(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ben := ann.invites("helper", "Ben")
	own, his := ann.listen(), ben.listen()
	own.cursor()
	his.cursor()
	ann.send(http.MethodDelete, ann.of("/devices/"+thisDevice(ben)), nil).mustBe(http.StatusNoContent)
	his.mustEnd()
	moved := ann.sync("", newChange(newRef("observation"), map[string]any{"note": "x"})).Cursor
	if got := own.cursor(); got != moved {
		t.Error("revoking one device ended the stream of another")
	}
	ben.send(http.MethodGet, ben.of("/live"), nil).mustRefuse(http.StatusUnauthorized, "unknown_device")
}

func TestLogoutEndsTheStream(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	stream := ann.listen()
	stream.cursor()
	ann.send(http.MethodPost, "/api/v1/logout", nil).mustBe(http.StatusNoContent)
	stream.mustEnd()
}

// mustStopCleanly stops the server, which must not have had to cut anything off.
func (s *testServer) mustStopCleanly(t testing.TB) {
	t.Helper()
	if code := s.stop(); code != 0 || strings.Contains(s.log.String(), "cut off") {
		t.Errorf("exit code %d: %s", code, s.log)
	}
}

func TestStopEndsOpenStreamsGracefully(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	streams := []*liveStream{ann.listen(), ann.listen()}
	for _, stream := range streams {
		stream.cursor()
	}
	s.mustStopCleanly(t)
	for _, stream := range streams {
		stream.mustEnd()
	}
}

func TestFifthStreamOfADeviceEndsTheFirst(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	var streams []*liveStream
	for range 5 {
		stream := ann.listen()
		stream.cursor()
		streams = append(streams, stream)
	}
	streams[0].mustEnd()
	moved := ann.sync("", newChange(newRef("observation"), map[string]any{"note": "x"})).Cursor
	for _, stream := range streams[1:] {
		if got := stream.cursor(); got != moved {
			t.Errorf("event %q, want %q", got, moved)
		}
	}
}
