package main

import (
	"context"
	"net/url"
)

type inviteCommand struct {
	Data      string   `help:"The data folder." default:"${data}" type:"path"`
	Garden    string   `help:"Which garden, where there are several."`
	Role      string   `help:"What the new member may do: ${enum}." enum:"keeper,helper,viewer" default:"helper"`
	PublicURL *url.URL `help:"Where people open the app, when no server is running." name:"public-url" placeholder:"URL"`
}

// Run prints a join code: through the running server, or from the folder.
func (c *inviteCommand) Run(ctx context.Context, world *console) error {
	asked := inviteRequest{Garden: c.Garden, Role: c.Role}
	var made invitation
	served, err := callServer(ctx, c.Data, "/invite", asked, &made)
	if !served {
		made, err = c.fromFolder(ctx, world, asked)
	}
	if err != nil {
		return err
	}
	made.show(world.out)
	return nil
}

func (c *inviteCommand) fromFolder(ctx context.Context, world *console, asked inviteRequest) (invitation, error) {
	if c.PublicURL == nil {
		return invitation{}, usagef("no server is running on %s, so say with --public-url where people will open the app", c.Data)
	}
	if err := checkPublicURL(c.PublicURL); err != nil {
		return invitation{}, err
	}
	f, err := openKept(ctx, c.Data, world.now, quiet(world.err))
	if err != nil {
		return invitation{}, err
	}
	defer f.close()
	return makeInvitation(ctx, f, c.PublicURL, asked.Garden, asked.Role)
}
