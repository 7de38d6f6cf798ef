package main

import (
	"io"
	"log/slog"
	"os"
	"runtime/debug"
)

// memoryLimit is what the runtime tries to stay within unless GOMEMLIMIT says
// otherwise: half of the smallest machine this runs on (512 MB), the rest being
// for the system and its page cache.
const memoryLimit = 256 << 20

func limitMemory() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit)
	}
}

// quiet is the log of commands that print their own answer: failures alone.
func quiet(out io.Writer) *slog.Logger {
	return slog.New(slog.NewTextHandler(out, &slog.HandlerOptions{Level: slog.LevelError}))
}
