package main

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"time"
)

type healthyCommand struct {
	Data   string `help:"The data folder." default:"${data}" type:"path"`
	Listen string `help:"Where the server listens, asked when the folder has no socket." placeholder:"ADDR"`
}

// healthPatience is how long a well server may take to say so.
const healthPatience = 5 * time.Second

// Run asks the server of the folder, or the one at an address.
func (c *healthyCommand) Run(ctx context.Context, world *console) error {
	ctx, cancel := context.WithTimeout(ctx, healthPatience)
	defer cancel()
	served, err := callServer(ctx, c.Data, "/healthy", nil, nil)
	if !served && c.Listen != "" {
		served, err = true, askHealth(ctx, c.Listen)
	}
	if !served {
		return fmt.Errorf("no server is running on %s: start one with haulm serve", c.Data)
	}
	if err == nil {
		fmt.Fprintln(world.out, "well")
	}
	return err
}

func askHealth(ctx context.Context, listen string) error {
	host, port, err := net.SplitHostPort(listen)
	if err != nil {
		return usagef("--listen must be an address such as :8080, not %q", listen)
	}
	if ip := net.ParseIP(host); host == "" || ip != nil && ip.IsUnspecified() {
		host = "localhost"
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+net.JoinHostPort(host, port)+"/readyz", nil)
	if err != nil {
		return err
	}
	answer, err := http.DefaultClient.Do(request)
	if err != nil {
		return fmt.Errorf("the server at %s does not answer: %w", listen, err)
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		return fmt.Errorf("the server at %s is not well: it answers %s", listen, answer.Status)
	}
	return nil
}
