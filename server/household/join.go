package household

import (
	"context"
	"slices"
	"time"

	"github.com/google/uuid"

	"haulm/server/refusal"
	"haulm/sync/journal"
)

// InviteLife is how long a code can be used: long enough to reach the other
// person in the house, short enough that a forgotten message harms nobody.
const InviteLife = 24 * time.Hour

// An Invite is a code that makes a member once.
type Invite struct {
	Garden  string    `json:"garden"`
	Role    Role      `json:"role"`
	Expires time.Time `json:"expires"`
	Used    bool      `json:"used"`
	Maker   Maker     `json:"maker"`
}

// A Maker is the keeper, and their device, who made a code. The zero Maker is
// the program itself, asked at the machine that it runs on.
type Maker struct {
	Member string `json:"member"`
	Device string `json:"device"`
}

// Invite makes a code for a garden and role, and forgets codes that ran out
// long ago. The code works as long as its maker keeps the garden and the device
// has its seat there.
func (h *Household) Invite(ctx context.Context, garden string, role Role, maker Maker) (code string, made Invite, err error) {
	writes, err := h.forgottenInvites(ctx)
	if err != nil {
		return "", Invite{}, err
	}
	code = newCode()
	made = Invite{Garden: garden, Role: role, Expires: h.Now().Add(InviteLife).UTC().Truncate(time.Second), Maker: maker}
	write, err := keepOver(inviteKey(hashed(code)), 0, made)
	if err == nil {
		_, err = h.Journal.WritePrivate(ctx, everyGarden, append(writes, write)...)
	}
	return code, made, err
}

const (
	// rememberExpired is how long a code that ran out is still told apart from
	// one that never was.
	rememberExpired = 30 * 24 * time.Hour
	// forgetAtOnce bounds the removals of one write.
	forgetAtOnce = 50
)

func (h *Household) forgottenInvites(ctx context.Context) ([]journal.PrivateWrite, error) {
	drops, err := h.dropInvites(ctx, func(invite Invite) bool { return h.Now().After(invite.Expires.Add(rememberExpired)) })
	return drops[:min(len(drops), forgetAtOnce)], err
}

// Join uses a code up and seats a device in its garden as a new member. A
// device that has a token keeps it and gains the garden; otherwise a token is
// made, which is given back this once and kept as a hash. Of several that use
// one code at the same moment one comes in; the others are refused.
func (h *Household) Join(ctx context.Context, code, token string, names Names) (Seat, string, error) {
	names, err := names.check()
	if err != nil {
		return Seat{}, "", err
	}
	invite, err := h.use(ctx, plainCode(code))
	if err != nil {
		return Seat{}, "", err
	}
	return h.seat(ctx, invite, token, names)
}

func (h *Household) use(ctx context.Context, code string) (Invite, error) {
	key := inviteKey(hashed(code))
	var invite Invite
	version, found, err := h.read(ctx, everyGarden, key, &invite)
	if err != nil {
		return invite, err
	}
	if err := h.usable(invite, found); err != nil {
		return invite, err
	}
	if err := h.checkMaker(ctx, invite); err != nil {
		return invite, err
	}
	invite.Used = true
	write, err := keepOver(key, version, invite)
	if err != nil {
		return invite, err
	}
	if _, err = h.Journal.WritePrivate(ctx, everyGarden, write); changed(err) {
		return invite, codeUsed()
	}
	return invite, err
}

func (h *Household) usable(invite Invite, found bool) error {
	switch {
	case !found:
		return refusal.New(refusal.Forbidden, "join_code_unknown", "this join code is not known here: check it letter by letter, or ask for a new one")
	case invite.Used:
		return codeUsed()
	case h.Now().After(invite.Expires):
		return refusal.New(refusal.Forbidden, "join_code_expired", "this join code ran out on %s: ask a keeper for a new one",
			invite.Expires.Format("2 January at 15:04 UTC"))
	}
	return nil
}

func codeUsed() error {
	return refusal.New(refusal.Forbidden, "join_code_used", "this join code has been used already: each works once, ask a keeper for a new one")
}

// Seat makes a member and a device of a garden without a code, as for the demo.
func (h *Household) Seat(ctx context.Context, garden string, role Role, token string, names Names) (Seat, string, error) {
	return h.seat(ctx, Invite{Garden: garden, Role: role}, token, names)
}

func (h *Household) seat(ctx context.Context, invite Invite, token string, names Names) (Seat, string, error) {
	known, token, err := h.tokenFor(ctx, token, names)
	if err != nil {
		return Seat{}, "", err
	}
	now := h.Now().UTC().Truncate(time.Second)
	seat := Seat{Garden: invite.Garden}
	if seat.Member, err = h.memberFor(ctx, invite, known, Member{newID(), names.Member, invite.Role, now}); err != nil {
		return Seat{}, "", err
	}
	seat.Device = Device{known.Device, names.Device, seat.Member.ID, now, known.Hash}
	if err := h.put(ctx, seat); err != nil {
		return Seat{}, "", err
	}
	return seat, token, h.changeToken(ctx, known.Hash, func(t *tokenEntry) {
		if t.Hash == "" {
			*t = known
		}
		if !slices.Contains(t.Gardens, invite.Garden) {
			t.Gardens = append(t.Gardens, invite.Garden)
		}
	})
}

// put keeps the member and the device of a seat, both or neither.
func (h *Household) put(ctx context.Context, seat Seat) error {
	member, err := keep(memberKey(seat.Member.ID), seat.Member)
	if err != nil {
		return err
	}
	device, err := keep(deviceKey(seat.Device.ID), seat.Device)
	if err != nil {
		return err
	}
	_, err = h.Journal.WritePrivate(ctx, seat.Garden, member, device)
	return err
}

// tokenFor gives the entry of a token that is known, or of a new one.
func (h *Household) tokenFor(ctx context.Context, token string, names Names) (tokenEntry, string, error) {
	if token != "" {
		known, err := h.byToken(ctx, token)
		if err == nil || !refusal.Is(err, codeUnknownDevice) {
			return known, token, err
		}
	}
	token = newToken()
	return tokenEntry{Hash: hashed(token), Device: newID(), Name: names.Device}, token, nil
}

// memberFor gives the member that a device already is in the garden, with the
// invite's role unless that would take a keeper's away; or else the fresh one.
func (h *Household) memberFor(ctx context.Context, invite Invite, known tokenEntry, fresh Member) (Member, error) {
	held, err := h.seatOf(ctx, known, invite.Garden)
	if refusal.Is(err, codeNotAMember) {
		return fresh, nil
	}
	fresh.ID, fresh.Joined = held.Member.ID, held.Member.Joined
	if held.Member.Role == Keeper {
		fresh.Role = Keeper
	}
	return fresh, err
}

func newID() string { return uuid.Must(uuid.NewV7()).String() }
