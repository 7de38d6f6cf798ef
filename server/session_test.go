package main

import (
	"net/http"
	"strings"
	"testing"
	"time"
)

// browser makes a client that behaves as the app's page in a browser does: it
// says where its requests come from, and keeps the cookie itself.
func browser(t testing.TB, s *testServer, path string, body any) *testClient {
	t.Helper()
	c := newClient(t, s.url)
	c.header.Set("Origin", s.url)
	c.header.Set("Sec-Fetch-Site", "same-origin")
	joined := c.postJSON(path, body).mustBe(http.StatusOK)
	var told struct{ Token, Garden, Member string }
	joined.decode(&told)
	if told.Token != "" {
		t.Error("a browser was given its token where scripts can read it")
	}
	c.garden, c.member = told.Garden, told.Member
	cookie := cookieOf(t, joined)
	if !cookie.Secure || !cookie.HttpOnly || cookie.SameSite != http.SameSiteStrictMode || cookie.Path != "/" || cookie.Domain != "" || cookie.MaxAge <= 0 {
		t.Errorf("cookie %+v", cookie)
	}
	c.header.Set("Cookie", cookie.Name+"="+cookie.Value)
	return c
}

func cookieOf(t testing.TB, a *answer) *http.Cookie {
	t.Helper()
	for _, cookie := range (&http.Response{Header: a.header}).Cookies() {
		if cookie.Name == "__Host-haulm" {
			return cookie
		}
	}
	t.Fatalf("no cookie in %v", a.header)
	return nil
}

func joinBody(code string) map[string]string {
	return map[string]string{"code": code, "device": "browser", "name": "Ann"}
}

func TestCookieIsADeviceInABrowser(t *testing.T) {
	s := startServer(t, "")
	c := browser(t, s, "/api/v1/join", joinBody(s.join))
	if got := c.sync("", newChange(newRef("observation"), map[string]any{"note": "x"})); len(got.Applied) != 1 {
		t.Errorf("%+v", got)
	}
	if renewed := cookieOf(t, c.send(http.MethodGet, "/api/v1/me", nil).mustBe(http.StatusOK)); renewed.MaxAge <= 0 {
		t.Error("me does not renew the cookie")
	}
	gone := cookieOf(t, c.send(http.MethodPost, "/api/v1/logout", nil).mustBe(http.StatusNoContent))
	if gone.Value != "" || gone.Expires.After(time.Now()) {
		t.Errorf("after logout the cookie is %+v", gone)
	}
	c.send(http.MethodGet, "/api/v1/me", nil).mustRefuse(http.StatusUnauthorized, "unknown_device")
}

func TestForeignPagesChangeNothing(t *testing.T) {
	s := startServer(t, "")
	c := browser(t, s, "/api/v1/join", joinBody(s.join))
	cases := []struct{ name, origin string }{
		{"no origin", ""},
		{"another site", "https://example.org"},
		{"another port of this machine", "http://localhost:1"},
		{"the other name of this machine", strings.Replace(s.url, "localhost", "127.0.0.1", 1)},
		{"a hidden origin", "null"},
	}
	for _, one := range cases {
		t.Run(one.name, func(t *testing.T) {
			c.send(http.MethodPost, c.of("/sync"), []byte("{}"), "Origin", one.origin).mustRefuse(http.StatusForbidden, "foreign_origin")
			c.send(http.MethodPost, "/api/v1/logout", nil, "Origin", one.origin).mustRefuse(http.StatusForbidden, "foreign_origin")
		})
	}
	c.send(http.MethodGet, "/api/v1/me", nil, "Origin", "").mustBe(http.StatusOK)
}

func TestBearerNeedsNoOrigin(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ann.pull("")
	ann.send(http.MethodPost, ann.of("/sync"), []byte("{}"), "Origin", "https://example.org").mustRefuse(http.StatusForbidden, "foreign_origin")
	for name, value := range map[string]string{"no scheme": "x", "a wrong token": "Bearer AAAA", "another scheme": "Basic AAAA"} {
		t.Run(name, func(t *testing.T) {
			if got := ann.send(http.MethodGet, "/api/v1/me", nil, "Authorization", value); got.status != http.StatusUnauthorized {
				t.Errorf("status %d", got.status)
			}
		})
	}
}

