package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/netip"
	"net/url"
	"path/filepath"
	"time"

	"haulm/pwa"
	"haulm/server/httpapi"
	"haulm/server/trust"
)

type serveCommand struct {
	Data         string         `help:"The folder that everything is kept in." default:"${data}" type:"path"`
	Listen       string         `help:"Address to listen on; localhost:8080, or :8443 with --tls local." placeholder:"ADDR"`
	PublicURL    *url.URL       `help:"Where people open the app; by default worked out from the address." name:"public-url" placeholder:"URL"`
	TrustedProxy []netip.Prefix `help:"A proxy whose X-Forwarded-For is believed. It must send that header: a plain proxy_pass of nginx does not." placeholder:"CIDR"`
	TLS          string         `help:"off: plain HTTP, for this machine or behind a proxy; local: an authority of this machine's own." name:"tls" enum:"off,local" default:"off"`
	TrustListen  string         `help:"Where, with --tls local, phones fetch the certificate to trust." default:":8081" placeholder:"ADDR"`
	MetricsToken string         `help:"Bearer token that opens /metrics from other machines, and from any with --trusted-proxy or a --public-url that is not this machine's own." placeholder:"TOKEN"`
	LogLevel     slog.Level     `help:"debug logs every request; info, warn, error." default:"info"`
	Demo         bool           `help:"Show an invented garden to whoever sits at this machine; not with --trusted-proxy or a --public-url that is not this machine's own."`
}

// heartbeat is the time between signs of life on an event stream: proxies cut
// streams that are silent for 30 to 60 s.
const heartbeat = 15 * time.Second

// Run serves until the context ends, then stops gracefully.
func (c *serveCommand) Run(ctx context.Context, world *console) error {
	limitMemory()
	if err := c.check(); err != nil {
		return err
	}
	logger := slog.New(slog.NewJSONHandler(world.err, &slog.HandlerOptions{Level: c.LogLevel}))
	f, err := openFolder(ctx, c.Data, world.now, logger)
	if err != nil {
		return err
	}
	if err = f.tidy(ctx, world.now(), logger); err == nil {
		err = c.serve(ctx, world, f, logger)
	}
	return errors.Join(err, f.close())
}

func (c *serveCommand) check() error {
	if c.Listen == "" {
		c.Listen = map[string]string{"off": "localhost:8080", "local": ":8443"}[c.TLS]
	}
	if c.PublicURL == nil {
		return nil
	}
	if c.TLS == "local" && c.PublicURL.Scheme != "https" {
		return usagef("with --tls local the app is at an https address, so --public-url cannot be %s", c.PublicURL)
	}
	return checkPublicURL(c.PublicURL)
}

func (c *serveCommand) serve(ctx context.Context, world *console, f *folder, logger *slog.Logger) error {
	if err := c.prepareGardens(ctx, world, f); err != nil {
		return err
	}
	listener, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w; choose another address with --listen", c.Listen, err)
	}
	defer listener.Close()
	c.warnOfPlainHTTP(listener.Addr(), logger)
	running, err := c.assemble(f, listener, logger, world.now)
	if err != nil {
		return err
	}
	if err := running.announce(ctx, world, f); err != nil {
		return err
	}
	return running.run(ctx, logger)
}

func (c *serveCommand) assemble(f *folder, listener net.Listener, logger *slog.Logger, now func() time.Time) (*runningServer, error) {
	names := trust.MachineNames(c.publicHost()...)
	r := &runningServer{listener: listener, public: c.publicURL(listener.Addr(), names)}
	if c.TLS == "local" {
		if err := c.secure(r, now); err != nil {
			return nil, err
		}
	}
	shell, err := pwa.Files()
	if errors.Is(err, pwa.ErrNotBuilt) {
		logger.Warn("phones and programs are served, browsers are not", "why", err.Error())
	} else if err != nil {
		return nil, err
	}
	r.app, err = httpapi.New(httpapi.Options{
		Journal: f.journal, Household: f.household, Media: f.media, Shell: shell, Arriving: f.arriving,
		PublicURL: r.public, Hosts: names.Hosts(), TrustedProxies: c.TrustedProxy,
		Published: c.published(), MetricsToken: c.MetricsToken, DemoGarden: c.demoGarden(),
		Heartbeat: heartbeat, Logger: logger, Now: now,
	})
	if err != nil {
		return nil, err
	}
	socket, err := listenSocket(c.Data)
	if err != nil {
		logger.Warn("serving without the socket: haulm invite, import and verify need the server stopped", "why", err.Error())
		return r, nil
	}
	r.besides(socketHandler(f, r.public), socket)
	return r, nil
}

func (c *serveCommand) demoGarden() string {
	if c.Demo {
		return demoGarden
	}
	return ""
}

// secure puts TLS in front of the listener and adds the trust page.
func (c *serveCommand) secure(r *runningServer, now func() time.Time) error {
	names := func() trust.Names { return trust.MachineNames(c.publicHost()...) }
	authority, err := trust.Open(filepath.Join(c.Data, tlsFolder), names(), now())
	if err != nil {
		return err
	}
	leaf := &trust.Leaf{Authority: authority, Names: names, Now: now}
	if _, err := leaf.Certificate(); err != nil {
		return err
	}
	page, err := trust.NewPage(authority, r.public.String())
	if err != nil {
		return err
	}
	plain, err := net.Listen("tcp", c.TrustListen)
	if err != nil {
		return fmt.Errorf("cannot listen on %s for the page that phones fetch the certificate from: %w; choose another address with --trust-listen", c.TrustListen, err)
	}
	r.trust, r.trustURL = authority, trustAddress(r.public, plain.Addr())
	r.besides(page, plain)
	r.listener = leaf.Listener(r.listener)
	return nil
}
