// Package household knows who belongs to which garden: members with their
// roles, devices with their tokens, and the codes by which both come in.
//
// A member belongs to one garden and has a role there. A device has a token and
// a seat, for one member, in each garden that it joined. An invite is a code
// that makes a member once. All of it is kept as private entries of the
// journal, which phones never get:
//
//	scope    key               value
//	garden   member/{id}       Member
//	garden   device/{id}       Device: the seat of a device in that garden
//	every    token/{hash}      tokenEntry: the device behind a token, its gardens
//	every    invite/{hash}     Invite
//
// Tokens and codes are kept as hashes alone. Start in join.go; seats.go answers
// who is asking; revoke.go takes access away.
package household

import (
	"time"

	"haulm/sync/journal"
)

// A Household answers for all gardens of a server. Its methods may be called
// from several goroutines.
type Household struct {
	Journal *journal.Journal
	Now     func() time.Time
}

// A Member is a person in one garden.
type Member struct {
	ID     string    `json:"member"`
	Name   string    `json:"name"`
	Role   Role      `json:"role"`
	Joined time.Time `json:"joined"`
}

// A Device is a phone, or another program, in one garden.
type Device struct {
	ID     string    `json:"device"`
	Name   string    `json:"name"`
	Member string    `json:"member"`
	Joined time.Time `json:"joined"`
	Token  string    `json:"token"` // the token's hash
}

// A Seat is who is asking, in which garden.
type Seat struct {
	Garden string
	Member Member
	Device Device
}

// tokenEntry is the device behind a token.
type tokenEntry struct {
	Hash    string   `json:"hash"`
	Device  string   `json:"device"`
	Name    string   `json:"name"`
	Gardens []string `json:"gardens"`
}

// everyGarden is the scope of what belongs to no single garden.
const everyGarden = journal.Global

func memberKey(id string) string   { return "member/" + id }
func deviceKey(id string) string   { return "device/" + id }
func tokenKey(hash string) string  { return "token/" + hash }
func inviteKey(hash string) string { return "invite/" + hash }