func TestForeignHostIsRefused(t *testing.T) {
	s := startServer(t, "", "--public-url", "https://garden.example.org")
	c := newClient(t, s.listening)
	c.send(http.MethodGet, "/healthz", nil, "Host", "rebound.example.com").mustRefuse(http.StatusForbidden, "unknown_host")
	c.send(http.MethodGet, "/healthz", nil, "Host", "garden.example.org").mustBe(http.StatusOK)
	c.send(http.MethodGet, "/healthz", nil, "Host", "GARDEN.example.org:443").mustBe(http.StatusOK)
	c.send(http.MethodGet, "/healthz", nil, "Host", "localhost.example.com").mustRefuse(http.StatusForbidden, "unknown_host")
}

func TestEveryAnswerCarriesThePolicy(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	for _, path := range []string{"/", "/today", "/api/v1/me", "/api/v1/nothing", "/nothing.js", "/healthz", ann.of("/members")} {
		header := ann.send(http.MethodGet, path, nil).header
		policy := header.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'", "connect-src 'self'", "frame-ancestors 'none'"} {
			if !strings.Contains(policy, want) {
				t.Errorf("%s: policy %q lacks %s", path, policy, want)
			}
		}
		if strings.Contains(policy, "unsafe-inline") || strings.Contains(policy, "'unsafe-eval'") {
			t.Errorf("%s: policy %q", path, policy)
		}
		if header.Get("X-Content-Type-Options") != "nosniff" || header.Get("Referrer-Policy") != "no-referrer" || header.Get("X-Request-Id") == "" {
			t.Errorf("%s: headers %v", path, header)
		}
	}
}

func TestDemoOpensOnThisMachineAlone(t *testing.T) {
	s := startServer(t, "", "--demo")
	if s.join != "" {
		t.Error("the demo needs no join code")
	}
	c := browser(t, s, "/api/v1/demo", nil)
	if c.garden != "demo" {
		t.Errorf("garden %q", c.garden)
	}
	var again struct{ Garden, Member string }
	c.send(http.MethodPost, "/api/v1/demo", nil).mustBe(http.StatusOK).decode(&again)
	if again.Member != c.member {
		t.Error("opening the demo again made another member of the same browser")
	}
	foreign := newClient(t, s.url)
	for _, header := range []string{"X-Forwarded-For", "Forwarded", "X-Forwarded-Host", "X-Real-Ip", "Via"} {
		foreign.send(http.MethodPost, "/api/v1/demo", nil, header, "203.0.113.4").mustRefuse(http.StatusForbidden, "demo_not_local")
	}
	foreign.send(http.MethodPost, "/api/v1/demo", nil, "Host", "rebound.example.com").mustRefuse(http.StatusForbidden, "unknown_host")
}

func TestDemoBehindAPublicNameIsRefused(t *testing.T) {
	s := startServer(t, "", "--demo", "--public-url", "https://garden.example.org")
	c := newClient(t, s.listening)
	c.send(http.MethodPost, "/api/v1/demo", nil, "Host", "garden.example.org").mustRefuse(http.StatusForbidden, "demo_not_local")
	// A proxy on this machine that writes the Host anew and says nothing of itself.
	c.send(http.MethodPost, "/api/v1/demo", nil).mustRefuse(http.StatusForbidden, "demo_not_local")
	proxied := startServer(t, "", "--demo", "--trusted-proxy", "127.0.0.0/8")
	newClient(t, proxied.url).send(http.MethodPost, "/api/v1/demo", nil).mustRefuse(http.StatusForbidden, "demo_not_local")
}

func TestNoDemoWithoutAskingForIt(t *testing.T) {
	s := startServer(t, "")
	newClient(t, s.url).send(http.MethodPost, "/api/v1/demo", nil).mustRefuse(http.StatusNotFound, "no_demo")
}

