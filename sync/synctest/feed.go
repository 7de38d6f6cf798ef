package synctest

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
	"haulm/sync/journal/entry"
)

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
