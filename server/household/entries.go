package household

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"haulm/sync/journal"
)

// read decodes what is kept under a key, and gives its version; found is false,
// and the version that of nothing, where nothing is kept.
func (h *Household) read(ctx context.Context, garden, key string, into any) (version uint64, found bool, err error) {
	kept, err := h.Journal.GetPrivate(ctx, garden, key)
	var missing *journal.MissingError
	if errors.As(err, &missing) {
		return 0, false, nil
	}
	if err != nil {
		return 0, false, err
	}
	if err := json.Unmarshal(kept.Value, into); err != nil {
		return 0, false, fmt.Errorf("%s of garden %q cannot be read: %w", key, garden, err)
	}
	return kept.Version, true, nil
}

// keep is a write of a value whatever was there.
func keep(key string, value any) (journal.PrivateWrite, error) {
	return keepOver(key, journal.Any, value)
}

// keepOver is a write that fails when the version there is another.
func keepOver(key string, seen uint64, value any) (journal.PrivateWrite, error) {
	text, err := json.Marshal(value)
	return journal.PrivateWrite{Key: key, Value: text, Seen: seen}, err
}

// drop is a removal, whatever was there.
func drop(key string) journal.PrivateWrite {
	return journal.PrivateWrite{Key: key, Seen: journal.Any}
}

// changed reports whether a write failed because another was first.
func changed(err error) bool {
	var conflict *journal.ConflictError
	return errors.As(err, &conflict)
}

// list decodes every value whose key has a prefix, in key order: by the time
// they were made, since ids are UUIDv7 (RFC 9562).
func list[T any](ctx context.Context, j *journal.Journal, garden, prefix string) ([]T, error) {
	found := []T{}
	for kept, err := range j.EachPrivate(ctx, garden, prefix) {
		if err != nil {
			return nil, err
		}
		var value T
		if err := json.Unmarshal(kept.Value, &value); err != nil {
			return nil, fmt.Errorf("%s of garden %q cannot be read: %w", kept.Key, garden, err)
		}
		found = append(found, value)
	}
	return found, nil
}