func TestRevokedDeviceIsShutOut(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ben, cleo := ann.invites("helper", "Ben"), ann.invites("viewer", "Cleo")
	device := thisDevice(ben)
	cleo.send(http.MethodDelete, cleo.of("/devices/"+device), nil).mustRefuse(http.StatusForbidden, "not_your_device")
	ben.pull("")
	ann.send(http.MethodDelete, ann.of("/devices/"+device), nil).mustBe(http.StatusNoContent)
	ben.postJSON(ben.of("/sync"), map[string]any{}).mustRefuse(http.StatusUnauthorized, "unknown_device")
	ben.send(http.MethodGet, "/api/v1/me", nil).mustRefuse(http.StatusUnauthorized, "unknown_device")
	ann.send(http.MethodDelete, ann.of("/devices/"+device), nil).mustRefuse(http.StatusNotFound, "no_such_device")
	cleo.send(http.MethodDelete, cleo.of("/devices/"+thisDevice(cleo)), nil).mustBe(http.StatusNoContent)
	cleo.send(http.MethodGet, "/api/v1/me", nil).mustRefuse(http.StatusUnauthorized, "unknown_device")
}

func thisDevice(c *testClient) string {
	c.t.Helper()
	var told struct {
		Devices []struct {
			Device, Name, Member, MemberName string
			This                             bool
		}
	}
	c.send(http.MethodGet, c.of("/devices"), nil).mustBe(http.StatusOK).decode(&told)
	for _, d := range told.Devices {
		if d.This && d.Member == c.member && strings.HasPrefix(d.Name, d.MemberName) {
			return d.Device
		}
	}
	c.t.Fatalf("this device is not among %+v", told.Devices)
	return ""
}

func TestDeviceIsRenamedByItself(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ben := ann.invites("viewer", "Ben")
	rename := func(name string) *answer {
		text := mustJSON(map[string]string{"name": name})
		return ben.send(http.MethodPatch, ben.of("/device"), []byte(text), "Content-Type", "application/json")
	}
	rename("  Ben’s tablet ").mustBe(http.StatusNoContent)
	var told struct {
		Devices []struct{ Name, Member string }
	}
	ann.send(http.MethodGet, ann.of("/devices"), nil).mustBe(http.StatusOK).decode(&told)
	if len(told.Devices) != 2 || told.Devices[0].Name != "Ann's phone" || told.Devices[1].Name != "Ben’s tablet" {
		t.Errorf("%+v", told.Devices)
	}
	var me struct{ Device struct{ Name string } }
	ben.send(http.MethodGet, "/api/v1/me", nil).mustBe(http.StatusOK).decode(&me)
	if me.Device.Name != "Ben’s tablet" {
		t.Errorf("the device is told it is %q", me.Device.Name)
	}
	rename("\u202e").mustRefuse(http.StatusBadRequest, "invalid_device")
	ann.send(http.MethodDelete, ann.of("/devices/"+thisDevice(ben)), nil).mustBe(http.StatusNoContent)
	rename("back").mustRefuse(http.StatusUnauthorized, "unknown_device")
}

func TestRemovedMemberLosesEveryDevice(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ben := ann.invites("helper", "Ben")
	ann.send(http.MethodDelete, ann.of("/members/"+ann.member), nil).mustRefuse(http.StatusConflict, "last_keeper")
	ann.send(http.MethodDelete, ann.of("/members/"+ben.member), nil).mustBe(http.StatusNoContent)
	ben.send(http.MethodGet, "/api/v1/me", nil).mustRefuse(http.StatusUnauthorized, "unknown_device")
	ann.send(http.MethodDelete, ann.of("/members/"+ben.member), nil).mustRefuse(http.StatusNotFound, "no_such_member")
	var told struct {
		Members []struct{ Member, Role string }
	}
	ann.send(http.MethodGet, ann.of("/members"), nil).mustBe(http.StatusOK).decode(&told)
	if len(told.Members) != 1 || told.Members[0].Member != ann.member {
		t.Errorf("%+v", told.Members)
	}
}

