package httpapi

import (
	"bytes"
	"net/url"
	"slices"

	"github.com/gofiber/fiber/v2"
	"github.com/valyala/fasthttp"

	"haulm/server/refusal"
)

// appPolicy is the content security policy of every answer: the app's own files
// and nothing else, no inline script or style, no frame around it.
const appPolicy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob:; " +
	"media-src 'self' blob:; connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// uploadPolicy is that of bytes that people sent: shown, never run.
const uploadPolicy = "sandbox; default-src 'none'; frame-ancestors 'none'"

// secureHeaders gives every answer its policy, and has nothing kept unless a
// handler says so.
func secureHeaders(c *fiber.Ctx) error {
	setSecureHeaders(&c.Response().Header)
	return c.Next()
}

func setSecureHeaders(header *fasthttp.ResponseHeader) {
	header.Set(fiber.HeaderContentSecurityPolicy, appPolicy)
	header.Set(fiber.HeaderXContentTypeOptions, "nosniff")
	header.Set(fiber.HeaderReferrerPolicy, "no-referrer")
	header.Set(fiber.HeaderPermissionsPolicy, "camera=(self), geolocation=(self), microphone=(self)")
	header.Set("Cross-Origin-Opener-Policy", "same-origin")
	header.Set("Cross-Origin-Resource-Policy", "same-origin")
	header.Set(fiber.HeaderCacheControl, "no-store")
}

// knownMethod stands in front of Fiber, which answers a method that it does not
// know by itself, without any of the headers above.
func (a *App) knownMethod(next fasthttp.RequestHandler) fasthttp.RequestHandler {
	return func(c *fasthttp.RequestCtx) {
		if slices.Contains(fiber.DefaultMethods, string(c.Method())) {
			next(c)
			return
		}
		setSecureHeaders(&c.Response.Header)
		c.Response.Header.SetContentType(fiber.MIMEApplicationJSON)
		c.SetStatusCode(fiber.StatusBadRequest)
		c.SetBodyString(`{"code":"unknown_method","why":"this server knows no such method: /api/v1/openapi.json lists what there is"}`)
		c.SetConnectionClose()
	}
}

// knownHost refuses a Host that is not this server's: otherwise a page anywhere
// could rebind its own name to this address and read the answers. One that can
// be read in two ways is refused before that.
func (a *App) knownHost(c *fiber.Ctx) error {
	if hostLines(c.Request().Header.RawHeaders()) > 1 || bytes.ContainsRune(c.Request().Header.Host(), '@') {
		return refusal.New(refusal.Invalid, "bad_host", "a request must name its host once, as a name or address and a port alone")
	}
	host := hostname(c)
	if LoopbackHost(host) || slices.Contains(a.Hosts, host) {
		return c.Next()
	}
	return refusal.New(refusal.Forbidden, "unknown_host",
		"this server does not answer to %q: open %s, or start it with --public-url for that name", shorten(host), a.PublicURL)
}

// hostLines counts the Host headers as they came: fasthttp keeps the last alone.
func hostLines(raw []byte) int {
	n := 0
	for line := range bytes.Lines(raw) {
		if name, _, found := bytes.Cut(line, []byte(":")); found && bytes.EqualFold(name, []byte(fiber.HeaderHost)) {
			n++
		}
	}
	return n
}

// ownOrigin refuses what another page makes a browser send. Cookies ignore
// ports and are sent by themselves, so a change made with one must name this
// app's own origin; a bearer token is never sent by itself.
func (a *App) ownOrigin(c *fiber.Ctx) error {
	switch c.Method() {
	case fiber.MethodGet, fiber.MethodHead, fiber.MethodOptions:
		return c.Next()
	}
	origin := header(c, fiber.HeaderOrigin)
	withCookie := c.Cookies(cookieName) != "" && bearer(c) == ""
	if origin == "" && !withCookie || origin == originOf(a.PublicURL) {
		return c.Next()
	}
	return refusal.New(refusal.Forbidden, "foreign_origin",
		"this change was sent from a page at %q, which is not this app: open %s and try there", shorten(origin), a.PublicURL)
}

func originOf(u *url.URL) string { return u.Scheme + "://" + u.Host }

// fromBrowser reports whether a browser's page is asking: only browsers send
// Sec-Fetch-Site (Fetch Metadata), and every browser sends Origin with a POST.
func fromBrowser(c *fiber.Ctx) bool {
	return c.Get("Sec-Fetch-Site") != "" || c.Get(fiber.HeaderOrigin) != ""
}

func shorten(text string) string {
	const longest = 80
	if len(text) > longest {
		return text[:longest] + "…"
	}
	return text
}
