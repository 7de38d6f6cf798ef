package httpapi

import (
	"net/url"
	"slices"
	"strings"

	"github.com/gofiber/fiber/v2"

	"haulm/server/refusal"
)

// appPolicy is the content security policy of every answer: the app's own files
// and nothing else, no inline script or style, no frame around it.
const appPolicy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob:; " +
	"media-src 'self' blob:; connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// uploadPolicy is that of bytes that people sent: shown, never run.
const uploadPolicy = "sandbox; default-src 'none'; frame-ancestors 'none'"

func secureHeaders(c *fiber.Ctx) error {
	c.Set(fiber.HeaderContentSecurityPolicy, appPolicy)
	c.Set(fiber.HeaderXContentTypeOptions, "nosniff")
	c.Set(fiber.HeaderReferrerPolicy, "no-referrer")
	c.Set(fiber.HeaderPermissionsPolicy, "camera=(self), geolocation=(self), microphone=(self)")
	c.Set("Cross-Origin-Opener-Policy", "same-origin")
	c.Set("Cross-Origin-Resource-Policy", "same-origin")
	if strings.HasPrefix(c.Path(), "/api/") {
		c.Set(fiber.HeaderCacheControl, "no-store")
	}
	return c.Next()
}

// knownHost refuses a Host that is not this server's: otherwise a page anywhere
// could rebind its own name to this address and read the answers.
func (a *App) knownHost(c *fiber.Ctx) error {
	host := hostname(c)
	if loopbackHost(host) || slices.Contains(a.Hosts, host) {
		return c.Next()
	}
	return refusal.New(refusal.Forbidden, "unknown_host",
		"this server does not answer to %q: open %s, or start it with --public-url for that name", shorten(host), a.PublicURL)
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
