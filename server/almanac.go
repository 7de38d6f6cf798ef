package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"haulm/almanac/verbs"
)

type almanacCommand struct {
	Verb string `arg:"" help:"What to ask."`
}

// Help lists the verbs under haulm almanac --help.
func (almanacCommand) Help() string {
	var list strings.Builder
	list.WriteString("The verbs:\n\n")
	for _, verb := range verbs.All() {
		fmt.Fprintf(&list, "  %-16s %s\n", verb.Name, verb.Says)
	}
	return list.String()
}

// Run answers one verb from standard input on standard output.
func (c *almanacCommand) Run(world *console) error {
	asked, err := io.ReadAll(world.in)
	if err != nil {
		return fmt.Errorf("standard input could not be read: %w", err)
	}
	answer, err := verbs.Run(c.Verb, asked)
	var unknown *verbs.UnknownVerbError
	if errors.As(err, &unknown) {
		return usageError{err}
	}
	if err != nil {
		return err
	}
	_, err = world.out.Write(answer)
	return err
}
