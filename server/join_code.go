package main

import (
	"context"
	"fmt"
	"io"
	"net/url"
	"strings"
	"time"

	"github.com/mdp/qrterminal/v3"

	"haulm/server/household"
	"haulm/server/httpapi"
	"haulm/server/refusal"
	"haulm/sync/journal"
)

// chooseGarden gives the garden named, or the only one there is.
func chooseGarden(ctx context.Context, j *journal.Journal, named string) (string, error) {
	gardens, err := j.Gardens(ctx)
	if err != nil {
		return "", err
	}
	for _, id := range gardens {
		if id == named {
			return id, nil
		}
	}
	switch {
	case named != "":
		return "", refusal.New(refusal.Missing, "no_such_garden", "there is no garden %s; there are: %s", named, strings.Join(gardens, ", "))
	case len(gardens) == 1:
		return gardens[0], nil
	case len(gardens) == 0:
		return "", refusal.New(refusal.Missing, "no_garden", "there is no garden yet: start haulm serve once")
	}
	return "", refusal.New(refusal.Invalid, "which_garden", "there are several gardens, name one with --garden: %s", strings.Join(gardens, ", "))
}

// An invitation is a code ready to be handed over.
type invitation struct {
	URL     string    `json:"url"`
	Expires time.Time `json:"expires"`
}

// makeInvitation makes a code for a garden; the link is built on the public
// address.
func makeInvitation(ctx context.Context, f *folder, public *url.URL, named, role string) (invitation, error) {
	parsed, err := household.ParseRole(role)
	if err != nil {
		return invitation{}, err
	}
	id, err := chooseGarden(ctx, f.journal, named)
	if err != nil {
		return invitation{}, err
	}
	code, made, err := f.household.Invite(ctx, id, parsed, household.Maker{})
	return invitation{httpapi.JoinURL(public, code), made.Expires}, err
}

// show prints an invitation, and on a terminal as a QR code that a phone's
// camera reads.
func (i invitation) show(out io.Writer) {
	fmt.Fprintf(out, "join: %s\n", i.URL)
	if terminal(out) {
		qrterminal.GenerateHalfBlock(i.URL, qrterminal.M, out)
	}
	fmt.Fprintf(out, "      works once, until %s\n", i.Expires.Local().Format("2 January 15:04"))
}

// needsKeeper lists the gardens that nobody holds a keeper's device of: new
// ones, and those whose last keeper lost the phone.
func needsKeeper(ctx context.Context, f *folder) ([]string, error) {
	gardens, err := f.householdGardens(ctx)
	if err != nil {
		return nil, err
	}
	var orphaned []string
	for _, id := range gardens {
		kept, err := f.household.HasKeeper(ctx, id)
		if err != nil {
			return nil, err
		}
		if !kept {
			orphaned = append(orphaned, id)
		}
	}
	return orphaned, nil
}
