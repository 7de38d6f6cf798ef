package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"
	"github.com/getkin/kin-openapi/routers/legacy"

	"haulm/garden"
)

// patience bounds every wait in these tests; none of them measures time.
const patience = 10 * time.Second

// A testServer is haulm serve, run as main runs it, on a port of its own.
type testServer struct {
	dir string
	url string // the public address
	// listening is where it listens; with --public-url that is another address
	listening string
	join      string // the first keeper's code

	trust, fingerprint string // with --tls local

	log  *lockedBuffer
	stop func() int // ends it and gives the exit code
}

type lockedBuffer struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (b *lockedBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.Write(p)
}

func (b *lockedBuffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.String()
}

// startServer runs the server in a folder; "" makes one.
func startServer(t testing.TB, dir string, flags ...string) *testServer {
	t.Helper()
	return startWorld(t, dir, &console{now: time.Now, demo: smallDemo}, flags...)
}

// smallDemo stands in for the invented garden where only its opening matters.
func smallDemo() ([]garden.Record, error) {
	return []garden.Record{{Ref: garden.Ref{Kind: garden.GardenRecord, ID: demoGarden}, Fields: garden.Fields{
		"name": []byte(`"Small"`), "timeZone": []byte(`"America/Los_Angeles"`), "clock": []byte(`"2025-06-20"`)}}}, nil
}

// startWorld does so with a clock and a demo garden of the test's own.
func startWorld(t testing.TB, dir string, world *console, flags ...string) *testServer {
	t.Helper()
	if dir == "" {
		dir = t.TempDir()
	}
	ctx, cancel := context.WithCancel(context.Background())
	said, saying := io.Pipe()
	s := &testServer{dir: dir, log: &lockedBuffer{}}
	done := make(chan int, 1)
	args := append([]string{"serve", "--data", dir, "--listen", "localhost:0", "--log-level", "debug"}, flags...)
	go func() {
		world.in, world.out, world.err = strings.NewReader(""), saying, s.log
		code := run(ctx, args, world)
		saying.Close()
		done <- code
	}()
	s.stop = sync.OnceValue(func() int {
		cancel()
		select {
		case code := <-done:
			return code
		case <-time.After(patience):
			t.Error("the server did not stop")
			return -1
		}
	})
	t.Cleanup(func() { s.stop() })
	s.listenTo(t, said)
	return s
}

// listenTo reads what the server says up to its last line before it serves.
func (s *testServer) listenTo(t testing.TB, said io.Reader) {
	t.Helper()
	lines := bufio.NewScanner(said)
	for lines.Scan() {
		s.hear(lines.Text())
		if strings.HasPrefix(lines.Text(), "stop: ") {
			go io.Copy(io.Discard, said)
			return
		}
	}
	t.Fatalf("the server did not start: %s", s.log)
}

func (s *testServer) hear(line string) {
	if open, found := strings.CutPrefix(line, "open: "); found {
		s.url = open
		if strings.HasPrefix(open, "http://localhost:") {
			s.listening = open
		}
	}
	if at, found := strings.CutPrefix(line, "listening: "); found {
		s.listening = "http://" + at
	}
	if trust, found := strings.CutPrefix(line, "trust: "); found {
		s.trust, _, _ = strings.Cut(trust, ",")
	}
	if strings.Count(line, ":") == 31 {
		s.fingerprint = strings.TrimSpace(line)
	}
	if join, found := strings.CutPrefix(line, "join: "); found {
		_, s.join, _ = strings.Cut(join, "#")
	}
}

// A testClient is one device, whose answers are held to openapi.json.
type testClient struct {
	t      testing.TB
	base   string
	http   *http.Client
	router routers.Router
	garden string
	member string
	header http.Header
}

func newClient(t testing.TB, base string) *testClient {
	t.Helper()
	c := &testClient{t: t, base: base, http: &http.Client{Transport: &http.Transport{}}, header: http.Header{}}
	t.Cleanup(c.http.CloseIdleConnections)
	description := c.send(http.MethodGet, "/api/v1/openapi.json", nil).mustBe(http.StatusOK).body
	doc, err := openapi3.NewLoader().LoadFromData(description)
	if err != nil {
		t.Fatal(err)
	}
	if c.router, err = legacy.NewRouter(doc); err != nil {
		t.Fatal(err)
	}
	return c
}

