package main

import (
	"net/http"
	"regexp"
	"strings"
	"testing"
)

// Requests on one connection share their buffers, so a label that still points
// into them says something else with the next request.
func TestMetricsKeepTheirLabelsOnABusyConnection(t *testing.T) {
	s := startServer(t, "")
	c := newClient(t, s.url)
	for range 5 {
		for _, method := range []string{"GET", "OPTIONS", "PUT", "DELETE", "HEAD", "POST", "CONNECT", "PATCH", "TRACE"} {
			s.raw(t, strings.Repeat(method+" /healthz HTTP/1.1\r\nHost: localhost\r\n\r\nGET /today HTTP/1.1\r\nHost: localhost\r\n\r\n", 2))
			c.send(method, "/healthz", nil)
		}
	}
	text := string(c.send(http.MethodGet, "/metrics", nil).mustBe(http.StatusOK).body)
	known := map[string]bool{"GET": true, "HEAD": true, "POST": true, "PUT": true, "PATCH": true, "DELETE": true, "other": true}
	labels := regexp.MustCompile(`method="([^"]*)"`).FindAllStringSubmatch(text, -1)
	if len(labels) == 0 {
		t.Fatal("no request was counted by its method")
	}
	for _, label := range labels {
		if !known[label[1]] {
			t.Fatalf("a request was counted under the method %q", label[1])
		}
	}
}
