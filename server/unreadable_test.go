package main

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
)

// secret stands for the token of another request on the same connection, as
// behind a proxy: what cannot be read must not tell it.
const secret = "SECRET-0192"

func TestUnreadableRequestsTellNothing(t *testing.T) {
	s := startServer(t, "")
	next := "GET /api/v1/me HTTP/1.1\r\nHost: localhost\r\nAuthorization: Bearer " + secret + "\r\n\r\n"
	chunked := "POST /api/v1/join HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\n\r\n"
	cases := []struct{ name, request, code string }{
		{"a trailer that may not be one", chunked + "2\r\n{}\r\n0\r\nAuthorization: x\r\n\r\n" + next, "bad_body"},
		{"a chunk without a size", chunked + secret + "\r\n{}\r\n0\r\n\r\n" + next, "bad_body"},
		{"a chunk that does not end", chunked + "2\r\n{}" + secret + "\r\n0\r\n\r\n" + next, "bad_body"},
		{"a body that stops", chunked + "50\r\n{" + secret, "bad_body"},
		{"a header with a bad name", "GET /healthz HTTP/1.1\r\nHost: localhost\r\nAuthorization: Bearer " + secret + "\r\nBad Name: x\r\n\r\n", "bad_request"},
		{"a header without an end", "GET /healthz HTTP/1.1\r\nHost: localhost\r\nCookie: " + secret + "\r\nno colon\r\n\r\n", "bad_request"},
		{"headers too large", "GET /healthz HTTP/1.1\r\nHost: localhost\r\nCookie: " + secret + strings.Repeat("x", 20_000) + "\r\n\r\n", "headers_too_large"},
		{"a method of nobody's", "FOO / HTTP/1.1\r\nHost: localhost\r\nCookie: " + secret + "\r\n\r\n", "unknown_method"},
		{"no HTTP at all", secret + "\r\n\r\n", "bad_request"},
		{"two hosts", "GET /healthz HTTP/1.1\r\nHost: localhost\r\nHost: localhost\r\nCookie: " + secret + "\r\n\r\n", "bad_host"},
		{"a host with a name before it", "GET /healthz HTTP/1.1\r\nHost: " + secret + "@localhost\r\n\r\n", "bad_host"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := s.raw(t, c.request)
			head, _, _ := strings.Cut(got, "\r\n\r\n")
			if !strings.HasPrefix(got, "HTTP/1.1 400") || !strings.Contains(got, fmt.Sprintf(`"code":%q`, c.code)) || strings.Contains(got, secret) {
				t.Errorf("answered with %.1200s", got)
			}
			for _, want := range []string{"Cache-Control: no-store", "X-Content-Type-Options: nosniff", "Content-Security-Policy: default-src 'none'"} {
				if !strings.Contains(head, want) {
					t.Errorf("the answer lacks %s: %s", want, head)
				}
			}
		})
	}
	if log := s.log.String(); strings.Contains(log, secret) || strings.Contains(log, `"level":"ERROR"`) {
		t.Errorf("the log tells %s", log)
	}
}

func TestOnlyTheAppAndPhotosMayBeKept(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	for _, path := range []string{"/healthz", "/readyz", "/metrics", "/API/v1/me", "/api/V1/openapi.json", "/nothing.js", ann.of("/members"), ann.of("/nothing")} {
		a := ann.send(http.MethodGet, path, nil)
		if kept := a.header.Get("Cache-Control"); kept != "no-store" && !(strings.Contains(a.header.Get("Content-Type"), "text/html") && kept == "no-cache") {
			t.Errorf("%s: %q for %s", path, kept, a.body)
		}
		if strings.EqualFold(path, "/api/v1/me") && strings.Contains(string(a.body), "Ann") {
			t.Errorf("%s is answered as if it were in small letters", path)
		}
	}
}
