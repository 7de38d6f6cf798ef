package main

import (
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"
)

func TestFirstStartMakesAnEmptyGardenAndAKeeper(t *testing.T) {
	s := startServer(t, "")
	keeper := joins(t, s.url, s.join, "Ann")
	var me struct {
		Device  struct{ ID, Name string }
		Gardens []struct{ Garden, Member, Name, Role string }
	}
	keeper.send(http.MethodGet, "/api/v1/me", nil).mustBe(http.StatusOK).decode(&me)
	if len(me.Gardens) != 1 || me.Gardens[0].Role != "keeper" || me.Gardens[0].Name != "Ann" || me.Device.Name != "Ann's phone" {
		t.Errorf("me: %+v", me)
	}
	page := keeper.pull("")
	if len(page.Records) != 1 || page.Records[0].Record != "garden/"+keeper.garden || string(page.Records[0].Fields["timeZone"]) != `"UTC"` {
		t.Errorf("a new garden holds %+v", page.Records)
	}
}

func TestSecondStartAsksForNoKeeper(t *testing.T) {
	s := startServer(t, "")
	joins(t, s.url, s.join, "Ann")
	s.stop()
	again := startServer(t, s.dir)
	if again.join != "" {
		t.Error("a garden that has a keeper was given another join code at the start")
	}
}

func TestStartWithoutAnyKeeperGivesANewCode(t *testing.T) {
	s := startServer(t, "")
	s.stop()
	again := startServer(t, s.dir)
	if again.join == "" || again.join == s.join {
		t.Errorf("second code %q after %q", again.join, s.join)
	}
	joins(t, again.url, again.join, "Ann")
}

func TestInviteWorksOnceUnderARace(t *testing.T) {
	s := startServer(t, "")
	keeper := joins(t, s.url, s.join, "Ann")
	var made struct{ Code, URL string }
	keeper.postJSON(keeper.of("/invites"), map[string]string{"role": "helper"}).mustBe(http.StatusCreated).decode(&made)
	if made.URL != s.url+"/join#"+made.Code {
		t.Errorf("url %q", made.URL)
	}
	const racers = 12
	answers, clients := make([]*answer, racers), make([]*testClient, racers)
	for i := range racers {
		clients[i] = newClient(t, s.url)
	}
	var wait sync.WaitGroup
	start := make(chan struct{})
	for i := range racers {
		wait.Go(func() {
			<-start
			answers[i] = clients[i].postJSON("/api/v1/join", map[string]string{"code": made.Code, "device": "d", "name": "n"})
		})
	}
	close(start)
	wait.Wait()
	joined := 0
	for _, a := range answers {
		if a.status == http.StatusOK {
			joined++
			continue
		}
		a.mustRefuse(http.StatusForbidden, "join_code_used")
	}
	if joined != 1 {
		t.Errorf("%d devices came in on one code", joined)
	}
}

func TestJoinCodeForgivesTyping(t *testing.T) {
	s := startServer(t, "")
	typed := strings.ToUpper(s.join[:6] + "-" + s.join[6:13] + " " + s.join[13:])
	joins(t, s.url, strings.NewReplacer("0", "O", "1", "l").Replace(typed), "Ann")
}

func TestJoinRefusals(t *testing.T) {
	s := startServer(t, "")
	cases := []struct {
		name, code, device, person string
		status                     int
		refusal                    string
	}{
		{"unknown code", "7zzzzzzzzzzzzzzzzzzzzzzzzz", "d", "n", http.StatusForbidden, "join_code_unknown"},
		{"no device name", s.join, " ", "n", http.StatusBadRequest, "invalid_device"},
		{"no name", s.join, "d", "", http.StatusBadRequest, "invalid_name"},
		{"a name too long", s.join, "d", strings.Repeat("x", 61), http.StatusBadRequest, "invalid_name"},
	}
	client := newClient(t, s.url)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			body := map[string]string{"code": c.code, "device": c.device, "name": c.person}
			client.postJSON("/api/v1/join", body).mustRefuse(c.status, c.refusal)
		})
	}
	client.send(http.MethodPost, "/api/v1/join", []byte("{")).mustRefuse(http.StatusBadRequest, "bad_json")
	shape := client.send(http.MethodPost, "/api/v1/join", []byte(`{"code":7}`)).mustRefuse(http.StatusBadRequest, "bad_json")
	if why := string(shape.body); !strings.Contains(why, "code cannot be a number") || strings.Contains(why, "Go ") {
		t.Errorf("%s", why)
	}
	list := client.send(http.MethodPost, "/api/v1/join", []byte(`[]`)).mustRefuse(http.StatusBadRequest, "bad_json")
	if !strings.Contains(string(list.body), "the body cannot be an array") {
		t.Errorf("%s", list.body)
	}
	joins(t, s.url, s.join, "Ann") // the refusals used nothing up
}

func TestJoinIsLimited(t *testing.T) {
	s := startServer(t, "")
	client := newClient(t, s.url)
	body := map[string]string{"code": "7zzzzzzzzzzzzzzzzzzzzzzzzz", "device": "d", "name": "n"}
	for range 20 {
		client.postJSON("/api/v1/join", body).mustRefuse(http.StatusForbidden, "join_code_unknown")
	}
	client.postJSON("/api/v1/join", body).mustRefuse(http.StatusTooManyRequests, "too_many_joins")
	// A made-up forwarding header does not make another address of the caller.
	client.header.Set("X-Forwarded-For", "198.51.100.9")
	client.postJSON("/api/v1/join", body).mustRefuse(http.StatusTooManyRequests, "too_many_joins")
}

