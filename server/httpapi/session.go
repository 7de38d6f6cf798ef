package httpapi

import (
	"strings"
	"time"

	"github.com/gofiber/fiber/v2"

	"haulm/server/household"
	"haulm/server/refusal"
)

const (
	// cookieName binds the cookie to this host, to "/" and to HTTPS (RFC
	// 6265bis, section 4.1.3.2). Browsers count http://localhost as secure,
	// Safari excepted.
	cookieName = "__Host-haulm"
	// cookieLife is the longest that browsers keep a cookie (RFC 6265bis,
	// section 5.5: 400 days); GET /me renews it.
	cookieLife = 400 * 24 * time.Hour
)

// An access says who may call a route.
type access int

const (
	anyone access = iota
	device        // a device that is known
	member        // one with a seat in the garden of the path
	keeper        // one whose member keeps that garden
)

// admit is the check before a route's handler.
func (a *App) admit(needs access) fiber.Handler {
	return func(c *fiber.Ctx) error {
		if needs == anyone {
			return c.Next()
		}
		token := tokenOf(c)
		if token == "" {
			return refusal.New(refusal.Unknown, "no_token", "this needs a device that has joined: join with a code from a keeper")
		}
		if needs == device {
			known, err := a.Household.Device(c.UserContext(), token)
			if err != nil {
				return err
			}
			c.Locals(localDevice, known)
			return c.Next()
		}
		return a.admitToGarden(c, needs, token)
	}
}

func (a *App) admitToGarden(c *fiber.Ctx, needs access, token string) error {
	found, err := a.Household.SeatIn(c.UserContext(), token, param(c, "garden"))
	if err != nil {
		return err
	}
	if needs == keeper && found.Member.Role != household.Keeper {
		return refusal.New(refusal.Forbidden, "keepers_only", "only a keeper of the garden may do this: ask one")
	}
	c.Locals(localSeat, found)
	return c.Next()
}

// tokenOf gives the device's secret: a bearer token before a cookie.
func tokenOf(c *fiber.Ctx) string {
	if token := bearer(c); token != "" {
		return token
	}
	return strings.Clone(c.Cookies(cookieName))
}

func bearer(c *fiber.Ctx) string {
	scheme, token, found := strings.Cut(header(c, fiber.HeaderAuthorization), " ")
	if !found || !strings.EqualFold(scheme, "Bearer") {
		return ""
	}
	return strings.TrimSpace(token)
}

// setCookie gives a browser its token where no script can read it.
func setCookie(c *fiber.Ctx, token string, life time.Duration) {
	c.Cookie(&fiber.Cookie{Name: cookieName, Value: token, Path: "/", MaxAge: int(life.Seconds()),
		Secure: true, HTTPOnly: true, SameSite: fiber.CookieSameSiteStrictMode})
}

// clearCookie takes it away again.
func clearCookie(c *fiber.Ctx) {
	c.Cookie(&fiber.Cookie{Name: cookieName, Value: "", Path: "/", Expires: time.Unix(1, 0),
		Secure: true, HTTPOnly: true, SameSite: fiber.CookieSameSiteStrictMode})
}
