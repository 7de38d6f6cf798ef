package synctest

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
	"haulm/sync/journal/entry"
	"haulm/sync/journal/fold"
)

func runJournal(t *testing.T, open Open) {
	for name, test := range map[string]func(*testing.T, Open){
		"answers a replay as it did the first time":         replays,
		"refuses another content under an id that was used": idReused,
		"refuses a bad change by itself and forgets it":     refusals,
		"lets the server say who may":                       permission,
		"stamps who observed, the program's word taken":     stampsBy,
		"knows its gardens":                                 gardens,
		"feeds each record once, at its latest sequence":    feed,
		"feeds in pages that miss nothing":                  pages,
		"adds up digests and buckets as phones do":          digests,
		"refuses the cursor of another life":                cursors,
		"tells watchers the newest cursor":                  watchers,
		"stops while its clock is behind itself":            clockBehind,
		"cuts what is big so that it fits":                  bigPushes,
		"gives the same state from the log alone":           refolding,
		"takes pushes that come together, all of them":      together,
		"verifies sound":                                    verifies,
	} {
		t.Run(name, func(t *testing.T) { test(t, open) })
	}
}

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

func feed(t *testing.T, open Open) {
	b := set(t, open)
	one := b.push(t, anna(), written(planting(1), 0, 1, "label", `"one"`))[0].Seq
	b.push(t, anna(), written(planting(2), 0, 2, "label", `"two"`))
	cursor := b.pull(t, "").Cursor
	gone := true
	b.push(t, anna(), written(planting(1), one, 3, "label", `"one again"`), written(planting(1), one, 4, "count", `2`))
	b.push(t, anna(), change.Change{ID: newID(), Record: planting(2), Base: one + 1, At: "2026-06-02T08:05:00.000Z-0000-aaaaaa", Gone: &gone})
	for _, from := range []string{"", cursor} {
		page := b.pull(t, from)
		var got []string
		for _, r := range page.Records {
			got = append(got, fmt.Sprintf("%s at %d, gone %v", r.Ref.ID[34:], r.State.Seq-one, r.State.Gone.Value))
		}
		if want := []string{"01 at 3, gone false", "02 at 4, gone true"}; !slices.Equal(got, want) || page.More {
			t.Errorf("from %q: %q", from, got)
		}
	}
	for record, err := range b.Each(t.Context(), home) {
		must(t, err)
		if record.Ref != planting(1) || string(record.Garden().Fields["count"]) != "2" {
			t.Errorf("%+v", record)
		}
	}
}

func pages(t *testing.T, open Open) {
	b := set(t, open)
	for i := range 25 {
		b.push(t, anna(), written(planting(byte(i)), 0, i, "label", `"x"`))
	}
	cursor, seen := "", map[garden.Ref]int{}
	for i, more := 0, true; more; i++ {
		page, err := b.Pull(t.Context(), home, cursor, 10)
		must(t, err)
		if page.More == (page.Digest != "") || page.More != (i < 2) {
			t.Fatalf("page %d: more %v, digest %q", i, page.More, page.Digest)
		}
		for _, r := range page.Records {
			seen[r.Ref]++
		}
		if i == 0 { // what is written between pages comes at the end, once
			b.push(t, ben(), written(planting(0), 2, 40, "label", `"y"`), written(planting(24), 26, 40, "label", `"y"`))
			seen[planting(0)]--
		}
		cursor, more = page.Cursor, page.More
	}
	for ref, times := range seen {
		if times != 1 {
			t.Errorf("%s came %d times", ref, times)
		}
	}
	if len(seen) != 25 {
		t.Errorf("%d records came", len(seen))
	}
}

func digests(t *testing.T, open Open) {
	b := set(t, open)
	gone := true
	for i := range 30 {
		seq := b.push(t, anna(), written(planting(byte(i)), 0, i, "label", `"x"`))[0].Seq
		if i%3 == 0 {
			b.push(t, ben(), written(planting(byte(i)), seq, i+1, "label", `null`))
		}
		if i%5 == 0 {
			b.push(t, ben(), change.Change{ID: newID(), Record: planting(byte(i)), Base: seq, At: "2026-06-02T08:55:00.000Z-0000-bbbbbb", Gone: &gone})
		}
	}
	checkDigests(t, b, b.pull(t, ""))
}

