package household

import (
	"context"
	"testing"

	"haulm/server/refusal"
	"haulm/sync/journal"
)

// keeperForTest seats a keeper of "home" and gives them as a maker of codes.
func keeperForTest(t *testing.T, h *Household, name string) (Seat, Maker) {
	t.Helper()
	seat, _, err := h.Seat(context.Background(), "home", Keeper, "", Names{name + "'s phone", name})
	if err != nil {
		t.Fatal(err)
	}
	return seat, Maker{seat.Member.ID, seat.Device.ID}
}

func TestCodesGoWithTheirMaker(t *testing.T) {
	ctx := context.Background()
	ways := map[string]func(h *Household, ann Seat) error{
		"removed": func(h *Household, ann Seat) error {
			_, err := h.Remove(ctx, "home", ann.Member.ID)
			return err
		},
		"shut out": func(h *Household, ann Seat) error { return h.Revoke(ctx, "home", ann.Device.ID) },
	}
	for name, shutOut := range ways {
		t.Run(name, func(t *testing.T) {
			h, _ := openForTest(t)
			ann, byAnn := keeperForTest(t, h, "Ann")
			_, byDora := keeperForTest(t, h, "Dora")
			codes := map[string]Maker{}
			for _, maker := range []Maker{byAnn, byDora, {}} {
				code, _, err := h.Invite(ctx, "home", Keeper, maker)
				if err != nil {
					t.Fatal(err)
				}
				codes[code] = maker
			}
			if err := shutOut(h, ann); err != nil {
				t.Fatal(err)
			}
			for code, maker := range codes {
				_, _, err := h.Join(ctx, code, "", Names{"phone", "Eve"})
				if refused := refusal.Is(err, "join_code_unknown"); refused != (maker == byAnn) || !refused && err != nil {
					t.Errorf("a code of %+v: %v", maker, err)
				}
			}
		})
	}
}

// A request that was let in before its sender was shut out may make its code
// after that.
func TestCodeMadeByWhoWasShutOutMeanwhile(t *testing.T) {
	h, _ := openForTest(t)
	ctx := context.Background()
	ann, byAnn := keeperForTest(t, h, "Ann")
	keeperForTest(t, h, "Dora")
	if err := h.Revoke(ctx, "home", ann.Device.ID); err != nil {
		t.Fatal(err)
	}
	code, _, err := h.Invite(ctx, "home", Keeper, byAnn)
	if err != nil {
		t.Fatal(err)
	}
	mustRefuse(t, h, code, "join_code_withdrawn")
}

func TestOneKeeperAlwaysStays(t *testing.T) {
	h, _ := openForTest(t)
	ctx := context.Background()
	ann, _ := keeperForTest(t, h, "Ann")
	dora, _ := keeperForTest(t, h, "Dora")
	// Dora's removal of Ann was worked out, and Ann's removal of Dora is done
	// before it is written.
	staying, err := h.keeperWithout(ctx, "home", ann.Member.ID)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := h.Remove(ctx, "home", dora.Member.ID); err != nil {
		t.Fatal(err)
	}
	if _, err := h.Journal.WritePrivate(ctx, "home", staying, drop(memberKey(ann.Member.ID))); !changed(err) {
		t.Errorf("the last keeper was removed: %v", err)
	}
	if _, err := h.Remove(ctx, "home", ann.Member.ID); !refusal.Is(err, "last_keeper") {
		t.Errorf("the last keeper: %v", err)
	}
}

func TestKeepersWhoRemoveEachOther(t *testing.T) {
	h, _ := openForTest(t)
	ctx := context.Background()
	for range 20 {
		ann, _ := keeperForTest(t, h, "Ann")
		dora, _ := keeperForTest(t, h, "Dora")
		results := make(chan error)
		for _, member := range []string{ann.Member.ID, dora.Member.ID} {
			go func() {
				_, err := h.Remove(ctx, "home", member)
				results <- err
			}()
		}
		for range 2 {
			if err := <-results; err != nil && !refusal.Is(err, "last_keeper") {
				t.Errorf("refused with %v", err)
			}
		}
		if members, err := h.Members(ctx, "home"); err != nil || len(members) != 1 {
			t.Fatalf("%d keepers are left, %v", len(members), err)
		}
		clearMembers(t, h)
	}
}

func clearMembers(t *testing.T, h *Household) {
	t.Helper()
	members, err := h.Members(context.Background(), "home")
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range members {
		if _, err := h.Journal.WritePrivate(context.Background(), "home", journal.PrivateWrite{Key: memberKey(m.ID), Seen: journal.Any}); err != nil {
			t.Fatal(err)
		}
	}
}
