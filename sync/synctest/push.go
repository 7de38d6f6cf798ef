package synctest

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
)

func replays(t *testing.T, open Open) {
	b := set(t, open)
	ahead := written(planting(1), 0, 0, "label", `"from 2030"`)
	ahead.At = change.MakeStamp(time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC), 0, "aaaaaa")
	changes := []change.Change{ahead, written(planting(1), 0, 1, "count", `3`), written(planting(2), 0, 2, "label", `"two"`)}
	first := b.push(t, anna(), changes...)
	if want := change.Stamp("2026-06-02T09:01:00.000Z-0000-aaaaaa"); first[0].At != want {
		t.Errorf("the stamp of 2030 became %s, want %s", first[0].At, want)
	}
	b.push(t, ben(), written(planting(1), first[0].Seq, 3, "label", `"later"`))
	before := b.pull(t, "")
	b.clock.advance(400 * 24 * time.Hour)
	slices.Reverse(changes)
	rebased := changes[0]
	rebased.Base = 1 // as after a new epoch
	again := b.push(t, anna(), rebased, changes[1], changes[2], changes[1])
	if want := []journal.Applied{first[2], first[1], first[0], first[1]}; !slices.Equal(again, want) {
		t.Errorf("answered %v, want %v", again, want)
	}
	samePage(t, b.pull(t, ""), before)
}

func idReused(t *testing.T, open Open) {
	b := set(t, open)
	c := written(planting(1), 0, 1, "label", `"one"`)
	b.push(t, anna(), c)
	c.Set = garden.Fields{"label": json.RawMessage(`"two"`)}
	answer, err := b.Push(t.Context(), home, anna(), []change.Change{c})
	must(t, err)
	if len(answer.Applied) != 0 || len(answer.Refused) != 1 || answer.Refused[0].Code != "id_reused" {
		t.Errorf("%+v", answer)
	}
	if got := b.field(t, planting(1), "label"); got != `"one"` {
		t.Errorf("the label is %s", got)
	}
}

func refusals(t *testing.T, open Open) {
	b := set(t, open)
	bad := written(planting(1), 0, 2, "count", `-1`)
	var misshapen change.Change
	must(t, json.Unmarshal([]byte(`{"id":"0192dddd-0000-7000-8000-000000000001","record":"planting/1","base":"nine"}`), &misshapen))
	changes := []change.Change{written(planting(1), 0, 1, "label", `"one"`), bad, misshapen, written(planting(1), 0, 3, "label", `"two"`)}
	answer, err := b.Push(t.Context(), home, anna(), changes)
	must(t, err)
	if len(answer.Applied) != 2 || len(answer.Refused) != 2 || answer.Refused[0].ID != bad.ID || answer.Refused[0].Code != "invalid_count" || answer.Refused[1].Code != "invalid_change" {
		t.Fatalf("%+v", answer)
	}
	if got := b.field(t, planting(1), "label"); got != `"two"` {
		t.Errorf("the label is %s: changes go in the order sent", got)
	}
	bad.Set = garden.Fields{"count": json.RawMessage(`5`)} // a refusal is not remembered
	b.push(t, anna(), bad)
	if got := b.field(t, planting(1), "count"); got != `5` {
		t.Errorf("the count is %s", got)
	}
}

func permission(t *testing.T, open Open) {
	b := set(t, open)
	viewer := journal.Writer{Member: "cleo", Device: "phone-c", May: func(c change.Change) error {
		if c.Record == planting(2) {
			return &change.Refusal{Code: "helper_only", Why: "only a helper"}
		}
		return errors.New("a viewer only looks")
	}}
	c := written(planting(1), 0, 1, "label", `"one"`)
	answer, err := b.Push(t.Context(), home, viewer, []change.Change{c, written(planting(2), 0, 1, "label", `"two"`)})
	must(t, err)
	want := []journal.Refused{{ID: c.ID, Code: "not_allowed", Why: "a viewer only looks"}}
	if len(answer.Applied) != 0 || len(answer.Refused) != 2 || answer.Refused[0] != want[0] || answer.Refused[1].Code != "helper_only" {
		t.Errorf("%+v", answer)
	}
	first := b.push(t, anna(), c)
	answer, err = b.Push(t.Context(), home, viewer, []change.Change{c}) // a replay is an answer, not an act
	must(t, err)
	if !slices.Equal(answer.Applied, first) {
		t.Errorf("%+v", answer)
	}
}

func stampsBy(t *testing.T, open Open) {
	b := set(t, open)
	seen := garden.Ref{Kind: garden.ObservationRecord, ID: "0192cccc-0000-7000-8000-000000000001"}
	sown := garden.Ref{Kind: garden.ObservationRecord, ID: "0192cccc-0000-7000-8000-000000000002"}
	b.push(t, anna(), written(seen, 0, 1, "stage", `61`))
	b.push(t, ben(), written(seen, 2, 2, "stage", `65`))
	c := written(sown, 0, 1, "stage", `61`)
	c.Set["by"] = json.RawMessage(`"an invented member"`)
	b.push(t, journal.Writer{Device: "demo"}, c)
	if got := b.field(t, seen, "by"); got != `"anna"` {
		t.Errorf("observed by %s", got)
	}
	if got := b.field(t, sown, "by"); got != `"an invented member"` {
		t.Errorf("sown by %s", got)
	}
}

func gardens(t *testing.T, open Open) {
	b := set(t, open)
	var exists *journal.ExistsError
	if err := b.CreateGarden(t.Context(), home); !errors.As(err, &exists) {
		t.Error(err)
	}
	for _, bad := range []string{"", "a/b", "a\x00", strings.Repeat("a", 65)} {
		if err := b.CreateGarden(t.Context(), bad); err == nil {
			t.Errorf("garden %q was made", bad)
		}
	}
	names, err := b.Gardens(t.Context())
	must(t, err)
	if !slices.Equal(names, []string{home}) {
		t.Errorf("the gardens are %q", names)
	}
	var unknown *journal.UnknownGardenError
	if _, err := b.Push(t.Context(), "nowhere", anna(), []change.Change{written(planting(1), 0, 1, "label", `"x"`)}); !errors.As(err, &unknown) {
		t.Error(err)
	}
	if _, err := b.Push(t.Context(), "nowhere", anna(), nil); !errors.As(err, &unknown) {
		t.Error(err)
	}
	if _, err := b.Pull(t.Context(), "nowhere", "", 0); !errors.As(err, &unknown) {
		t.Error(err)
	}
	var missing *journal.MissingError
	if _, err := b.Get(t.Context(), home, planting(9)); !errors.As(err, &missing) {
		t.Error(err)
	}
}
