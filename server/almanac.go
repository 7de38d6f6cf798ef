package main

import (
	"fmt"
	"io"

	"haulm/almanac/verbs"
)

type almanacCommand struct {
	Verb    string `arg:"" optional:"" help:"What to ask; haulm almanac VERB --help shows its fields and an example."`
	Example bool   `env:"-" help:"Write the verb's example input instead, to begin from."`
}

// Run answers one verb from standard input on standard output.
func (c *almanacCommand) Run(world *console) error {
	if c.Verb == "" {
		return usagef("name a verb; haulm almanac --help lists them")
	}
	verb, err := verbs.Named(c.Verb)
	if err != nil {
		return usageError{err}
	}
	if c.Example {
		_, err := fmt.Fprintln(world.out, verb.Example)
		return err
	}
	answer, err := c.answer(world)
	if err != nil {
		return err
	}
	_, err = world.out.Write(answer)
	return err
}

// answer asks with what standard input holds. A mistake in it is a failure, not
// a mistake in how the command was called.
func (c *almanacCommand) answer(world *console) ([]byte, error) {
	if terminal(world.in) {
		fmt.Fprintf(world.err, "haulm almanac %[1]s waits for one JSON object: paste it, press Enter and Ctrl-D; haulm almanac %[1]s --help shows one\n", c.Verb)
	}
	asked, err := io.ReadAll(world.in)
	if err != nil {
		return nil, fmt.Errorf("standard input could not be read: %w", err)
	}
	answer, err := verbs.Run(c.Verb, asked)
	if err != nil {
		return nil, fmt.Errorf("%w; haulm almanac %s --help shows its fields and an example", err, c.Verb)
	}
	return answer, nil
}
