package household

import (
	"strings"
	"testing"
)

func TestNamesShowAsTheyAre(t *testing.T) {
	cases := []struct {
		name, given string
		fits        bool
	}{
		{"a name", "Ann's phone", true},
		{"accents set apart", "Zoe\u0308", true},
		{"another script", "می\u200cخواهم", true},
		{"emoji joined", "👩\u200d🌾", true},
		{"the longest", strings.Repeat("x", longestName), true},
		{"nothing", "", false},
		{"too long", strings.Repeat("x", longestName+1), false},
		{"not UTF-8", "\xff", false},
		{"two lines", "a\nb", false},
		{"a line separator", "a\u2028b", false},
		{"a NUL", "a\x00", false},
		{"an escape", "\x1b[2J", false},
		{"turned round", "\u202enna", false},
		{"an isolate", "\u2066Ann\u2069", false},
		{"no width at all", "\u200b", false},
		{"a soft hyphen", "An\u00adn", false},
		{"joiners alone", "\u200d\u200c", false},
		{"fillers alone", "\u3164", false},
		{"a blank", "\u2800", false},
		{"marks alone", "\u0301", false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if _, err := (Names{Device: c.given, Member: "Ann"}).check(); (err == nil) != c.fits {
				t.Errorf("as a device: %v", err)
			}
			if _, err := (Names{Device: "phone", Member: c.given}).check(); (err == nil) != c.fits {
				t.Errorf("as a member: %v", err)
			}
		})
	}
}

func TestRefusedRoleIsNotRepeatedAtLength(t *testing.T) {
	if _, err := ParseRole(strings.Repeat("x", 5000)); err == nil || len(err.Error()) > 120 {
		t.Errorf("%v", err)
	}
}
