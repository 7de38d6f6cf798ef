package httpapi

import (
	"net/http"
	"net/netip"
	"time"

	"github.com/gofiber/fiber/v2"
	"github.com/gofiber/fiber/v2/middleware/limiter"

	"haulm/server/household"
	"haulm/server/refusal"
)

const (
	// joinsPerWindow is far above what a household needs and, against codes of
	// 128 bits, far below what guessing needs.
	joinsPerWindow = 20
	joinWindow     = time.Minute
)

type joinBody struct {
	Code   string `json:"code"`
	Device string `json:"device"`
	Name   string `json:"name"`
}

// joinedBody answers a join. Browsers get the token as a cookie instead.
type joinedBody struct {
	Token  string         `json:"token,omitempty"`
	Garden string         `json:"garden"`
	Member string         `json:"member"`
	Role   household.Role `json:"role"`
}

// limitJoins slows down whoever tries codes, by the address they come from.
func (a *App) limitJoins() fiber.Handler {
	return limiter.New(limiter.Config{
		Max:          joinsPerWindow,
		Expiration:   joinWindow,
		KeyGenerator: func(c *fiber.Ctx) string { return callerKey(a.clientAddress(c)) },
		LimitReached: func(*fiber.Ctx) error {
			return refusal.New(refusal.TooMany, "too_many_joins", "too many tries to join from this address: wait a minute, then try again")
		},
	})
}

// callerKey stands for whoever holds an address: for IPv6 that is a network of
// 64 bits, within which a machine may take any address (RFC 4291, section 2.5.4).
func callerKey(address netip.Addr) string {
	if address.Is6() {
		if network, err := address.Prefix(64); err == nil {
			return network.String()
		}
	}
	return address.String()
}

func (a *App) join(c *fiber.Ctx) error {
	var asked joinBody
	if err := readJSON(c, smallBodyLimit, &asked); err != nil {
		return err
	}
	names := household.Names{Device: asked.Device, Member: asked.Name}
	seat, token, err := a.Household.Join(c.UserContext(), asked.Code, tokenOf(c), names)
	if err != nil {
		return err
	}
	a.Logger.InfoContext(c.UserContext(), "a device joined", "garden", seat.Garden, "role", seat.Member.Role)
	return answerJoined(c, seat, token)
}

func answerJoined(c *fiber.Ctx, seat household.Seat, token string) error {
	told := joinedBody{Token: token, Garden: seat.Garden, Member: seat.Member.ID, Role: seat.Member.Role}
	if fromBrowser(c) {
		setCookie(c, token, cookieLife)
		told.Token = ""
	}
	return c.JSON(told)
}

// openDemo seats whoever sits at this very machine in the demo garden.
func (a *App) openDemo(c *fiber.Ctx) error {
	if a.DemoGarden == "" {
		return refusal.New(refusal.Missing, "no_demo", "this server shows no demo garden: start it with --demo")
	}
	if !a.fromThisMachine(c) {
		return refusal.New(refusal.Forbidden, "demo_not_local",
			"the demo opens by itself only on the machine that runs it, not through a proxy or under a public name: join with a code instead")
	}
	token := tokenOf(c)
	if token != "" {
		if seat, err := a.Household.SeatIn(c.UserContext(), token, a.DemoGarden); err == nil {
			return answerJoined(c, seat, token)
		}
	}
	names := household.Names{Device: "this browser", Member: "Visitor"}
	seat, token, err := a.Household.Seat(c.UserContext(), a.DemoGarden, household.Keeper, token, names)
	if err != nil {
		return err
	}
	return answerJoined(c, seat, token)
}

func (a *App) logout(c *fiber.Ctx) error {
	seats, err := a.Household.Logout(c.UserContext(), tokenOf(c))
	if err != nil {
		return err
	}
	for _, seat := range seats {
		a.streams.end(streamOwner{seat.Garden, seat.Device.ID})
	}
	clearCookie(c)
	return c.SendStatus(http.StatusNoContent)
}

type meBody struct {
	Device  namedDevice `json:"device"`
	Gardens []myGarden  `json:"gardens"`
}

type namedDevice struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

type myGarden struct {
	Garden string         `json:"garden"`
	Member string         `json:"member"`
	Name   string         `json:"name"`
	Role   household.Role `json:"role"`
}

func (a *App) me(c *fiber.Ctx) error {
	known := c.Locals(localDevice).(household.Known)
	told := meBody{Device: namedDevice{known.Device, known.Name}, Gardens: []myGarden{}}
	for _, seat := range known.Seats {
		told.Gardens = append(told.Gardens, myGarden{seat.Garden, seat.Member.ID, seat.Member.Name, seat.Member.Role})
	}
	if token := c.Cookies(cookieName); token != "" && bearer(c) == "" {
		setCookie(c, token, cookieLife)
	}
	return c.JSON(told)
}
