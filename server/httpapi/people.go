package httpapi

import (
	"net/http"
	"time"

	"github.com/gofiber/fiber/v2"

	"haulm/server/household"
	"haulm/server/refusal"
)

type inviteBody struct {
	Role string `json:"role"`
}

type invitedBody struct {
	Code    string    `json:"code"`
	URL     string    `json:"url"`
	Expires time.Time `json:"expires"`
}

func (a *App) invite(c *fiber.Ctx) error {
	var asked inviteBody
	if err := readJSON(c, smallBodyLimit, &asked); err != nil {
		return err
	}
	role, err := household.ParseRole(asked.Role)
	if err != nil {
		return err
	}
	here := seat(c)
	maker := household.Maker{Member: here.Member.ID, Device: here.Device.ID}
	code, made, err := a.Household.Invite(c.UserContext(), here.Garden, role, maker)
	if err != nil {
		return err
	}
	return c.Status(http.StatusCreated).JSON(invitedBody{code, JoinURL(a.PublicURL, code), made.Expires})
}

type membersBody struct {
	Members []household.Member `json:"members"`
}

func (a *App) members(c *fiber.Ctx) error {
	members, err := a.Household.Members(c.UserContext(), seat(c).Garden)
	if err != nil {
		return err
	}
	return c.JSON(membersBody{members})
}

func (a *App) removeMember(c *fiber.Ctx) error {
	garden := seat(c).Garden
	devices, err := a.Household.Remove(c.UserContext(), garden, param(c, "member"))
	for _, id := range devices {
		a.streams.end(streamOwner{garden, id})
	}
	if err != nil {
		return err
	}
	return c.SendStatus(http.StatusNoContent)
}

type devicesBody struct {
	Devices []deviceBody `json:"devices"`
}

type deviceBody struct {
	Device     string    `json:"device"`
	Name       string    `json:"name"`
	Member     string    `json:"member"`
	MemberName string    `json:"memberName"`
	Joined     time.Time `json:"joined"`
	This       bool      `json:"this"`
}

func (a *App) devices(c *fiber.Ctx) error {
	here := seat(c)
	members, err := a.Household.Members(c.UserContext(), here.Garden)
	if err != nil {
		return err
	}
	devices, err := a.Household.Devices(c.UserContext(), here.Garden)
	if err != nil {
		return err
	}
	names := map[string]string{}
	for _, m := range members {
		names[m.ID] = m.Name
	}
	told := devicesBody{Devices: []deviceBody{}}
	for _, d := range devices {
		told.Devices = append(told.Devices, deviceBody{d.ID, d.Name, d.Member, names[d.Member], d.Joined, d.ID == here.Device.ID})
	}
	return c.JSON(told)
}

type renameBody struct {
	Name string `json:"name"`
}

// rename gives the device that asks another name; nobody names somebody else's.
func (a *App) rename(c *fiber.Ctx) error {
	var asked renameBody
	if err := readJSON(c, smallBodyLimit, &asked); err != nil {
		return err
	}
	here := seat(c)
	if err := a.Household.Rename(c.UserContext(), here.Garden, here.Device.ID, asked.Name); err != nil {
		return err
	}
	return c.SendStatus(http.StatusNoContent)
}

// revoke shuts a device out: a keeper any, the others their own. Its event
// stream ends before the answer is given.
func (a *App) revoke(c *fiber.Ctx) error {
	here, id := seat(c), param(c, "device")
	if err := a.mayRevoke(c, here, id); err != nil {
		return err
	}
	if err := a.Household.Revoke(c.UserContext(), here.Garden, id); err != nil {
		return err
	}
	a.streams.end(streamOwner{here.Garden, id})
	a.Logger.InfoContext(c.UserContext(), "a device was shut out", "garden", here.Garden, "device", id)
	return c.SendStatus(http.StatusNoContent)
}

func (a *App) mayRevoke(c *fiber.Ctx, here household.Seat, id string) error {
	if here.Member.Role == household.Keeper || here.Device.ID == id {
		return nil
	}
	devices, err := a.Household.Devices(c.UserContext(), here.Garden)
	if err != nil {
		return err
	}
	for _, d := range devices {
		if d.ID == id && d.Member == here.Member.ID {
			return nil
		}
	}
	return refusal.New(refusal.Forbidden, "not_your_device", "only a keeper may shut out somebody else's device: ask one")
}
