package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"haulm/media"
	"haulm/sync/journal"
)

// mediaIndex keeps what is known of photos and memos as private entries of the
// journal, under media/{sha256}.
type mediaIndex struct{ journal *journal.Journal }

var _ media.Index = mediaIndex{}

const mediaPrefix = "media/"

// Entry gives what was last put, or an error that is media.NotHere.
func (x mediaIndex) Entry(ctx context.Context, garden string, name media.Name) (media.Entry, error) {
	var entry media.Entry
	kept, err := x.journal.GetPrivate(ctx, garden, mediaPrefix+name.String())
	var missing *journal.MissingError
	if errors.As(err, &missing) {
		return entry, &media.Problem{Code: media.NotHere, Name: name, Text: "nothing is known of " + name.String()}
	}
	if err != nil {
		return entry, err
	}
	if err := json.Unmarshal(kept.Value, &entry); err != nil {
		return entry, fmt.Errorf("what is known of photo %s cannot be read: %w", name, err)
	}
	return entry, nil
}

// PutEntry replaces the entry; it is on disk when PutEntry returns.
func (x mediaIndex) PutEntry(ctx context.Context, garden string, name media.Name, entry media.Entry) error {
	text, err := json.Marshal(entry)
	if err != nil {
		return err
	}
	_, err = x.journal.WritePrivate(ctx, garden, journal.PrivateWrite{Key: mediaPrefix + name.String(), Value: text, Seen: journal.Any})
	return err
}

// names lists every medium that a garden's index knows.
func (x mediaIndex) names(ctx context.Context, garden string) ([]media.Name, error) {
	var names []media.Name
	for kept, err := range x.journal.EachPrivate(ctx, garden, mediaPrefix) {
		if err != nil {
			return nil, err
		}
		name, err := media.ParseName(kept.Key[len(mediaPrefix):])
		if err != nil {
			return nil, fmt.Errorf("%s of garden %s: %w", kept.Key, garden, err)
		}
		names = append(names, name)
	}
	return names, nil
}