// joins makes a device that has used a code, with a bearer token.
func joins(t testing.TB, base, code, name string) *testClient {
	t.Helper()
	c := newClient(t, base)
	var told struct{ Token, Garden, Member string }
	c.postJSON("/api/v1/join", map[string]string{"code": code, "device": name + "'s phone", "name": name}).
		mustBe(http.StatusOK).decode(&told)
	if told.Token == "" {
		t.Fatal("no token for a program")
	}
	c.garden, c.member = told.Garden, told.Member
	c.header.Set("Authorization", "Bearer "+told.Token)
	return c
}

func (c *testClient) of(path string) string { return "/api/v1/gardens/" + c.garden + path }

// invites makes a code and has another device use it.
func (c *testClient) invites(role, name string) *testClient {
	c.t.Helper()
	var made struct{ Code string }
	c.postJSON(c.of("/invites"), map[string]string{"role": role}).mustBe(http.StatusCreated).decode(&made)
	return joins(c.t, c.base, made.Code, name)
}

// An answer is a response read to its end.
type answer struct {
	t      testing.TB
	status int
	header http.Header
	body   []byte
}

func (c *testClient) postJSON(path string, body any) *answer {
	c.t.Helper()
	text, err := json.Marshal(body)
	if err != nil {
		c.t.Fatal(err)
	}
	return c.send(http.MethodPost, path, text, "Content-Type", "application/json")
}

// send asks; headers are name, value, name, value …
func (c *testClient) send(method, path string, body []byte, headers ...string) *answer {
	c.t.Helper()
	request, err := http.NewRequest(method, c.base+path, bytes.NewReader(body))
	if err != nil {
		c.t.Fatal(err)
	}
	for name, values := range c.header {
		request.Header[name] = values
	}
	for i := 0; i < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
		if headers[i] == "Host" {
			request.Host = headers[i+1]
		}
	}
	response, err := c.http.Do(request)
	if err != nil {
		c.t.Fatal(err)
	}
	defer response.Body.Close()
	got, err := io.ReadAll(response.Body)
	if err != nil {
		c.t.Fatal(err)
	}
	c.holdToDescription(request, response, got)
	return &answer{c.t, response.StatusCode, response.Header, got}
}

// holdToDescription checks an answer of the API against openapi.json.
func (c *testClient) holdToDescription(request *http.Request, response *http.Response, body []byte) {
	c.t.Helper()
	if c.router == nil || !strings.HasPrefix(request.URL.Path, "/api/") && request.URL.Path != "/healthz" && request.URL.Path != "/readyz" {
		return
	}
	plain := request.Clone(context.Background())
	plain.URL = &url.URL{Path: request.URL.Path, RawQuery: request.URL.RawQuery}
	route, params, err := c.router.FindRoute(plain)
	if err != nil {
		if response.StatusCode == http.StatusNotFound {
			return
		}
		c.t.Errorf("%s %s is not in openapi.json: %v", request.Method, request.URL.Path, err)
		return
	}
	input := &openapi3filter.ResponseValidationInput{
		RequestValidationInput: &openapi3filter.RequestValidationInput{Request: plain, PathParams: params, Route: route},
		Status:                 response.StatusCode, Header: response.Header, Body: io.NopCloser(bytes.NewReader(body)),
		Options: &openapi3filter.Options{IncludeResponseStatus: true, ExcludeResponseBody: bodiless(request, response)},
	}
	if err := openapi3filter.ValidateResponse(context.Background(), input); err != nil {
		c.t.Errorf("%s %s: the answer is not as openapi.json says: %v\n%.400s", request.Method, request.URL.Path, err, body)
	}
}

// bodiless tells answers whose bytes are not JSON, or that have none.
func bodiless(request *http.Request, response *http.Response) bool {
	return request.Method == http.MethodHead || !strings.Contains(response.Header.Get("Content-Type"), "json")
}

func (a *answer) mustBe(status int) *answer {
	a.t.Helper()
	if a.status != status {
		a.t.Fatalf("status %d, want %d: %.500s", a.status, status, a.body)
	}
	return a
}

// mustRefuse checks the status and the code, and that a sentence is there.
func (a *answer) mustRefuse(status int, code string) *answer {
	a.t.Helper()
	a.mustBe(status)
	var told struct{ Code, Why string }
	a.decode(&told)
	if told.Code != code || len(told.Why) < 20 {
		a.t.Fatalf("refused with %q (%s), want %q and a sentence", told.Code, told.Why, code)
	}
	return a
}

func (a *answer) decode(into any) *answer {
	a.t.Helper()
	if err := json.Unmarshal(a.body, into); err != nil {
		a.t.Fatalf("%v in %.300s", err, a.body)
	}
	return a
}
