package change

import (
	"fmt"
	"time"
)

// A Stamp is a hybrid logical clock as text:
//
//	2026-06-02T09:15:00.123Z-0000-k7f3q2
//	UTC, milliseconds        |    device, 4 to 16 of a-z and 0-9
//	                         counter, 4 hexadecimal digits
//
// Everything before the device has a fixed width, so stamps sort as text, by
// bytes. The zero Stamp is before every other.
type Stamp string

const (
	stampLayout = "2006-01-02T15:04:05.000Z"
	timeWidth   = len(stampLayout)
	counterAt   = timeWidth + 1
	deviceAt    = counterAt + 5
	maxCounter  = 0xffff

	minDevice = 4  // characters; enough to tell a household's phones apart
	maxDevice = 16 // characters; every field of every record carries them
)

// MakeStamp writes a stamp. The instant is cut to milliseconds; years must lie
// in 0 to 9999 and the counter in 0 to 65535.
func MakeStamp(at time.Time, counter int, device string) Stamp {
	return Stamp(fmt.Sprintf("%s-%04x-%s", at.UTC().Format(stampLayout), counter, device))
}

// ParseStamp reads a stamp and accepts only what MakeStamp writes. The error is
// a *Refusal with the code "invalid_at".
func ParseStamp(text string) (Stamp, error) {
	bad := func() (Stamp, error) {
		return "", refuse("invalid_at", "at %q is not a stamp: it must look like 2026-06-02T09:15:00.123Z-0000-k7f3q2", shorten(text))
	}
	if len(text) < deviceAt+minDevice || len(text) > deviceAt+maxDevice {
		return bad()
	}
	if text[timeWidth] != '-' || text[deviceAt-1] != '-' || !allOf(text[counterAt:deviceAt-1], isHex) || !allOf(text[deviceAt:], isDevice) {
		return bad()
	}
	if _, err := time.Parse(stampLayout, text[:timeWidth]); err != nil {
		return bad()
	}
	return Stamp(text), nil
}

// Time is the instant of the stamp, to the millisecond.
func (s Stamp) Time() time.Time {
	if len(s) < deviceAt {
		return time.Time{}
	}
	at, _ := time.Parse(stampLayout, string(s[:timeWidth])) // a Stamp was parsed before
	return at
}

// Counter tells stamps of one millisecond apart.
func (s Stamp) Counter() int {
	counter := 0
	if len(s) >= deviceAt {
		for _, digit := range s[counterAt : deviceAt-1] {
			counter = counter<<4 | hexValue(byte(digit))
		}
	}
	return counter
}

// Device is the short name that the writing device gave itself.
func (s Stamp) Device() string {
	if len(s) < deviceAt {
		return ""
	}
	return string(s[deviceAt:])
}

// next is the least stamp of a device after s.
func (s Stamp) next(device string) Stamp {
	if counter := s.Counter() + 1; counter <= maxCounter {
		return MakeStamp(s.Time(), counter, device)
	}
	return MakeStamp(s.Time().Add(time.Millisecond), 0, device)
}

// MaxAhead is how far beyond the server's own time a stamp may lie: more than
// ordinary phones' clocks differ, and too little to win arguments with.
const MaxAhead = 60 * time.Second

// Cap holds a stamp to the server's time plus MaxAhead. A stamp within it comes
// back as it is. One beyond it is moved to the limit, and after top, the
// greatest stamp that the garden has accepted, so that what was stamped later
// and comes later stays later.
func Cap(s Stamp, now time.Time, top Stamp) Stamp {
	limit := MakeStamp(now.Add(MaxAhead), 0, s.Device())
	if s[:timeWidth] <= limit[:timeWidth] {
		return s
	}
	if top >= limit[:deviceAt] {
		return top.next(s.Device())
	}
	return limit
}

func isHex(c byte) bool    { return c >= '0' && c <= '9' || c >= 'a' && c <= 'f' }
func isDevice(c byte) bool { return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' }

func hexValue(c byte) int {
	if c <= '9' {
		return int(c - '0')
	}
	return int(c-'a') + 10
}

func allOf(text string, is func(byte) bool) bool {
	for i := range len(text) {
		if !is(text[i]) {
			return false
		}
	}
	return true
}

const longestShown = 60 // characters of a bad value that a refusal repeats

func shorten(text string) string {
	if runes := []rune(text); len(runes) > longestShown {
		return string(runes[:longestShown]) + "…"
	}
	return text
}
