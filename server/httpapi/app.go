package httpapi

import (
	"context"
	"io/fs"
	"log/slog"
	"net"
	"net/netip"
	"net/url"
	"time"

	"github.com/gofiber/fiber/v2"
	"github.com/gofiber/fiber/v2/middleware/recover"

	"haulm/media"
	"haulm/server/household"
	"haulm/sync/journal"
)

// Options are what an App needs.
type Options struct {
	Journal   *journal.Journal
	Household *household.Household
	Media     *media.Store
	Shell     fs.FS  // the phone's app; nil when this binary was built without it
	Arriving  string // the folder where files lie until they are taken in

	PublicURL      *url.URL       // where people open the app; its origin alone may make changes with a cookie
	Hosts          []string       // names this server answers to besides loopback, lower case, without port
	TrustedProxies []netip.Prefix // whose X-Forwarded-For is believed
	Published      bool           // reached through a proxy or under a public name: metrics by token alone, no demo
	MetricsToken   string         // opens /metrics from elsewhere; "" for this machine alone
	DemoGarden     string         // the garden that POST /demo opens; "" for none

	Heartbeat time.Duration // between signs of life on an event stream
	Logger    *slog.Logger
	Now       func() time.Time
}

const (
	// readTimeout bounds how long one request's bytes may take to arrive. A
	// piece of a photo over a poor signal takes tens of seconds; what is cut off
	// is kept and resumed.
	readTimeout = 2 * time.Minute
	idleTimeout = 2 * time.Minute
	// answerTimeout bounds how long a client may take to read an answer; an
	// event stream renews its own.
	answerTimeout = 5 * time.Minute
	// headerBytes is what request headers may take together.
	headerBytes = 16 << 10
)

// An App is the HTTP side of one server.
type App struct {
	Options
	fiber       *fiber.App
	shell       *shell
	streams     *streams
	metrics     *metrics
	assessing   chan struct{} // holds a token while a garden is being assessed
	waiting     chan struct{} // holds one for each request that waits for that, or has it
	importing   chan struct{} // holds a token while a saved file is taken in
	description []byte
	addresses   []string // of the table's routes
}

// New puts the routes together; nothing listens yet.
func New(o Options) (*App, error) {
	a := &App{Options: o, streams: newStreams(), assessing: make(chan struct{}, 1), importing: make(chan struct{}, 1), waiting: make(chan struct{}, assessmentsWaiting)}
	a.metrics = newMetrics(func() float64 { return float64(a.streams.count()) }, a.highestSeq)
	var err error
	if a.shell, err = newShell(o.Shell); err != nil {
		return nil, err
	}
	table := a.routes()
	for _, r := range table {
		a.addresses = append(a.addresses, r.path)
	}
	if a.description, err = marshalDescription(table); err != nil {
		return nil, err
	}
	a.fiber = a.assemble(table)
	return a, nil
}

func (a *App) assemble(table []route) *fiber.App {
	app := fiber.New(fiber.Config{
		AppName:                      "Haulm",
		DisableStartupMessage:        true,
		ErrorHandler:                 a.answerProblem,
		CaseSensitive:                true,
		StreamRequestBody:            true,
		DisablePreParseMultipartForm: true,
		ReadBufferSize:               headerBytes,
		ReadTimeout:                  readTimeout,
		IdleTimeout:                  idleTimeout,
		ReduceMemoryUsage:            true,
	})
	app.Use(a.observe, recover.New(recover.Config{EnableStackTrace: true, StackTraceHandler: a.logPanic}),
		a.limitAnswer, secureHeaders, a.knownHost, a.ownOrigin)
	app.Post("/api/v1/join", a.limitJoins())
	for _, r := range table {
		app.Add(r.method, r.path, a.admit(r.access), r.handle)
	}
	app.Use(a.serveShell)
	app.Server().Handler = a.knownMethod(app.Handler())
	return app
}

// limitAnswer bounds the time an answer may take to be read. Fiber's own write
// timeout would end event streams.
func (a *App) limitAnswer(c *fiber.Ctx) error {
	if err := limitAnswerFromNow(c); err != nil {
		return err
	}
	return c.Next()
}

// limitAnswerFromNow is also for handlers that worked long before they answer.
func limitAnswerFromNow(c *fiber.Ctx) error {
	return c.Context().Conn().SetWriteDeadline(time.Now().Add(answerTimeout))
}

func (a *App) logPanic(c *fiber.Ctx, cause any) {
	a.Logger.ErrorContext(c.UserContext(), "a handler panicked", "request", requestID(c), "route", c.Route().Path, "cause", cause)
}

// Serve answers connections until Shutdown; it may be called for several
// listeners.
func (a *App) Serve(listener net.Listener) error { return a.fiber.Listener(listener) }

// Shutdown ends the event streams, lets other requests finish until the context
// ends, and closes the listeners.
func (a *App) Shutdown(ctx context.Context) error {
	a.streams.endAll()
	return a.fiber.ShutdownWithContext(ctx)
}

// JoinURL is the link that carries a join code. The code stands behind "#", so
// it is never sent to a server or written into its log.
func JoinURL(public *url.URL, code string) string {
	return originOf(public) + "/join#" + code
}
