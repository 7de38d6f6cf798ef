package household

import (
	"context"
	"crypto/subtle"
	"slices"

	"haulm/server/refusal"
)

const (
	codeUnknownDevice = "unknown_device"
	codeNotAMember    = "not_a_member"
)

// Known is a device and every garden in which it has a seat.
type Known struct {
	Device, Name string
	Seats        []Seat
}

// Device gives the device behind a token; a token that is not known, or that
// was shut out of every garden, is a *refusal.Refusal of the kind Unknown.
func (h *Household) Device(ctx context.Context, token string) (Known, error) {
	entry, err := h.byToken(ctx, token)
	if err != nil {
		return Known{}, err
	}
	known := Known{Device: entry.Device, Name: entry.Name}
	for _, garden := range entry.Gardens {
		seat, err := h.seatOf(ctx, entry, garden)
		if refusal.Is(err, codeNotAMember) {
			continue
		}
		if err != nil {
			return Known{}, err
		}
		known.Seats = append(known.Seats, seat)
	}
	if len(known.Seats) == 0 {
		return Known{}, unknownDevice()
	}
	return known, nil
}

// SeatIn gives the seat of a token in a garden. A device without any garden is
// Unknown; one without this garden is Forbidden, whether or not there is such a
// garden.
func (h *Household) SeatIn(ctx context.Context, token, garden string) (Seat, error) {
	entry, err := h.byToken(ctx, token)
	if err != nil {
		return Seat{}, err
	}
	return h.seatOf(ctx, entry, garden)
}

func (h *Household) byToken(ctx context.Context, token string) (tokenEntry, error) {
	var entry tokenEntry
	hash := hashed(token)
	_, found, err := h.read(ctx, everyGarden, tokenKey(hash), &entry)
	if err != nil {
		return entry, err
	}
	if !found || subtle.ConstantTimeCompare([]byte(entry.Hash), []byte(hash)) != 1 {
		return entry, unknownDevice()
	}
	return entry, nil
}

func (h *Household) seatOf(ctx context.Context, entry tokenEntry, garden string) (Seat, error) {
	seat := Seat{Garden: garden}
	if !slices.Contains(entry.Gardens, garden) {
		return seat, notAMember()
	}
	_, found, err := h.read(ctx, garden, deviceKey(entry.Device), &seat.Device)
	if err != nil {
		return seat, err
	}
	if found {
		_, found, err = h.read(ctx, garden, memberKey(seat.Device.Member), &seat.Member)
	}
	if err == nil && !found {
		err = notAMember()
	}
	return seat, err
}

func unknownDevice() error {
	return refusal.New(refusal.Unknown, codeUnknownDevice, "this device is not known here, or was shut out: join with a code from a keeper")
}

func notAMember() error {
	return refusal.New(refusal.Forbidden, codeNotAMember, "this device has no place in that garden: join it with a code from one of its keepers")
}

// Members lists a garden's members in the order in which they joined.
func (h *Household) Members(ctx context.Context, garden string) ([]Member, error) {
	return list[Member](ctx, h.Journal, garden, memberKey(""))
}

// Devices lists the devices that have a seat in a garden, in the order in which
// they joined.
func (h *Household) Devices(ctx context.Context, garden string) ([]Device, error) {
	return list[Device](ctx, h.Journal, garden, deviceKey(""))
}
