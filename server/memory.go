package main

import (
	"io"
	"log/slog"
	"os"
	"runtime/debug"
)

// memoryLimit is what the runtime tries to stay within unless GOMEMLIMIT says
// otherwise. The server's live memory is a third of it; without a limit, twice
// and three times as much is garbage while a phone pulls 100,000 records, which
// a machine of 512 MB needs for its page cache. Decoding a photograph exceeds it
// for a moment, at the price of more collections.
const memoryLimit = 60 << 20

func limitMemory() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit)
	}
}

// quiet is the log of commands that print their own answer: failures alone.
func quiet(out io.Writer) *slog.Logger {
	return slog.New(slog.NewTextHandler(out, &slog.HandlerOptions{Level: slog.LevelError}))
}
