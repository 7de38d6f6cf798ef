package main

import (
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
)

type feedRecord struct {
	Record string                     `json:"record"`
	Seq    uint64                     `json:"seq"`
	Fields map[string]json.RawMessage `json:"fields"`
	Also   map[string]json.RawMessage `json:"also"`
	Gone   bool                       `json:"gone"`
}

type synced struct {
	Applied []struct {
		ID  string `json:"id"`
		Seq uint64 `json:"seq"`
	} `json:"applied"`
	Refused []struct{ ID, Code, Why string } `json:"refused"`
	Records []feedRecord                     `json:"records"`
	Cursor  string                           `json:"cursor"`
	More    bool                             `json:"more"`
	Digest  string                           `json:"digest"`
	Now     time.Time                        `json:"now"`
}

type testChange struct {
	ID     string         `json:"id"`
	Record string         `json:"record"`
	Base   uint64         `json:"base"`
	At     string         `json:"at"`
	Set    map[string]any `json:"set,omitempty"`
	Gone   bool           `json:"gone,omitempty"`
}

func newChange(record string, set map[string]any) testChange {
	at := time.Now().UTC().Format("2006-01-02T15:04:05.000Z") + "-0000-phone1"
	return testChange{ID: uuid.Must(uuid.NewV7()).String(), Record: record, At: at, Set: set}
}

func newRef(kind string) string { return kind + "/" + uuid.Must(uuid.NewV7()).String() }

func (c *testClient) sync(cursor string, changes ...testChange) synced {
	c.t.Helper()
	var got synced
	c.postJSON(c.of("/sync"), map[string]any{"cursor": cursor, "changes": changes}).mustBe(http.StatusOK).decode(&got)
	return got
}

func (c *testClient) pull(cursor string) synced { return c.sync(cursor) }

// pullAll reads the feed to its end.
func (c *testClient) pullAll() []feedRecord {
	c.t.Helper()
	var all []feedRecord
	for cursor := ""; ; {
		page := c.pull(cursor)
		all = append(all, page.Records...)
		if cursor = page.Cursor; !page.More {
			return all
		}
	}
}

func mustJSON(value any) string {
	text, err := json.Marshal(value)
	if err != nil {
		panic(err)
	}
	return string(text)
}

func TestPushIsPulledByAnotherDevice(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ben := ann.invites("helper", "Ben")
	before := ben.pull("").Cursor
	ref := newRef("observation")
	pushed := ann.sync("", newChange(ref, map[string]any{"note": "first crocus", "stage": 61}))
	if len(pushed.Applied) != 1 || len(pushed.Refused) != 0 {
		t.Fatalf("pushed: %+v", pushed)
	}
	got := ben.pull(before)
	if len(got.Records) != 1 || got.Records[0].Record != ref || string(got.Records[0].Fields["note"]) != `"first crocus"` {
		t.Fatalf("pulled: %+v", got.Records)
	}
	if by := string(got.Records[0].Fields["by"]); by != `"`+ann.member+`"` {
		t.Errorf("by is %s, want the member who wrote it", by)
	}
	if got.Digest == "" || got.More || got.Now.IsZero() {
		t.Errorf("the last page lacks digest or now: %+v", got)
	}
}

func TestReplayIsAnsweredAlike(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	one := newChange(newRef("observation"), map[string]any{"note": "x"})
	first, again := ann.sync("", one), ann.sync("", one)
	if first.Applied[0] != again.Applied[0] || first.Digest != again.Digest {
		t.Errorf("%+v then %+v", first.Applied, again.Applied)
	}
}

func TestBadChangeIsRefusedByItself(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	good := newChange(newRef("observation"), map[string]any{"stage": 61})
	bad := newChange(newRef("observation"), map[string]any{"stage": 140})
	other := newChange(newRef("garden"), map[string]any{"name": "Elsewhere"})
	got := ann.sync("", bad, other, good)
	if len(got.Applied) != 1 || got.Applied[0].ID != good.ID || len(got.Refused) != 2 {
		t.Fatalf("%+v", got)
	}
	if got.Refused[0].ID != bad.ID || !strings.Contains(got.Refused[0].Why, "140") {
		t.Errorf("refused %+v, want the value named", got.Refused[0])
	}
	if got.Refused[1].ID != other.ID || got.Refused[1].Code != "other_garden" {
		t.Errorf("another garden's record: %+v", got.Refused[1])
	}
}

