package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"path/filepath"
	"time"

	"golang.org/x/sync/errgroup"

	"haulm/pwa"
	"haulm/server/httpapi"
	"haulm/server/trust"
)

type serveCommand struct {
	Data         string         `help:"The folder that everything is kept in." default:"${data}" type:"path"`
	Listen       string         `help:"Address to listen on; localhost:8080, or :8443 with --tls local." placeholder:"ADDR"`
	PublicURL    *url.URL       `help:"Where people open the app; by default worked out from the address." name:"public-url" placeholder:"URL"`
	TrustedProxy []netip.Prefix `help:"A proxy whose X-Forwarded-For is believed." placeholder:"CIDR"`
	TLS          string         `help:"off: plain HTTP, for this machine or behind a proxy; local: an authority of this machine's own." name:"tls" enum:"off,local" default:"off"`
	TrustListen  string         `help:"Where, with --tls local, phones fetch the certificate to trust." default:":8081" placeholder:"ADDR"`
	MetricsToken string         `help:"Bearer token that opens /metrics from other machines." placeholder:"TOKEN"`
	LogLevel     slog.Level     `help:"debug logs every request; info, warn, error." default:"info"`
	Demo         bool           `help:"Show an invented garden to whoever sits at this machine."`
}

const (
	heartbeat = 15 * time.Second // proxies cut streams that are silent for 30 to 60 s
	// stopPatience is how long running requests may take to finish when the
	// server is told to stop; service managers wait 10 s or longer.
	stopPatience = 8 * time.Second
	// slowHeader bounds the small servers beside the app.
	slowHeader = 10 * time.Second
)

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
	err = c.serve(ctx, world, f, logger)
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

func checkPublicURL(u *url.URL) error {
	if u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.Path != "" && u.Path != "/" {
		return usagef("--public-url must be like https://garden.example.org, without a path, not %s", u)
	}
	return nil
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
	running, err := c.assemble(f, listener, logger, world.now)
	if err != nil {
		return err
	}
	if err := running.announce(ctx, world, f); err != nil {
		return err
	}
	return running.run(ctx, logger)
}

// A runningServer is everything that answers: the app, the socket for other
// commands, and with an authority of its own the page that explains it.
type runningServer struct {
	app      *httpapi.App
	listener net.Listener
	public   *url.URL
	beside   []besideServer
	trust    *trust.Authority // nil without --tls local
	trustURL string
}

type besideServer struct {
	server   *http.Server
	listener net.Listener
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
		Journal: f.journal, Household: f.household, Media: f.media, Shell: shell,
		PublicURL: r.public, Hosts: names.Hosts(), TrustedProxies: c.TrustedProxy,
		MetricsToken: c.MetricsToken, DemoGarden: c.demoGarden(),
		Heartbeat: heartbeat, Logger: logger, Now: now,
	})
	if err != nil {
		return nil, err
	}
	socket, err := listenSocket(c.Data)
	if err != nil {
		logger.Warn("serving without the socket: haulm invite and verify need the server stopped", "why", err.Error())
		return r, nil
	}
	r.besides(socketHandler(f, r.public), socket)
	return r, nil
}

func (r *runningServer) besides(handler http.Handler, listener net.Listener) {
	r.beside = append(r.beside, besideServer{&http.Server{Handler: handler, ReadHeaderTimeout: slowHeader}, listener})
}

func (c *serveCommand) demoGarden() string {
	if c.Demo {
		return demoGarden
	}
	return ""
}

func (c *serveCommand) publicHost() []string {
	if c.PublicURL == nil {
		return nil
	}
	return []string{c.PublicURL.Hostname()}
}

// publicURL is the address given, or one that works without being told: this
// machine's own under plain HTTP, else its address at home.
func (c *serveCommand) publicURL(at net.Addr, names trust.Names) *url.URL {
	if c.PublicURL != nil {
		return &url.URL{Scheme: c.PublicURL.Scheme, Host: c.PublicURL.Host}
	}
	_, port, err := net.SplitHostPort(at.String())
	if err != nil {
		port = ""
	}
	if host := names.HomeAddress(); c.TLS == "local" && host != "" {
		return &url.URL{Scheme: "https", Host: net.JoinHostPort(host, port)}
	}
	scheme := map[string]string{"off": "http", "local": "https"}[c.TLS]
	return &url.URL{Scheme: scheme, Host: net.JoinHostPort("localhost", port)}
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

func trustAddress(public *url.URL, at net.Addr) string {
	_, port, err := net.SplitHostPort(at.String())
	if err != nil {
		port = ""
	}
	return "http://" + net.JoinHostPort(public.Hostname(), port)
}

// announce tells the person at the terminal where to go.
func (r *runningServer) announce(ctx context.Context, world *console, f *folder) error {
	fmt.Fprintf(world.out, "listening: %s\nopen: %s\n", r.listener.Addr(), r.public)
	if r.trust != nil {
		fmt.Fprintf(world.out, "trust: %s, on each phone first; its fingerprint is\n       %s\n", r.trustURL, r.trust.Fingerprint())
	}
	orphaned, err := needsKeeper(ctx, f)
	if err != nil {
		return err
	}
	for _, id := range orphaned {
		made, err := makeInvitation(ctx, f, r.public, id, "keeper")
		if err != nil {
			return err
		}
		made.show(world.out)
	}
	fmt.Fprintln(world.out, "stop: press Ctrl-C, or send SIGTERM")
	return nil
}

// run serves until the context ends or a server fails, then ends all of them.
func (r *runningServer) run(ctx context.Context, logger *slog.Logger) error {
	group, ctx := errgroup.WithContext(ctx)
	group.Go(func() error {
		if err := r.app.Serve(r.listener); ctx.Err() == nil {
			return err
		}
		return nil
	})
	for _, b := range r.beside {
		group.Go(func() error { return ended(b.server.Serve(b.listener)) })
	}
	group.Go(func() error {
		<-ctx.Done()
		logger.Info("stopping")
		return r.stop(logger)
	})
	return group.Wait()
}

// stop lets running requests finish. The listener is closed by itself too: when
// the end comes before the app has begun to serve, Shutdown knows nothing of it.
func (r *runningServer) stop(logger *slog.Logger) error {
	ctx, cancel := context.WithTimeout(context.Background(), stopPatience)
	defer cancel()
	err := r.app.Shutdown(ctx)
	if closing := r.listener.Close(); closing != nil && !errors.Is(closing, net.ErrClosed) {
		err = errors.Join(err, closing)
	}
	for _, b := range r.beside {
		err = errors.Join(err, b.server.Shutdown(ctx))
	}
	if errors.Is(err, context.DeadlineExceeded) {
		logger.Warn("some requests did not finish in time and were cut off")
		return nil
	}
	return err
}

func ended(err error) error {
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}