// checkDigests reckons the digest of a whole feed's JSON, as a phone does, and
// holds the server's digest, sums and buckets against it.
func checkDigests(t testing.TB, b *bench, page journal.Page) {
	t.Helper()
	var total change.Digest
	var sums [change.Buckets]change.Digest
	for _, r := range page.Records {
		var phone change.Record
		must(t, json.Unmarshal(r.AppendJSON(nil), &phone))
		d := change.DigestOf(phone.Ref, &phone.State)
		total, sums[change.BucketOf(r.Ref)] = total.Plus(d), sums[change.BucketOf(r.Ref)].Plus(d)
	}
	if page.Digest != total.String() {
		t.Errorf("the digest is %s, and the records add up to %s", page.Digest, total)
	}
	got, err := b.PullSums(t.Context(), home)
	must(t, err)
	inBuckets := 0
	for i, want := range sums {
		bucket, err := b.PullBucket(t.Context(), home, i)
		must(t, err)
		var listed change.Digest
		for _, r := range bucket.Records {
			listed = listed.Plus(change.DigestOf(r.Ref, &r.State))
		}
		inBuckets += len(bucket.Records)
		if got.Sums[i] != want || listed != want || bucket.Cursor != page.Cursor || got.Cursor != page.Cursor {
			t.Errorf("bucket %d has %s, lists %s, and the records add up to %s", i, got.Sums[i], listed, want)
		}
	}
	if inBuckets != len(page.Records) {
		t.Errorf("the buckets have %d records and the feed, with tombstones, %d", inBuckets, len(page.Records))
	}
}

func cursors(t *testing.T, open Open) {
	b := set(t, open)
	b.push(t, anna(), written(planting(1), 0, 1, "label", `"one"`))
	old := b.pull(t, "").Cursor
	must(t, b.Check(t.Context(), home, old))
	must(t, b.Check(t.Context(), home, ""))
	for _, bad := range []string{"x", "x.", ".1", "x.-1", "X.1", "x.1.2", "x.1e3"} {
		var broken *journal.CursorError
		if err := b.Check(t.Context(), home, bad); !errors.As(err, &broken) {
			t.Errorf("cursor %q: %v", bad, err)
		}
	}
	was, err := entry.ParseCursor(old)
	must(t, err)
	ahead := entry.Head{Epoch: was.Epoch, Seq: was.Seq + 1}.String()
	var other *journal.EpochError
	if _, err := b.Pull(t.Context(), home, ahead, 0); !errors.As(err, &other) {
		t.Errorf("a cursor beyond the head: %v", err)
	}
	var file strings.Builder
	_, err = b.log.Snapshot(t.Context(), home, &file)
	must(t, err)
	b.push(t, anna(), written(planting(2), 0, 2, "label", `"after the backup"`))
	lost := b.pull(t, "").Cursor
	restored := restore(t, open, b.clock, file.String())
	if _, err := restored.Pull(t.Context(), home, lost, 0); !errors.As(err, &other) {
		t.Fatal(err)
	}
	now := entry.Head{Epoch: "two", Seq: was.Seq + 1}
	if other.Cursor.String() != lost || other.Now != now || other.Parent != was.Epoch || other.Fork != was.Seq {
		t.Errorf("%+v", other)
	}
	if page := restored.pull(t, ""); len(page.Records) != 1 || page.Cursor != now.String() {
		t.Errorf("%+v", page)
	}
}

func restore(t *testing.T, open Open, clock *wallClock, snapshot string) *bench {
	t.Helper()
	log, fold := open(t)
	_, err := log.Restore(t.Context(), home, strings.NewReader(snapshot), "two", clock.now())
	must(t, err)
	return &bench{Journal: on(t, log, fold, clock), log: log, fold: fold, clock: clock}
}

func watchers(t *testing.T, open Open) {
	b := set(t, open)
	cursors, cancel := b.Watch(home)
	other, cancelOther := b.Watch("other")
	defer cancelOther()
	b.push(t, anna(), written(planting(1), 0, 1, "label", `"one"`))
	b.push(t, anna(), written(planting(1), 2, 2, "label", `"two"`))
	if got, want := <-cursors, b.pull(t, "").Cursor; got != want {
		t.Errorf("told %s, want the newest, %s", got, want)
	}
	cancel()
	cancel()
	if _, open := <-cursors; open {
		t.Error("a cancelled watch is open")
	}
	select {
	case cursor := <-other:
		t.Errorf("another garden was told %s", cursor)
	default:
	}
}

func clockBehind(t *testing.T, open Open) {
	b := set(t, open)
	b.push(t, anna(), written(planting(1), 0, 1, "label", `"one"`))
	must(t, b.Ready())
	b.clock.advance(-time.Millisecond)
	for name, j := range map[string]*journal.Journal{"before": b.Journal, "after a new start": on(t, b.log, b.fold, b.clock)} {
		var behind *journal.ClockError
		if err := j.Ready(); !errors.As(err, &behind) {
			t.Errorf("%s it is ready: %v", name, err)
		}
		if _, err := j.Push(t.Context(), home, anna(), []change.Change{written(planting(1), 0, 1, "label", `"two"`)}); !errors.As(err, &behind) {
			t.Errorf("%s it takes a push: %v", name, err)
		}
	}
	b.clock.advance(time.Millisecond)
	must(t, b.Ready())
	b.push(t, anna(), written(planting(1), 2, 3, "label", `"three"`))
}