func TestTrustedProxySeparatesCallers(t *testing.T) {
	s := startServer(t, "", "--trusted-proxy", "127.0.0.0/8,::1/128")
	client := newClient(t, s.url)
	body := map[string]string{"code": "7zzzzzzzzzzzzzzzzzzzzzzzzz", "device": "d", "name": "n"}
	client.header.Set("X-Forwarded-For", "203.0.113.1, 198.51.100.9")
	for range 20 {
		client.postJSON("/api/v1/join", body).mustRefuse(http.StatusForbidden, "join_code_unknown")
	}
	client.header.Set("X-Forwarded-For", "203.0.113.77, 198.51.100.9") // the first part is whatever the caller made up
	client.postJSON("/api/v1/join", body).mustRefuse(http.StatusTooManyRequests, "too_many_joins")
	client.header.Set("X-Forwarded-For", "2001:db8:1:2::1")
	for range 20 {
		client.postJSON("/api/v1/join", body).mustRefuse(http.StatusForbidden, "join_code_unknown")
	}
	client.header.Set("X-Forwarded-For", "2001:db8:1:2:ffff::9") // the same network
	client.postJSON("/api/v1/join", body).mustRefuse(http.StatusTooManyRequests, "too_many_joins")
	client.header.Set("X-Forwarded-For", "198.51.100.10")
	client.postJSON("/api/v1/join", body).mustRefuse(http.StatusForbidden, "join_code_unknown")
}

// Some proxies leave the caller's line as it is and add one of their own.
func TestForwardingLinesAreOneList(t *testing.T) {
	s := startServer(t, "", "--trusted-proxy", "127.0.0.0/8,::1/128")
	body := `{"code":"7zzzzzzzzzzzzzzzzzzzzzzzzz","device":"d","name":"n"}`
	for i := range 21 {
		got := s.raw(t, fmt.Sprintf("POST /api/v1/join HTTP/1.1\r\nHost: localhost\r\nX-Forwarded-For: 203.0.113.%d\r\nX-Forwarded-For: 198.51.100.9\r\nContent-Length: %d\r\n\r\n%s", i, len(body), body))
		if limited := strings.HasPrefix(got, "HTTP/1.1 429"); limited != (i == 20) {
			t.Fatalf("try %d was answered with %.100s", i+1, got)
		}
	}
}

func TestSecondGardenKeepsTheDevice(t *testing.T) {
	s := startServer(t, "")
	keeper := joins(t, s.url, s.join, "Ann")
	var made struct{ Code string }
	keeper.postJSON(keeper.of("/invites"), map[string]string{"role": "viewer"}).mustBe(http.StatusCreated).decode(&made)
	var told struct{ Role, Member string }
	keeper.postJSON("/api/v1/join", map[string]string{"code": made.Code, "device": "d", "name": "Ann"}).mustBe(http.StatusOK).decode(&told)
	if told.Role != "keeper" || told.Member != keeper.member {
		t.Errorf("a keeper who used a viewer's code became %+v", told)
	}
}

func TestOneDeviceInTwoGardens(t *testing.T) {
	dir := t.TempDir()
	first := startServer(t, dir)
	ann := joins(t, first.url, first.join, "Ann")
	own := ann.garden
	first.stop()
	s := startServer(t, dir, "--demo")
	ann.base = s.url
	ann.send(http.MethodPost, "/api/v1/demo", nil).mustBe(http.StatusOK)
	var me struct {
		Gardens []struct{ Garden, Member string }
	}
	ann.send(http.MethodGet, "/api/v1/me", nil).mustBe(http.StatusOK).decode(&me)
	if len(me.Gardens) != 2 || me.Gardens[0].Garden != own || me.Gardens[1].Garden != demoGarden {
		t.Fatalf("%+v", me)
	}
	ann.garden, ann.member = demoGarden, me.Gardens[1].Member
	var told struct{ Devices []struct{ Device string } }
	ann.send(http.MethodGet, ann.of("/devices"), nil).mustBe(http.StatusOK).decode(&told)
	ann.send(http.MethodDelete, ann.of("/devices/"+told.Devices[0].Device), nil).mustBe(http.StatusNoContent)
	ann.postJSON(ann.of("/sync"), map[string]any{}).mustRefuse(http.StatusForbidden, "not_a_member")
	ann.garden = own
	ann.pull("") // shut out of one garden, at home in the other
}

func TestRemovedKeeperDoesNotComeBackByACodeOfTheirOwn(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	dora := ann.invites("keeper", "Dora")
	var made struct{ Code string }
	dora.postJSON(dora.of("/invites"), map[string]string{"role": "keeper"}).mustBe(http.StatusCreated).decode(&made)
	ann.send(http.MethodDelete, ann.of("/members/"+dora.member), nil).mustBe(http.StatusNoContent)
	newClient(t, s.url).postJSON("/api/v1/join", joinBody(made.Code)).mustRefuse(http.StatusForbidden, "join_code_unknown")
}
