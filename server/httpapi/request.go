package httpapi

import (
	"bytes"
	"net/netip"
	"strings"

	"github.com/gofiber/fiber/v2"
	"github.com/gofiber/fiber/v2/utils"

	"haulm/server/household"
)

// What middlewares leave for handlers under c.Locals.
const (
	localSeat    = "seat"
	localDevice  = "device"
	localBody    = "body"
	localCode    = "code"
	localRequest = "request"
)

// param copies a path parameter out of the request.
func param(c *fiber.Ctx, name string) string { return utils.CopyString(c.Params(name)) }

// query copies a query parameter out of the request.
func query(c *fiber.Ctx, name string) string { return utils.CopyString(c.Query(name)) }

// header copies a header out of the request.
func header(c *fiber.Ctx, name string) string { return utils.CopyString(c.Get(name)) }

// seat is who is asking in the garden of the path; routes marked for members
// have one.
func seat(c *fiber.Ctx) household.Seat { return c.Locals(localSeat).(household.Seat) }

func requestID(c *fiber.Ctx) string {
	id, _ := c.Locals(localRequest).(string)
	return id
}

// clientAddress is who the connection is from. Behind a proxy that the person
// running the server trusts, it is the last address in X-Forwarded-For that is
// not itself such a proxy: everything before that can be made up. A proxy may
// add a line of its own after the caller's, so all of them are one list (RFC
// 9110, section 5.3).
func (a *App) clientAddress(c *fiber.Ctx) netip.Addr {
	remote := remoteAddress(c)
	if !a.trusts(remote) {
		return remote
	}
	lines := c.Request().Header.PeekAll(fiber.HeaderXForwardedFor)
	hops := strings.Split(string(bytes.Join(lines, []byte(","))), ",")
	for i := len(hops) - 1; i >= 0; i-- {
		hop, err := netip.ParseAddr(strings.TrimSpace(hops[i]))
		if err != nil {
			return remote
		}
		if remote = hop.Unmap(); !a.trusts(remote) {
			return remote
		}
	}
	return remote
}

func (a *App) trusts(address netip.Addr) bool {
	for _, block := range a.TrustedProxies {
		if block.Contains(address) {
			return true
		}
	}
	return false
}

func remoteAddress(c *fiber.Ctx) netip.Addr {
	address, ok := netip.AddrFromSlice(c.Context().RemoteIP())
	if !ok {
		return netip.Addr{}
	}
	return address.Unmap()
}

// forwarded reports whether a proxy stands between: it says so itself in one of
// the usual headers (RFC 7239 and its forerunners).
func forwarded(c *fiber.Ctx) bool {
	for _, name := range []string{"Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Real-Ip", "Via"} {
		if len(c.Request().Header.Peek(name)) > 0 {
			return true
		}
	}
	return false
}

// fromThisMachine reports whether the caller is on the same machine, with no
// proxy in between and under a loopback name, so that a page elsewhere that
// rebinds its name to 127.0.0.1 is not taken for a neighbour. On a server that is
// published nobody is: a proxy on this machine may say nothing of itself and
// write the Host anew, as nginx's proxy_pass does.
func (a *App) fromThisMachine(c *fiber.Ctx) bool {
	return !a.Published && remoteAddress(c).IsLoopback() && !forwarded(c) && LoopbackHost(hostname(c))
}

// LoopbackHost reports whether a host name or address is this machine for itself.
func LoopbackHost(host string) bool {
	if host == "localhost" {
		return true
	}
	address, err := netip.ParseAddr(strings.Trim(host, "[]"))
	return err == nil && address.IsLoopback()
}

// hostname is the Host header without its port, in lower case.
func hostname(c *fiber.Ctx) string {
	host := strings.ToLower(string(c.Request().Host()))
	if i := strings.LastIndexByte(host, ':'); i >= 0 && !strings.HasSuffix(host, "]") {
		host = host[:i]
	}
	return host
}
