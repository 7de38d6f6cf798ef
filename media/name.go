package media

import (
	"crypto/sha256"
	"encoding/hex"
)

// A Name is the SHA-256 of a medium's bytes.
type Name [sha256.Size]byte

// ParseName reads 64 lower-case hexadecimal digits and nothing else, so that a
// name is safe as part of a path. The error is a *Problem with code BadName.
func ParseName(text string) (Name, error) {
	var n Name
	if len(text) != hex.EncodedLen(len(n)) {
		return Name{}, badName(text)
	}
	if _, err := hex.Decode(n[:], []byte(text)); err != nil || n.String() != text {
		return Name{}, badName(text)
	}
	return n, nil
}

// NameOf gives the name of bytes that are at hand.
func NameOf(content []byte) Name { return sha256.Sum256(content) }

// String gives the 64 digits.
func (n Name) String() string { return hex.EncodeToString(n[:]) }

// MarshalText makes a Name its digits in JSON.
func (n Name) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (n *Name) UnmarshalText(text []byte) error {
	parsed, err := ParseName(string(text))
	if err == nil {
		*n = parsed
	}
	return err
}

func badName(text string) *Problem {
	return &Problem{Code: BadName, Text: "a photo or memo is named by 64 hexadecimal digits (the SHA-256 of its bytes), not by " + shown(text)}
}
