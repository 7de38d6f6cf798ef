package main

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// raw sends bytes as they are on a connection of its own and gives what comes
// back until the server closes it, or says nothing more.
func (s *testServer) raw(t testing.TB, text string) string {
	t.Helper()
	conn, err := net.Dial("tcp", strings.TrimPrefix(s.listening, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if _, err := io.WriteString(conn, text); err != nil {
		t.Fatal(err)
	}
	conn.(*net.TCPConn).CloseWrite()
	conn.SetReadDeadline(time.Now().Add(patience))
	got, _ := io.ReadAll(conn)
	return string(got)
}

func TestUnreadBodyIsNoSecondRequest(t *testing.T) {
	s := startServer(t, "")
	inner := "GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n"
	for _, size := range []int{0, 100_000} {
		body := strings.Repeat("x", size) + inner
		got := s.raw(t, fmt.Sprintf("POST /api/v1/logout HTTP/1.1\r\nHost: localhost\r\nContent-Length: %d\r\n\r\n%s", len(body), body))
		if n := strings.Count(got, "HTTP/1.1 "); n != 1 || !strings.HasPrefix(got, "HTTP/1.1 401") {
			t.Errorf("a body of %d bytes was answered %d times: %.200s", len(body), n, got)
		}
	}
}

func TestCutOffBodyIsNotTakenForWhole(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	// Small bodies come in with the head, where fasthttp itself counts them.
	body := `{"cursor":"","pad":"` + strings.Repeat("x", 40_000) + `"}`
	request := fmt.Sprintf("POST %s HTTP/1.1\r\nHost: localhost\r\nAuthorization: %s\r\nContent-Length: %d\r\n\r\n%s",
		ann.of("/sync"), ann.header.Get("Authorization"), len(body)+50, body)
	if got := s.raw(t, request); !strings.HasPrefix(got, "HTTP/1.1 400") || !strings.Contains(got, "cut_off") {
		t.Errorf("a cut-off request was answered with %.200s", got)
	}
	photo := picture(t, 300, 300, 10)
	head := fmt.Sprintf("PATCH %s HTTP/1.1\r\nHost: localhost\r\nAuthorization: %s\r\nUpload-Offset: 0\r\nUpload-Length: %d\r\nContent-Length: %d\r\n\r\n",
		ann.medium(photo), ann.header.Get("Authorization"), len(photo), len(photo))
	half := len(photo) / 2
	s.raw(t, head+string(photo[:half]))
	ann.send(http.MethodHead, ann.medium(photo), nil).mustTell(half, "?0")
	ann.piece(photo, half, len(photo)).mustBe(http.StatusNoContent).mustTell(len(photo), "?1")
}

func TestChunkedBodiesAreCounted(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	reader, writer := io.Pipe()
	go func() {
		out := bufio.NewWriter(writer)
		for range 9 << 10 {
			if _, err := out.Write(make([]byte, 1<<10)); err != nil {
				break
			}
		}
		writer.CloseWithError(out.Flush())
	}()
	request, err := http.NewRequest(http.MethodPost, s.url+ann.of("/sync"), reader)
	if err != nil {
		t.Fatal(err)
	}
	request.Header = ann.header
	answer, err := ann.http.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	if answer.StatusCode != http.StatusRequestEntityTooLarge {
		t.Errorf("status %d", answer.StatusCode)
	}
}

// A movedClock is a clock that a test can set.
type movedClock struct{ offset atomic.Int64 }

func (c *movedClock) now() time.Time { return time.Now().Add(time.Duration(c.offset.Load())) }

func TestServerWhoseClockWentBackIsNotReady(t *testing.T) {
	clock := &movedClock{}
	s := startWorld(t, "", &console{now: clock.now})
	ann := joins(t, s.url, s.join, "Ann")
	ann.sync("", newChange(newRef("observation"), map[string]any{"note": "x"}))
	ann.send(http.MethodGet, "/readyz", nil).mustBe(http.StatusOK)
	clock.offset.Store(-int64(48 * time.Hour))
	ann.send(http.MethodGet, "/readyz", nil).mustRefuse(http.StatusServiceUnavailable, "not_ready")
	ann.send(http.MethodGet, "/healthz", nil).mustBe(http.StatusOK)
	body := map[string]any{"changes": []testChange{newChange(newRef("observation"), map[string]any{"note": "y"})}}
	ann.postJSON(ann.of("/sync"), body).mustRefuse(http.StatusServiceUnavailable, "clock_behind")
}

func TestJoinCodeExpires(t *testing.T) {
	clock := &movedClock{}
	s := startWorld(t, "", &console{now: clock.now})
	clock.offset.Store(int64(24*time.Hour - time.Minute))
	ann := joins(t, s.url, s.join, "Ann")
	var made struct{ Code string }
	ann.postJSON(ann.of("/invites"), map[string]string{"role": "helper"}).mustBe(http.StatusCreated).decode(&made)
	clock.offset.Add(int64(24*time.Hour + time.Minute))
	ann.postJSON("/api/v1/join", joinBody(made.Code)).mustRefuse(http.StatusForbidden, "join_code_expired")
}
