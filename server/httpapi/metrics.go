package httpapi

import (
	"crypto/subtle"
	"strconv"
	"strings"
	"time"

	"github.com/gofiber/fiber/v2"
	"github.com/gofiber/fiber/v2/middleware/adaptor"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"haulm/server/refusal"
)

// metrics are what the server counts about itself. No label names a garden, a
// person or anything that was written.
type metrics struct {
	registry *prometheus.Registry
	requests *prometheus.CounterVec
	latency  *prometheus.HistogramVec
	batches  prometheus.Histogram
	changes  *prometheus.CounterVec
	media    *prometheus.CounterVec
	scrape   fiber.Handler
}

// newMetrics registers the counters; streams and seq are read when scraped.
func newMetrics(streams, seq func() float64) *metrics {
	m := &metrics{
		registry: prometheus.NewRegistry(),
		requests: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "haulm_http_requests_total",
			Help: "Requests answered, by route pattern."}, []string{"method", "route", "status"}),
		latency: prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: "haulm_http_request_seconds",
			Help: "Time to an answer's start, by route pattern.", Buckets: prometheus.ExponentialBuckets(0.001, 4, 8)}, []string{"method", "route"}),
		batches: prometheus.NewHistogram(prometheus.HistogramOpts{Name: "haulm_sync_batch_changes",
			Help: "Changes pushed in one request.", Buckets: prometheus.ExponentialBuckets(1, 4, 6)}),
		changes: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "haulm_sync_changes_total",
			Help: "Changes judged, by outcome."}, []string{"outcome"}),
		media: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "haulm_media_bytes_total",
			Help: "Bytes of photos and memos, received or sent."}, []string{"direction"}),
	}
	open := prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "haulm_live_streams", Help: "Event streams open."}, streams)
	last := prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "haulm_journal_seq", Help: "Highest sequence in any garden's journal."}, seq)
	m.registry.MustRegister(m.requests, m.latency, m.batches, m.changes, m.media, open, last,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	m.scrape = adaptor.HTTPHandler(promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{}))
	return m
}

// request counts an answer. The labels outlive the request, whose own strings
// are overwritten by the next one on the connection.
func (m *metrics) request(method, route string, status int, took time.Duration) {
	method, route = methodName(method), strings.Clone(route)
	m.requests.WithLabelValues(method, route, strconv.Itoa(status)).Inc()
	m.latency.WithLabelValues(method, route).Observe(took.Seconds())
}

// methodName gives a constant for each method of the routes, and one for all
// others, which anybody may send.
func methodName(asked string) string {
	for _, known := range []string{get, head, post, put, patch, remove} {
		if asked == known {
			return known
		}
	}
	return "other"
}

func (m *metrics) pushed(applied, refused int) {
	m.batches.Observe(float64(applied + refused))
	m.changes.WithLabelValues("applied").Add(float64(applied))
	m.changes.WithLabelValues("refused").Add(float64(refused))
}

func (m *metrics) received(bytes int) { m.media.WithLabelValues("received").Add(float64(bytes)) }
func (m *metrics) sent(bytes int64)   { m.media.WithLabelValues("sent").Add(float64(bytes)) }

// serveMetrics answers this machine, or whoever has the token.
func (a *App) serveMetrics(c *fiber.Ctx) error {
	withToken := a.MetricsToken != "" && subtle.ConstantTimeCompare([]byte(bearer(c)), []byte(a.MetricsToken)) == 1
	if !withToken && !a.fromThisMachine(c) {
		return refusal.New(refusal.Forbidden, "metrics_not_local",
			"metrics are for this machine, while the server is not published, or for a bearer token set with --metrics-token")
	}
	return a.metrics.scrape(c)
}
