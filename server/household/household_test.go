package household

import (
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	"haulm/garden"
	"haulm/server/refusal"
	"haulm/sync/journal"
)

// openForTest gives a household on a real journal, with one garden "home", and
// its clock.
func openForTest(t *testing.T) (*Household, *time.Time) {
	t.Helper()
	now := time.Now()
	ctx := context.Background()
	j, err := journal.Open(ctx, journal.Options{Dir: t.TempDir(), Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	if err := j.CreateGarden(ctx, "home"); err != nil {
		t.Fatal(err)
	}
	return &Household{Journal: j, Now: func() time.Time { return now }}, &now
}

func TestOneOfManyUsesACode(t *testing.T) {
	h, _ := openForTest(t)
	ctx := context.Background()
	const rounds, racers = 10, 16
	for range rounds {
		code, _, err := h.Invite(ctx, "home", Helper, Maker{})
		if err != nil {
			t.Fatal(err)
		}
		var wait sync.WaitGroup
		start, results := make(chan struct{}), make([]error, racers)
		for i := range racers {
			wait.Go(func() {
				<-start
				_, _, results[i] = h.Join(ctx, code, "", Names{"phone", "Ben"})
			})
		}
		close(start)
		wait.Wait()
		joined := 0
		for _, err := range results {
			if err == nil {
				joined++
			} else if !refusal.Is(err, "join_code_used") {
				t.Errorf("refused with %v", err)
			}
		}
		if joined != 1 {
			t.Fatalf("%d came in on one code", joined)
		}
	}
	if members, err := h.Members(ctx, "home"); err != nil || len(members) != rounds {
		t.Errorf("%d members, %v; want %d", len(members), err, rounds)
	}
}

func TestSecretsAreKeptAsHashesAlone(t *testing.T) {
	h, _ := openForTest(t)
	ctx := context.Background()
	code, _, err := h.Invite(ctx, "home", Keeper, Maker{})
	if err != nil {
		t.Fatal(err)
	}
	_, token, err := h.Join(ctx, code, "", Names{"phone", "Ann"})
	if err != nil {
		t.Fatal(err)
	}
	another, _, err := h.Invite(ctx, "home", Keeper, Maker{})
	if err != nil {
		t.Fatal(err)
	}
	for _, space := range []string{journal.Global, "home"} {
		for kept, err := range h.Journal.EachPrivate(ctx, space, "") {
			if err != nil {
				t.Fatal(err)
			}
			for _, secret := range []string{code, another, token} {
				if strings.Contains(kept.Key+string(kept.Value), secret) {
					t.Errorf("%s of %q holds a secret as it is", kept.Key, space)
				}
			}
		}
	}
	if len(token) != 43 || len(code) != 26 { // 256 bits in base 64, 128 in base 32
		t.Errorf("token of %d letters, code of %d", len(token), len(code))
	}
}

func TestOldCodesAreForgotten(t *testing.T) {
	h, now := openForTest(t)
	ctx := context.Background()
	old, _, err := h.Invite(ctx, "home", Helper, Maker{})
	if err != nil {
		t.Fatal(err)
	}
	*now = now.Add(InviteLife + time.Hour)
	mustRefuse(t, h, old, "join_code_expired")
	*now = now.Add(rememberExpired)
	if _, _, err := h.Invite(ctx, "home", Helper, Maker{}); err != nil {
		t.Fatal(err)
	}
	mustRefuse(t, h, old, "join_code_unknown")
}

func mustRefuse(t *testing.T, h *Household, code, refused string) {
	t.Helper()
	if _, _, err := h.Join(context.Background(), code, "", Names{"phone", "Ben"}); !refusal.Is(err, refused) {
		t.Errorf("got %v, want %s", err, refused)
	}
}

func TestHasKeeper(t *testing.T) {
	h, _ := openForTest(t)
	ctx := context.Background()
	want := func(step string, expected bool) {
		t.Helper()
		if has, err := h.HasKeeper(ctx, "home"); err != nil || has != expected {
			t.Errorf("%s: %v, %v", step, has, err)
		}
	}
	want("nobody", false)
	if _, _, err := h.Seat(ctx, "home", Helper, "", Names{"phone", "Ben"}); err != nil {
		t.Fatal(err)
	}
	want("a helper", false)
	keeper, token, err := h.Seat(ctx, "home", Keeper, "", Names{"phone", "Ann"})
	if err != nil {
		t.Fatal(err)
	}
	want("a keeper", true)
	if _, err := h.Logout(ctx, token); err != nil {
		t.Fatal(err)
	}
	want("a keeper without a device", false)
	if err := h.Revoke(ctx, "home", keeper.Device.ID); !refusal.Is(err, "no_such_device") {
		t.Errorf("revoked twice: %v", err)
	}
}

func TestRolesByKindOfRecord(t *testing.T) {
	helps := map[garden.RecordKind]bool{garden.ObservationRecord: true, garden.WorkRecord: true, garden.TaskRecord: true}
	for _, kind := range garden.RecordKinds() {
		ref := garden.Ref{Kind: kind, ID: "x"}
		if err := Keeper.May(ref); err != nil {
			t.Errorf("a keeper and a %s: %v", kind, err)
		}
		if err := Helper.May(ref); (err == nil) != helps[kind] {
			t.Errorf("a helper and a %s: %v", kind, err)
		}
		if err := Viewer.May(ref); err == nil {
			t.Errorf("a viewer wrote a %s", kind)
		}
		if err := Role("").May(ref); err == nil {
			t.Errorf("nobody in particular wrote a %s", kind)
		}
	}
}
