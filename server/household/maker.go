package household

import (
	"context"
	"encoding/json"
	"fmt"

	"haulm/server/refusal"
	"haulm/sync/journal"
)

// What becomes of codes when whoever made them is shut out: without this, a
// keeper who was removed could come back with a code made before.

// checkMaker refuses a code whose maker no longer keeps the garden, or whose
// maker's device has no seat there any more.
func (h *Household) checkMaker(ctx context.Context, invite Invite) error {
	if invite.Maker == (Maker{}) {
		return nil
	}
	var device Device
	_, seated, err := h.read(ctx, invite.Garden, deviceKey(invite.Maker.Device), &device)
	if err != nil {
		return err
	}
	var member Member
	_, known, err := h.read(ctx, invite.Garden, memberKey(invite.Maker.Member), &member)
	if err != nil {
		return err
	}
	if seated && known && device.Member == member.ID && member.Role == Keeper {
		return nil
	}
	return refusal.New(refusal.Forbidden, "join_code_withdrawn",
		"this join code no longer works, since whoever made it was shut out of the garden: ask a keeper for a new one")
}

// withdraw drops the codes that a device made for a garden and that nobody has
// used, so that they do not come to life again should the device come back.
func (h *Household) withdraw(ctx context.Context, garden, device string) error {
	drops, err := h.dropInvites(ctx, func(invite Invite) bool {
		return invite.Garden == garden && invite.Maker.Device == device && !invite.Used
	})
	for len(drops) > 0 && err == nil {
		some := drops[:min(len(drops), forgetAtOnce)]
		drops = drops[len(some):]
		_, err = h.Journal.WritePrivate(ctx, everyGarden, some...)
	}
	return err
}

// dropInvites gives the removals of the invites of one sort.
func (h *Household) dropInvites(ctx context.Context, which func(Invite) bool) ([]journal.PrivateWrite, error) {
	var drops []journal.PrivateWrite
	for kept, err := range h.Journal.EachPrivate(ctx, everyGarden, inviteKey("")) {
		if err != nil {
			return nil, err
		}
		var invite Invite
		if err := json.Unmarshal(kept.Value, &invite); err != nil {
			return nil, fmt.Errorf("%s cannot be read: %w", kept.Key, err)
		}
		if which(invite) {
			drops = append(drops, drop(kept.Key))
		}
	}
	return drops, nil
}
