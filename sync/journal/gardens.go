package journal

import (
	"context"
	"crypto/rand"
	"encoding/base32"
	"errors"
	"fmt"
	"strings"

	"haulm/sync/journal/entry"
	"haulm/sync/journal/internal/store"
)

// CreateGarden starts the log of a new garden. The id is 1 to 64 letters, digits
// and hyphens. The error is an *ExistsError for one that is there.
func (j *Journal) CreateGarden(ctx context.Context, garden string) error {
	if !validGarden(garden) {
		return fmt.Errorf("garden id %q is not allowed: it must be 1 to %d letters, digits and hyphens", garden, maxGardenBytes)
	}
	return j.create(ctx, garden)
}

const maxGardenBytes = 64

func validGarden(id string) bool {
	foreign := func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-')
	}
	return id != "" && len(id) <= maxGardenBytes && !strings.ContainsFunc(id, foreign)
}

// Gardens lists the ids of all gardens, sorted.
func (j *Journal) Gardens(context.Context) ([]string, error) { return j.fold.Gardens() }

// create starts the log of a garden.
func (j *Journal) create(ctx context.Context, garden string) error {
	return j.desk(garden).ask(ctx, func(d *draft) error {
		sheet, standing, err := d.open(store.Room{Count: 2})
		if err == nil {
			return &ExistsError{garden}
		}
		var unknown *UnknownGardenError
		if !errors.As(err, &unknown) {
			return err
		}
		start := entry.Start(standing.Head, NewEpoch(), d.now.UnixMilli())
		sheet.Start(*start.Epoch, start.Now)
		d.entries = append(d.entries, start)
		return nil
	})
}

// NewEpoch makes a name for an epoch that no other has: 80 random bits.
func NewEpoch() string {
	var random [10]byte
	rand.Read(random[:]) // never fails
	return strings.ToLower(base32.HexEncoding.EncodeToString(random[:]))
}
