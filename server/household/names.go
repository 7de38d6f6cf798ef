package household

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"haulm/server/refusal"
)

// Names are what a person calls the device and themselves when joining. A keeper
// decides by them whom to shut out, so they must show as they are.
type Names struct{ Device, Member string }

const (
	// longestName bounds what people call themselves and their phones.
	longestName = 60 // characters
	nameBound   = "1 to %d characters that can be seen, on one line"

	// The joiners belong to the spelling of some languages and to emoji (Unicode
	// Standard, section 23.2); all other format characters hide or turn text.
	zeroWidthNonJoiner = '\u200c'
	zeroWidthJoiner    = '\u200d'
	brailleBlank       = '\u2800' // a symbol by its category, and nothing to see
)

func (n Names) check() (Names, error) {
	device, err := checkDevice(n.Device)
	n = Names{device, strings.TrimSpace(n.Member)}
	if err != nil {
		return n, err
	}
	if !fitName(n.Member) {
		return n, refusal.New(refusal.Invalid, "invalid_name", "name, what to call you, must be "+nameBound, longestName)
	}
	return n, nil
}

func checkDevice(name string) (string, error) {
	name = strings.TrimSpace(name)
	if !fitName(name) {
		return name, refusal.New(refusal.Invalid, "invalid_device", "device, what to call this phone, must be "+nameBound, longestName)
	}
	return name, nil
}

func fitName(name string) bool {
	length := utf8.RuneCountInString(name)
	return utf8.ValidString(name) && length > 0 && length <= longestName &&
		!strings.ContainsFunc(name, hides) && strings.ContainsFunc(name, visible)
}

// hides reports control characters, line ends, and what turns or hides text.
func hides(r rune) bool {
	if r == zeroWidthJoiner || r == zeroWidthNonJoiner {
		return false
	}
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}

// visible reports what leaves ink; fillers count as letters and do not.
func visible(r rune) bool {
	return unicode.In(r, unicode.L, unicode.N, unicode.P, unicode.S) &&
		!unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r) && r != brailleBlank
}