func TestRolesLimitWhatIsWritten(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	cases := []struct {
		role, kind, refusal string
	}{
		{"helper", "observation", ""},
		{"helper", "work", ""},
		{"helper", "task", ""},
		{"helper", "planting", "role_helper"},
		{"helper", "bed", "role_helper"},
		{"viewer", "observation", "role_viewer"},
		{"viewer", "task", "role_viewer"},
		{"keeper", "planting", ""},
	}
	clients := map[string]*testClient{"helper": ann.invites("helper", "Ben"), "viewer": ann.invites("viewer", "Cleo"), "keeper": ann}
	for _, c := range cases {
		t.Run(c.role+" writes a "+c.kind, func(t *testing.T) {
			got := clients[c.role].sync("", newChange(newRef(c.kind), map[string]any{"extra": "x"}))
			if c.refusal == "" && len(got.Applied) != 1 {
				t.Errorf("not let in: %+v", got.Refused)
			}
			if c.refusal != "" && (len(got.Refused) != 1 || got.Refused[0].Code != c.refusal) {
				t.Errorf("refused %+v, applied %+v", got.Refused, got.Applied)
			}
			if len(got.Records) == 0 {
				t.Error("every member reads all of the garden")
			}
		})
	}
	for _, client := range []*testClient{clients["helper"], clients["viewer"]} {
		client.postJSON(client.of("/invites"), map[string]string{"role": "helper"}).mustRefuse(http.StatusForbidden, "keepers_only")
		client.send(http.MethodDelete, client.of("/members/"+ann.member), nil).mustRefuse(http.StatusForbidden, "keepers_only")
	}
	ann.postJSON(ann.of("/invites"), map[string]string{"role": "king"}).mustRefuse(http.StatusBadRequest, "invalid_role")
}

func TestForeignEpochIs409(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	present := ann.pull("").Cursor
	lost := newChange(newRef("observation"), map[string]any{"note": "unsent"})
	answer := ann.postJSON(ann.of("/sync"), map[string]any{"cursor": "otherepoch.7", "changes": []testChange{lost}})
	answer.mustRefuse(http.StatusConflict, "other_epoch")
	var told struct{ Cursor, Held string }
	answer.decode(&told)
	if told.Cursor != present || told.Held != "otherepoch.7" {
		t.Errorf("%+v, want both cursors", told)
	}
	if got := ann.pull("").Cursor; got != present {
		t.Error("changes judged against another epoch's bases were applied")
	}
	ann.postJSON(ann.of("/sync"), map[string]any{"cursor": "not a cursor"}).mustRefuse(http.StatusBadRequest, "bad_cursor")
}

func TestSyncBodyLimits(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	big := `{"changes":[],"pad":"` + strings.Repeat("x", 9<<20) + `"}`
	ann.send(http.MethodPost, ann.of("/sync"), []byte(big)).mustRefuse(http.StatusRequestEntityTooLarge, "too_large")
	many := make([]testChange, 2001)
	ann.postJSON(ann.of("/sync"), map[string]any{"changes": many}).mustRefuse(http.StatusRequestEntityTooLarge, "too_many_changes")
	ann.pull("") // the connection and the server are well
}

func TestPagesEndWithADigest(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	var changes []testChange
	for i := range 25 {
		changes = append(changes, newChange(newRef("observation"), map[string]any{"note": fmt.Sprint("n", i)}))
	}
	ann.sync("", changes...)
	seen, cursor := map[string]bool{}, ""
	for pages := 1; ; pages++ {
		var page synced
		ann.postJSON(ann.of("/sync"), map[string]any{"cursor": cursor, "limit": 10}).mustBe(http.StatusOK).decode(&page)
		for _, r := range page.Records {
			seen[r.Record] = true
		}
		if cursor = page.Cursor; !page.More {
			if pages != 3 || page.Digest == "" {
				t.Errorf("%d pages, digest %q", pages, page.Digest)
			}
			break
		}
		if len(page.Records) != 10 || page.Digest != "" {
			t.Errorf("a page of %d records, digest %q", len(page.Records), page.Digest)
		}
	}
	if len(seen) != 26 {
		t.Errorf("%d records, want 25 and the garden's", len(seen))
	}
}

func TestSumsLeadToTheRecords(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ref := newRef("observation")
	before := sumsOf(ann)
	written := ann.sync("", newChange(ref, map[string]any{"note": "x"})).Applied[0].Seq
	after := sumsOf(ann)
	changed := -1
	for i := range after {
		if before[i] != after[i] {
			changed = i
		}
	}
	removed := newChange(ref, nil)
	removed.Gone, removed.Base = true, written
	for _, gone := range []bool{false, true} {
		var bucket struct {
			Cursor  string
			Records []feedRecord
		}
		ann.send(http.MethodGet, ann.of(fmt.Sprintf("/sums/%d", changed)), nil).mustBe(http.StatusOK).decode(&bucket)
		at := slices.IndexFunc(bucket.Records, func(r feedRecord) bool { return r.Record == ref })
		if at < 0 || bucket.Records[at].Gone != gone {
			t.Errorf("bucket %d holds %+v, want %s with gone %v", changed, bucket.Records, ref, gone)
		}
		if got := ann.sync(bucket.Cursor, removed); len(got.Applied) != 1 {
			t.Fatalf("%+v", got)
		}
	}
	ann.send(http.MethodGet, ann.of("/sums/256"), nil).mustRefuse(http.StatusBadRequest, "invalid_bucket")
}

func sumsOf(c *testClient) []string {
	c.t.Helper()
	var told struct{ Sums []string }
	c.send(http.MethodGet, c.of("/sums"), nil).mustBe(http.StatusOK).decode(&told)
	if len(told.Sums) != 256 {
		c.t.Fatalf("%d sums", len(told.Sums))
	}
	return told.Sums
}