func bigPushes(t *testing.T, open Open) {
	b := set(t, open)
	var changes []change.Change
	for i := range 300 { // some 9 MB: many transactions
		changes = append(changes, written(planting(byte(i%90)), 0, i%60, "note", `"`+strings.Repeat(string(rune('a'+i%26)), 30_000)+`"`))
	}
	for range 3000 { // more changes than one transaction holds writes
		seen := garden.Ref{Kind: garden.ObservationRecord, ID: newID()}
		changes = append(changes, written(seen, 0, 1, "stage", `61`))
	}
	applied := b.push(t, anna(), changes...)
	for i, a := range applied {
		if want := applied[0].Seq + uint64(i); a.Seq != want || a.ID != changes[i].ID {
			t.Fatalf("change %d was applied as %+v, want sequence %d", i, a, want)
		}
	}
	entriesFit(t, b)
	records := 0
	for _, err := range b.Each(t.Context(), home) {
		must(t, err)
		records++
	}
	if records != 90+3000 {
		t.Errorf("%d records", records)
	}
}

// entriesFit holds every entry of the log to the bound.
func entriesFit(t testing.TB, b *bench) {
	t.Helper()
	for e, err := range b.log.Read(t.Context(), home, entry.Head{}) {
		must(t, err)
		if size := len(e.AppendJSON(nil)); size > entry.MaxBytes {
			t.Errorf("the entry at %s has %d bytes", e.Head, size)
		}
	}
}

// refolding folds the log anew and holds the two folds against each other.
func refolding(t *testing.T, open Open) {
	b := set(t, open)
	for i := range 60 {
		b.push(t, anna(), written(planting(byte(i%7)), uint64(i/2), i, "label", fmt.Sprintf(`"a%d"`, i)))
		b.push(t, ben(), written(planting(byte(i%5)), uint64(i/3), 59-i, "label", fmt.Sprintf(`"b%d"`, i)))
		_, err := b.WritePrivate(t.Context(), home, put(fmt.Sprint("device/", i%4), fmt.Sprint(i), journal.Any))
		must(t, err)
		b.clock.advance(time.Second)
	}
	sameFromLog(t, b)
}

func sameFromLog(t testing.TB, b *bench) {
	t.Helper()
	again, err := fold.Open("", nil)
	must(t, err)
	defer again.Close()
	must(t, again.CatchUp(t.Context(), home, b.log))
	was, is := b.fold.View(home), again.View(home)
	defer was.Close()
	defer is.Close()
	if a, b := dump(t, was), dump(t, is); a != b {
		t.Errorf("the log folds to\n%s\nand the server had\n%s", b, a)
	}
}

// dump writes everything that a view shows.
func dump(t testing.TB, view *fold.View) string {
	t.Helper()
	var out strings.Builder
	standing, err := view.Standing()
	must(t, err)
	sums, err := view.Sums()
	must(t, err)
	fmt.Fprintln(&out, standing, sums)
	for record, err := range view.Feed(0) {
		must(t, err)
		text, _ := record.State.AppendBinary(nil)
		fmt.Fprintf(&out, "%s %q\n", record.Ref, text)
	}
	for private, err := range view.Privates("") {
		must(t, err)
		fmt.Fprintf(&out, "%s %s %d\n", private.Key, private.Value, private.Version)
	}
	return out.String()
}

func together(t *testing.T, open Open) {
	b := set(t, open)
	must(t, b.CreateGarden(t.Context(), "other"))
	var wait sync.WaitGroup
	for phone := range 16 {
		wait.Go(func() {
			by := journal.Writer{Member: "m", Device: fmt.Sprint("phone-", phone)}
			for i := range 20 {
				name := []string{home, "other"}[i%2]
				changes := []change.Change{written(planting(byte(phone)), 0, i, "count", fmt.Sprint(i)), written(planting(90), 0, i, "count", fmt.Sprint(i))}
				if answer, err := b.Push(t.Context(), name, by, changes); err != nil || len(answer.Applied) != 2 {
					t.Errorf("%v %+v", err, answer)
				}
			}
		})
	}
	wait.Wait()
	for phone := range 16 {
		if got := b.field(t, planting(byte(phone)), "count"); got != "18" {
			t.Errorf("phone %d's count is %s", phone, got)
		}
	}
	sameFromLog(t, b)
}

func verifies(t *testing.T, open Open) {
	b := set(t, open)
	for i := range 40 {
		b.push(t, anna(), written(planting(byte(i%9)), 0, i, "label", `"x"`))
	}
	_, err := b.WritePrivate(t.Context(), home, put("device/a", `1`, 0))
	must(t, err)
	report, err := b.Verify(t.Context(), nil)
	must(t, err)
	if len(report.Damage) != 0 || report.Values < 40 {
		t.Errorf("%+v", report)
	}
}

func samePage(t testing.TB, got, want journal.Page) {
	t.Helper()
	a, _ := json.Marshal(got)
	b, _ := json.Marshal(want)
	if string(a) != string(b) {
		t.Errorf("the feed is\n%s\nand was\n%s", a, b)
	}
}
