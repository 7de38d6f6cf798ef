package household

import (
	"context"

	"haulm/server/refusal"
)

// Rename gives a device another name, in the garden and wherever its token is
// asked about, so that a keeper who looks for a lost phone finds it by the name
// that its owner last gave it.
func (h *Household) Rename(ctx context.Context, garden, device, name string) error {
	name, err := checkDevice(name)
	if err != nil {
		return err
	}
	renamed, err := h.renameSeat(ctx, garden, device, name)
	if err != nil {
		return err
	}
	return h.changeToken(ctx, renamed.Token, func(t *tokenEntry) { t.Name = name })
}

// renameSeat changes the device in the garden, again when another change came
// between, and never brings back one that was shut out meanwhile.
func (h *Household) renameSeat(ctx context.Context, garden, device, name string) (Device, error) {
	for {
		var seat Device
		version, found, err := h.read(ctx, garden, deviceKey(device), &seat)
		if err != nil {
			return seat, err
		}
		if !found {
			return seat, refusal.New(refusal.Missing, "no_such_device", "this garden has no such device; it may have been shut out already")
		}
		seat.Name = name
		write, err := keepOver(deviceKey(device), version, seat)
		if err != nil {
			return seat, err
		}
		if _, err := h.Journal.WritePrivate(ctx, garden, write); !changed(err) {
			return seat, err
		}
	}
}
