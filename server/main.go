// Command haulm keeps a garden's memory: it serves the phone's app and its data
// from one folder, and answers a few questions at the command line.
//
// main.go is signals and the exit code, run.go the command line; each command
// has a file of its own, and serve.go puts a running server together from the
// packages below: household (who may), httpapi (HTTP), trust (HTTPS at home).
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	_ "time/tzdata" // gardens name their zone, and small containers have no tables of them
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
