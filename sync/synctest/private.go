package synctest

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"haulm/sync/journal"
	"haulm/sync/journal/entry"
)

func runPrivate(t *testing.T, open Open) {
	t.Run("is written, replaced and removed by who has seen it", func(t *testing.T) { privateSwap(t, open) })
	t.Run("is written all or none", func(t *testing.T) { privateAtomic(t, open) })
	t.Run("lets an invite be used once", func(t *testing.T) { privateRace(t, open) })
	t.Run("is read by prefix, in its own garden", func(t *testing.T) { privatePrefix(t, open) })
	t.Run("never shows in feed, digest or watch", func(t *testing.T) { privateHidden(t, open) })
	t.Run("is bounded", func(t *testing.T) { privateBounds(t, open) })
}

func put(key, value string, seen uint64) journal.PrivateWrite {
	return journal.PrivateWrite{Key: key, Value: json.RawMessage(value), Seen: seen}
}

func privateSwap(t *testing.T, open Open) {
	b := set(t, open)
	var missing *journal.MissingError
	if _, err := b.GetPrivate(t.Context(), home, "member/anna"); !errors.As(err, &missing) {
		t.Fatal(err)
	}
	first, err := b.WritePrivate(t.Context(), home, put("member/anna", `{"role": "keeper"}`, 0))
	must(t, err)
	got, err := b.GetPrivate(t.Context(), home, "member/anna")
	must(t, err)
	if string(got.Value) != `{"role":"keeper"}` || got.Version != first {
		t.Fatalf("%s at %d, written at %d", got.Value, got.Version, first)
	}
	second, err := b.WritePrivate(t.Context(), home, put("member/anna", `{"role":"helper"}`, first))
	must(t, err)
	for _, seen := range []uint64{0, first} {
		var conflict *journal.ConflictError
		if _, err := b.WritePrivate(t.Context(), home, put("member/anna", `{}`, seen)); !errors.As(err, &conflict) || conflict.Have != second {
			t.Errorf("seen %d: %v", seen, err)
		}
	}
	_, err = b.WritePrivate(t.Context(), home, journal.PrivateWrite{Key: "member/anna", Seen: second})
	must(t, err)
	if _, err := b.GetPrivate(t.Context(), home, "member/anna"); !errors.As(err, &missing) {
		t.Fatal(err)
	}
	_, err = b.WritePrivate(t.Context(), home, put("member/anna", `{"role":"viewer"}`, journal.Any))
	must(t, err)
}

func privateAtomic(t *testing.T, open Open) {
	b := set(t, open)
	_, err := b.WritePrivate(t.Context(), home, put("invite/x", `1`, 0))
	must(t, err)
	_, err = b.WritePrivate(t.Context(), home, put("device/y", `1`, 0), put("invite/x", `2`, 0))
	var conflict *journal.ConflictError
	if !errors.As(err, &conflict) || conflict.Key != "invite/x" {
		t.Fatal(err)
	}
	var missing *journal.MissingError
	if _, err := b.GetPrivate(t.Context(), home, "device/y"); !errors.As(err, &missing) {
		t.Errorf("half of the writes were kept: %v", err)
	}
}

func privateRace(t *testing.T, open Open) {
	b := set(t, open)
	version, err := b.WritePrivate(t.Context(), home, put("invite/x", `1`, 0))
	must(t, err)
	var wait sync.WaitGroup
	var used atomic.Int32
	for range 8 {
		wait.Go(func() {
			_, err := b.WritePrivate(t.Context(), home, journal.PrivateWrite{Key: "invite/x", Seen: version})
			if err == nil {
				used.Add(1)
			}
		})
	}
	wait.Wait()
	if used.Load() != 1 {
		t.Errorf("the invite was used %d times", used.Load())
	}
}

func privatePrefix(t *testing.T, open Open) {
	b := set(t, open)
	must(t, b.CreateGarden(t.Context(), "other"))
	for _, key := range []string{"device/b", "device/a", "device", "devices/c", "invite/a"} {
		_, err := b.WritePrivate(t.Context(), home, put(key, `1`, 0))
		must(t, err)
	}
	_, err := b.WritePrivate(t.Context(), "other", put("device/theirs", `1`, 0))
	must(t, err)
	_, err = b.WritePrivate(t.Context(), journal.Global, put("device/servers", `1`, 0))
	must(t, err)
	var keys []string
	for private, err := range b.EachPrivate(t.Context(), home, "device/") {
		must(t, err)
		keys = append(keys, private.Key)
	}
	if !slices.Equal(keys, []string{"device/a", "device/b"}) {
		t.Errorf("read %q", keys)
	}
	for private, err := range b.EachPrivate(t.Context(), journal.Global, "device/") {
		must(t, err)
		if private.Key != "device/servers" {
			t.Errorf("the server's own space holds %s", private.Key)
		}
	}
}

func privateHidden(t *testing.T, open Open) {
	b := set(t, open)
	b.push(t, anna(), written(planting(1), 0, 1, "label", `"x"`))
	before := b.pull(t, "")
	cursors, cancel := b.Watch(home)
	defer cancel()
	_, err := b.WritePrivate(t.Context(), home, put("device/a", `"secret"`, 0))
	must(t, err)
	after := b.pull(t, "")
	if len(after.Records) != 1 || after.Digest != before.Digest {
		t.Errorf("%+v", after)
	}
	select {
	case cursor := <-cursors:
		t.Errorf("a private entry woke the phones with %s", cursor)
	default:
	}
	if next := b.pull(t, before.Cursor); len(next.Records) != 0 {
		t.Errorf("%+v", next)
	}
}

func privateBounds(t *testing.T, open Open) {
	b := set(t, open)
	big := `"` + strings.Repeat("x", journal.MaxPrivateValueBytes) + `"`
	half := `"` + strings.Repeat("x", entry.MaxBytes/2) + `"`
	fits := `"` + strings.Repeat("<", journal.MaxPrivateValueBytes/8) + `"` // each < takes six bytes in the log
	for name, writes := range map[string][]journal.PrivateWrite{
		"nothing":       nil,
		"no key":        {put("", `1`, 0)},
		"a NUL":         {put("a\x00b", `1`, 0)},
		"a long key":    {put(strings.Repeat("k", journal.MaxPrivateKeyBytes+1), `1`, 0)},
		"a big value":   {put("k", big, 0)},
		"no JSON":       {put("k", `{`, 0)},
		"much together": {put("a", half, 0), put("b", half, 0)},
	} {
		if _, err := b.WritePrivate(t.Context(), home, writes...); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	_, err := b.WritePrivate(t.Context(), home, put("k", fits, 0))
	must(t, err)
	entriesFit(t, b)
}
