package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"github.com/alecthomas/kong"
	"golang.org/x/term"

	"haulm/garden"
	"haulm/server/demo"
)

// Exit codes.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2
)

// commandLine is every command and flag. Each flag is an environment variable
// too: --public-url is HAULM_PUBLIC_URL.
type commandLine struct {
	Serve   serveCommand   `cmd:"" help:"Serve the garden to phones and browsers."`
	Invite  inviteCommand  `cmd:"" help:"Make a code by which one more phone may join."`
	Import  importCommand  `cmd:"" help:"Take in a file in which a phone saved what it could not send."`
	Verify  verifyCommand  `cmd:"" help:"Check every stored value and photo against its checksum."`
	Healthy healthyCommand `cmd:"" help:"Ask whether the server of a data folder is well; for health checks."`
	Almanac almanacCommand `cmd:"" help:"Ask the reckoning by hand: one JSON object in, one out."`
}

// A console is what a command has to do with the world outside.
type console struct {
	in       io.Reader
	out, err io.Writer
	now      func() time.Time
	demo     func() ([]garden.Record, error) // the invented garden; nil in a build without one
}

// Run does one command and gives its exit code.
func Run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	return run(ctx, args, &console{in: stdin, out: stdout, err: stderr, now: time.Now, demo: demo.Records})
}

func run(ctx context.Context, args []string, world *console) (code int) {
	defer func() {
		if left, ok := recover().(leaving); ok {
			code = int(left)
		}
	}()
	var line commandLine
	parser := newParser(&line, world)
	chosen, err := parser.Parse(args)
	if err != nil {
		fmt.Fprintf(world.err, "haulm: %v; haulm --help shows what there is\n", err)
		return exitUsage
	}
	chosen.BindTo(ctx, (*context.Context)(nil))
	if err := chosen.Run(world); err != nil {
		fmt.Fprintf(world.err, "haulm %s: %v\n", chosen.Selected().Name, err)
		return codeOf(err)
	}
	return exitDone
}

// leaving carries an exit code out of kong, which ends the process after help.
type leaving int

func newParser(line *commandLine, world *console) *kong.Kong {
	return kong.Must(line,
		kong.Name("haulm"),
		kong.Description("A gardener's memory, and the reckoning on top of it."),
		kong.DefaultEnvars("HAULM"),
		kong.Writers(world.out, world.err),
		kong.Help(printHelp),
		kong.Exit(func(code int) { panic(leaving(code)) }),
		kong.Vars{"data": "haulm-data"},
	)
}

// A usageError is a mistake in how a command was called.
type usageError struct{ error }

func codeOf(err error) int {
	var usage usageError
	if errors.As(err, &usage) {
		return exitUsage
	}
	return exitFailed
}

func usagef(format string, values ...any) error {
	return usageError{fmt.Errorf(format, values...)}
}

// terminal reports whether a stream is a person's screen.
func terminal(stream any) bool {
	file, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(file.Fd()))
}
