package main

import (
	"bytes"
	"encoding/json"
	"net/http"
	"testing"
	"time"

	"haulm/almanac/verbs"
	"haulm/garden"
	"haulm/server/demo"
)

// demoClient is a program that opened the invented garden as it ships.
func demoClient(t testing.TB) *testClient {
	t.Helper()
	s := startWorld(t, "", &console{now: time.Now, demo: demo.Records}, "--demo")
	c := newClient(t, s.url)
	var told struct{ Token, Garden string }
	c.send(http.MethodPost, "/api/v1/demo", nil).mustBe(http.StatusOK).decode(&told)
	c.header.Set("Authorization", "Bearer "+told.Token)
	c.garden = told.Garden
	return c
}

func TestDemoGardenIsSownWhole(t *testing.T) {
	c := demoClient(t)
	records, err := demo.Records()
	if err != nil {
		t.Fatal(err)
	}
	sown := map[string]feedRecord{}
	for _, r := range c.pullAll() {
		sown[r.Record] = r
	}
	if len(sown) != len(records) {
		t.Errorf("%d records, want %d", len(sown), len(records))
	}
	for _, want := range records {
		got := sown[want.Ref.String()]
		for name, value := range want.Fields {
			if string(value) != "null" && !bytes.Equal(got.Fields[name], value) {
				t.Fatalf("%s: %s is %s, want %s", want.Ref, name, got.Fields[name], value)
			}
		}
	}
}

func TestAssessmentIsTheAlmanacsOwn(t *testing.T) {
	c := demoClient(t)
	records, err := demo.Records()
	if err != nil {
		t.Fatal(err)
	}
	for name, on := range map[string]garden.Day{"today in the garden": demo.Today(), "an earlier day": demo.Today() - 60} {
		t.Run(name, func(t *testing.T) {
			asked, err := json.Marshal(map[string]any{"on": on, "records": records})
			if err != nil {
				t.Fatal(err)
			}
			want, err := verbs.Run("assess", asked)
			if err != nil {
				t.Fatal(err)
			}
			path := c.of("/assessment?on=" + on.String())
			if on == demo.Today() {
				path = c.of("/assessment")
			}
			got := c.send(http.MethodGet, path, nil).mustBe(http.StatusOK).body
			if !bytes.Equal(bytes.TrimSpace(got), bytes.TrimSpace(want)) {
				t.Errorf("the server answers %.300s\nthe almanac %.300s", got, want)
			}
			if !bytes.Contains(got, []byte(`"findings":[{`)) {
				t.Error("the demo garden has no findings")
			}
		})
	}
	c.send(http.MethodGet, c.of("/assessment?on=soon"), nil).mustRefuse(http.StatusBadRequest, "invalid_day")
}
