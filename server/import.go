package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"haulm/server/unsent"
)

type importCommand struct {
	File  string `arg:"" optional:"" help:"A file saved on a phone's screen Sending." type:"path"`
	Data  string `help:"The data folder." default:"${data}" type:"path"`
	Check bool   `help:"Look only: write nothing, and tell what would be taken."`
}

// Run takes the file through the running server, or into the folder. It may be
// taken twice.
func (c *importCommand) Run(ctx context.Context, world *console) error {
	if c.File == "" {
		return usagef("name the file that a phone saved on its screen Sending: haulm import FILE")
	}
	file, err := os.Open(c.File)
	if errors.Is(err, fs.ErrNotExist) {
		return usagef("%s is not there; name a file that a phone saved on its screen Sending", c.File)
	}
	if err != nil {
		return fmt.Errorf("the file cannot be read: %w", err)
	}
	defer file.Close()
	var summary unsent.Summary
	served, err := importThroughServer(ctx, c.Data, file, c.Check, &summary)
	if !served {
		summary, err = c.intoFolder(ctx, world, file)
	}
	if err != nil {
		return err
	}
	showImport(world.out, summary)
	if n := summary.Aside(); n > 0 {
		return fmt.Errorf("%d entries of %s were left aside, for the reasons above; the rest is safe, and the file can be taken again", n, c.File)
	}
	return nil
}

func importThroughServer(ctx context.Context, dir string, file io.Reader, check bool, into *unsent.Summary) (served bool, err error) {
	// The client closes a body that it can close, and the folder may need the file yet.
	answer, served, err := sendServer(ctx, dir, fmt.Sprintf("/import?check=%t", check), io.MultiReader(file))
	if answer == nil {
		return served, err
	}
	defer answer.Body.Close()
	return true, readTold(answer, into)
}

func (c *importCommand) intoFolder(ctx context.Context, world *console, file *os.File) (unsent.Summary, error) {
	f, err := openKept(ctx, c.Data, world.now, quiet(world.err))
	if err != nil {
		return unsent.Summary{}, err
	}
	defer f.close()
	info, err := file.Stat()
	if err != nil {
		return unsent.Summary{}, err
	}
	return f.taker().Take(ctx, file, info.Size(), unsent.Terms{Check: c.Check})
}

func (f *folder) taker() unsent.Taker {
	return unsent.Taker{Journal: f.journal, Household: f.household, Media: f.media}
}

func showImport(out io.Writer, s unsent.Summary) {
	taken := "taken"
	if s.Checked {
		taken = "to take"
	}
	fmt.Fprintf(out, "from %s, file %d of %d\n", s.Device, s.Part, s.Parts)
	for _, line := range []struct {
		what  string
		count unsent.Count
	}{{"changes", s.Changes}, {"previews", s.Previews}, {"originals", s.Originals}} {
		fmt.Fprintf(out, "%-10s %d %s, %d here before, %d left aside\n", line.what+":", line.count.New, taken, line.count.Known, line.count.Aside)
	}
	for _, problem := range s.Problems {
		fmt.Fprintf(out, "left aside: %s: %s\n", problem.Entry, problem.Why)
	}
	if s.Checked {
		fmt.Fprintln(out, "nothing was written; without --check it is")
	}
}
