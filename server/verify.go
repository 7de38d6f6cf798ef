package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"haulm/media"
)

type verifyCommand struct {
	Data string `help:"The data folder." default:"${data}" type:"path"`
}

// A verification is what was checked and what of it is damaged.
type verification struct {
	Values int      `json:"values"`
	Media  int      `json:"media"`
	Damage []string `json:"damage"` // a sentence each
}

// Run checks everything: through the running server, or in the folder.
func (c *verifyCommand) Run(ctx context.Context, world *console) error {
	progress := newProgress(world.err, "values checked")
	found, served, err := verifyThroughServer(ctx, c.Data, progress)
	if !served {
		found, err = c.inFolder(ctx, world, progress)
	}
	if err != nil {
		return err
	}
	for _, sentence := range found.Damage {
		fmt.Fprintln(world.err, sentence)
	}
	if n := len(found.Damage); n > 0 {
		return fmt.Errorf("%d of %d values and photos in %s are damaged: restore them from a backup", n, found.Values+found.Media, c.Data)
	}
	fmt.Fprintf(world.out, "%d values and %d photos and memos are as they were written\n", found.Values, found.Media)
	return nil
}

func (c *verifyCommand) inFolder(ctx context.Context, world *console, progress func(done int)) (verification, error) {
	f, err := openKept(ctx, c.Data, world.now, quiet(world.err))
	if err != nil {
		return verification{}, err
	}
	defer f.close()
	return f.verify(ctx, progress)
}

// verify reads every value and every photo once.
func (f *folder) verify(ctx context.Context, progress func(done int)) (verification, error) {
	report, err := f.journal.Verify(ctx, progress)
	if err != nil {
		return verification{}, err
	}
	found := verification{Values: report.Values, Damage: []string{}}
	for _, damage := range report.Damage {
		found.Damage = append(found.Damage, damage.Error())
	}
	gardens, err := f.journal.Gardens(ctx)
	if err != nil {
		return found, err
	}
	for _, garden := range gardens {
		if err := f.verifyMedia(ctx, garden, &found); err != nil {
			return found, err
		}
	}
	return found, nil
}

func (f *folder) verifyMedia(ctx context.Context, garden string, found *verification) error {
	names, err := mediaIndex{f.journal}.names(ctx, garden)
	if err != nil {
		return err
	}
	for _, name := range names {
		err := f.media.Verify(ctx, garden, name)
		var problem *media.Problem
		switch {
		case errors.Is(err, media.NotHere): // a preview came before its original
			continue
		case errors.As(err, &problem):
			found.Damage = append(found.Damage, problem.Error())
		case err != nil:
			return err
		}
		found.Media++
	}
	return nil
}

// newProgress counts on a terminal, and stays silent elsewhere.
func newProgress(out io.Writer, what string) func(done int) {
	if !terminal(out) {
		return func(int) {}
	}
	return func(done int) { fmt.Fprintf(out, "\r%d %s", done, what) }
}
