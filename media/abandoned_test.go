package media

import (
	"testing"
	"time"
)

func TestAbandonedBeginningsAreForgotten(t *testing.T) {
	store := newStore(t)
	whole, begun := noise(t, 200, 200), noise(t, 210, 200)
	mustSend(t, store, whole)
	half := Piece{Length: int64(len(begun)), Body: flaky(begun, 1000)}
	if progress, err := store.Append(t.Context(), home, NameOf(begun), half); err == nil || progress.Offset != 1000 {
		t.Fatalf("%+v, %v", progress, err)
	}
	forget := func(after time.Duration, want int) {
		t.Helper()
		if n, err := store.ForgetAbandoned(t.Context(), time.Now().Add(after)); err != nil || n != want {
			t.Fatalf("after %v %d were forgotten, %v; want %d", after, n, err, want)
		}
	}
	here := func(content []byte, offset int64, complete bool) {
		t.Helper()
		if got, err := store.Offset(t.Context(), home, NameOf(content)); err != nil || got.Offset != offset || got.Complete != complete {
			t.Errorf("%+v, %v; want %d bytes, complete %v", got, err, offset, complete)
		}
	}
	forget(AbandonedAfter-time.Hour, 0)
	here(begun, 1000, false)
	forget(AbandonedAfter+time.Hour, 1)
	here(begun, 0, false)
	here(whole, int64(len(whole)), true)
	mustSend(t, store, begun) // and it may still come, from its start
	forget(2*AbandonedAfter, 0)
	here(begun, int64(len(begun)), true)
}
