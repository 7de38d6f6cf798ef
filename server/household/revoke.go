package household

import (
	"context"
	"slices"

	"haulm/server/refusal"
	"haulm/sync/journal"
)

// Revoke takes a device's seat in a garden away. When it returns, its token
// opens nothing there any more, and the join codes that it made are gone; a
// token without any garden left is forgotten.
func (h *Household) Revoke(ctx context.Context, garden, device string) error {
	var gone Device
	_, found, err := h.read(ctx, garden, deviceKey(device), &gone)
	if err != nil {
		return err
	}
	if !found {
		return refusal.New(refusal.Missing, "no_such_device", "this garden has no such device; it may have been shut out already")
	}
	if _, err := h.Journal.WritePrivate(ctx, garden, drop(deviceKey(device))); err != nil {
		return err
	}
	return h.clearAfter(ctx, garden, gone)
}

// clearAfter takes away what is left of a device that has lost its seat.
func (h *Household) clearAfter(ctx context.Context, garden string, gone Device) error {
	if err := h.withdraw(ctx, garden, gone.ID); err != nil {
		return err
	}
	return h.forgetGarden(ctx, gone.Token, garden)
}

// forgetGarden takes a garden off a token, and with the last one the token.
func (h *Household) forgetGarden(ctx context.Context, hash, garden string) error {
	return h.changeToken(ctx, hash, func(t *tokenEntry) {
		t.Gardens = slices.DeleteFunc(t.Gardens, func(g string) bool { return g == garden })
	})
}

// changeToken changes a token's entry, again when another change came between.
// A token without gardens is removed.
func (h *Household) changeToken(ctx context.Context, hash string, change func(*tokenEntry)) error {
	for {
		var entry tokenEntry
		version, _, err := h.read(ctx, everyGarden, tokenKey(hash), &entry)
		if err != nil {
			return err
		}
		change(&entry)
		write, err := keepOver(tokenKey(hash), version, entry)
		if err != nil {
			return err
		}
		if len(entry.Gardens) == 0 {
			write.Value = nil
		}
		if _, err := h.Journal.WritePrivate(ctx, everyGarden, write); !changed(err) {
			return err
		}
	}
}

// Remove takes a member and all their devices out of a garden and names the
// devices. A garden's last keeper cannot be removed: the removal holds only if
// another keeper, who is named in the same write, is still there by then, so of
// two keepers who remove each other at once one stays.
func (h *Household) Remove(ctx context.Context, garden, member string) ([]string, error) {
	for {
		devices, err := h.removeOnce(ctx, garden, member)
		if changed(err) {
			continue
		}
		if err != nil {
			return nil, err
		}
		var revoked []string
		for _, device := range devices {
			revoked = append(revoked, device.ID)
			if err := h.clearAfter(ctx, garden, device); err != nil {
				return revoked, err
			}
		}
		return revoked, nil
	}
}

// removeOnce drops a member and their seats in one write, which fails when the
// keeper who stays was changed meanwhile.
func (h *Household) removeOnce(ctx context.Context, garden, member string) ([]Device, error) {
	staying, err := h.keeperWithout(ctx, garden, member)
	if err != nil {
		return nil, err
	}
	devices, err := h.Devices(ctx, garden)
	if err != nil {
		return nil, err
	}
	devices = slices.DeleteFunc(devices, func(d Device) bool { return d.Member != member })
	writes := []journal.PrivateWrite{staying, drop(memberKey(member))}
	for _, device := range devices {
		writes = append(writes, drop(deviceKey(device.ID)))
	}
	_, err = h.Journal.WritePrivate(ctx, garden, writes...)
	return devices, err
}

// keeperWithout gives the write that holds a keeper other than the member in
// place, or the refusal of the removal.
func (h *Household) keeperWithout(ctx context.Context, garden, member string) (journal.PrivateWrite, error) {
	members, err := h.Members(ctx, garden)
	if err != nil {
		return journal.PrivateWrite{}, err
	}
	if !slices.ContainsFunc(members, func(m Member) bool { return m.ID == member }) {
		return journal.PrivateWrite{}, refusal.New(refusal.Missing, "no_such_member", "this garden has no such member; they may have been removed already")
	}
	for _, m := range members {
		if m.Role != Keeper || m.ID == member {
			continue
		}
		var kept Member
		version, found, err := h.read(ctx, garden, memberKey(m.ID), &kept)
		if err != nil {
			return journal.PrivateWrite{}, err
		}
		if found && kept.Role == Keeper {
			return keepOver(memberKey(m.ID), version, kept)
		}
	}
	return journal.PrivateWrite{}, refusal.New(refusal.Conflict, "last_keeper", "a garden needs a keeper: invite another keeper before removing this one")
}

// Logout takes all seats of a token's device away and names them.
func (h *Household) Logout(ctx context.Context, token string) ([]Seat, error) {
	known, err := h.Device(ctx, token)
	if err != nil {
		return nil, err
	}
	for _, seat := range known.Seats {
		if err := h.Revoke(ctx, seat.Garden, seat.Device.ID); err != nil {
			return nil, err
		}
	}
	return known.Seats, nil
}

// HasKeeper reports whether anyone who keeps the garden still has a device in
// it. When nobody has, the server prints a code for a keeper at its start.
func (h *Household) HasKeeper(ctx context.Context, garden string) (bool, error) {
	members, err := h.Members(ctx, garden)
	if err != nil {
		return false, err
	}
	devices, err := h.Devices(ctx, garden)
	if err != nil {
		return false, err
	}
	for _, m := range members {
		held := func(d Device) bool { return d.Member == m.ID }
		if m.Role == Keeper && slices.ContainsFunc(devices, held) {
			return true, nil
		}
	}
	return false, nil
}