func TestEveryGardenRouteChecksMembership(t *testing.T) {
	s := startServer(t, "", "--demo")
	stranger := newClient(t, s.url)
	var told struct{ Token string }
	stranger.send(http.MethodPost, "/api/v1/demo", nil).mustBe(http.StatusOK).decode(&told)
	sha := strings.Repeat("ab", 32)
	routes := []struct{ method, path string }{
		{http.MethodPost, "/sync"}, {http.MethodGet, "/live"}, {http.MethodGet, "/sums"}, {http.MethodGet, "/sums/1"},
		{http.MethodGet, "/assessment"}, {http.MethodGet, "/members"}, {http.MethodDelete, "/members/x"}, {http.MethodGet, "/devices"},
		{http.MethodDelete, "/devices/x"}, {http.MethodPatch, "/device"}, {http.MethodPost, "/invites"}, {http.MethodHead, "/media/" + sha}, {http.MethodPatch, "/media/" + sha},
		{http.MethodGet, "/media/" + sha}, {http.MethodPut, "/media/" + sha + "/preview/320"},
	}
	for _, r := range routes {
		for _, garden := range []string{"demo", "0192aaaa-0000-7000-8000-000000000000"} {
			path := "/api/v1/gardens/" + garden + r.path
			if got := stranger.send(r.method, path, nil); got.status != http.StatusUnauthorized {
				t.Errorf("%s %s without a token: %d", r.method, path, got.status)
			}
		}
		path := "/api/v1/gardens/0192aaaa-0000-7000-8000-000000000000" + r.path
		if got := stranger.send(r.method, path, nil, "Authorization", "Bearer "+told.Token); got.status != http.StatusForbidden {
			t.Errorf("%s %s with another garden's token: %d", r.method, path, got.status)
		}
	}
}

func TestMetricsAreForThisMachineOrAToken(t *testing.T) {
	s := startServer(t, "", "--metrics-token", "watchful")
	c := newClient(t, s.url)
	text := string(c.send(http.MethodGet, "/metrics", nil).mustBe(http.StatusOK).body)
	for _, want := range []string{"haulm_http_requests_total", "haulm_journal_seq", "haulm_live_streams", "haulm_sync_batch_changes"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s", want)
		}
	}
	c.send(http.MethodGet, "/metrics", nil, "X-Forwarded-For", "203.0.113.4").mustRefuse(http.StatusForbidden, "metrics_not_local")
	c.send(http.MethodGet, "/metrics", nil, "X-Forwarded-For", "203.0.113.4", "Authorization", "Bearer watchful").mustBe(http.StatusOK)
}

func TestMetricsOfAPublishedServerNeedTheToken(t *testing.T) {
	for _, published := range [][]string{{"--public-url", "https://garden.example.org"}, {"--trusted-proxy", "127.0.0.0/8,::1/128"}} {
		c := newClient(t, startServer(t, "", append(published, "--metrics-token", "watchful")...).listening)
		c.send(http.MethodGet, "/metrics", nil).mustRefuse(http.StatusForbidden, "metrics_not_local")
		c.send(http.MethodGet, "/metrics", nil, "Authorization", "Bearer wrong").mustRefuse(http.StatusForbidden, "metrics_not_local")
		c.send(http.MethodGet, "/metrics", nil, "Authorization", "Bearer watchful").mustBe(http.StatusOK)
	}
}

func TestLogHoldsNoSecrets(t *testing.T) {
	s := startServer(t, "")
	c := browser(t, s, "/api/v1/join", joinBody(s.join))
	secret := strings.TrimPrefix(c.header.Get("Cookie"), "__Host-haulm=")
	c.sync("", newChange(newRef("observation"), map[string]any{"note": "the key is under the pot"}))
	c.send(http.MethodGet, "/api/v1/nothing?token="+secret, nil)
	log := s.log.String()
	if !strings.Contains(log, `"route":"/api/v1/gardens/:garden/sync"`) || !strings.Contains(log, `"request":"`) {
		t.Fatalf("the log lacks the requests: %.500s", log)
	}
	for _, hidden := range []string{secret, s.join, "under the pot"} {
		if strings.Contains(log, hidden) {
			t.Errorf("the log tells %q", hidden)
		}
	}
}
