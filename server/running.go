package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"time"

	"golang.org/x/sync/errgroup"

	"haulm/server/httpapi"
	"haulm/server/trust"
)

const (
	// stopPatience is how long running requests may take to finish when the
	// server is told to stop; service managers wait 10 s or longer.
	stopPatience = 8 * time.Second
	// slowHeader bounds the small servers beside the app.
	slowHeader = 10 * time.Second
)

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

func (r *runningServer) besides(handler http.Handler, listener net.Listener) {
	r.beside = append(r.beside, besideServer{&http.Server{Handler: handler, ReadHeaderTimeout: slowHeader}, listener})
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
