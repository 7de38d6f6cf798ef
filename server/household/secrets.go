package household

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/base32"
	"encoding/base64"
	"encoding/hex"
	"strings"
)

const (
	tokenBytes = 32 // 256 bits
	codeBytes  = 16 // 128 bits
)

// codeAlphabet is Crockford's base 32 (crockford.com/base32.html): no letters
// that are read as digits, so that a code can be read out across a garden.
const codeAlphabet = "0123456789abcdefghjkmnpqrstvwxyz"

func codeEncoding() *base32.Encoding {
	return base32.NewEncoding(codeAlphabet).WithPadding(base32.NoPadding)
}

// newToken makes a device's secret. crypto/rand never fails.
func newToken() string {
	raw := make([]byte, tokenBytes)
	rand.Read(raw)
	return base64.RawURLEncoding.EncodeToString(raw)
}

// newCode makes a join code.
func newCode() string {
	raw := make([]byte, codeBytes)
	rand.Read(raw)
	return codeEncoding().EncodeToString(raw)
}

// plainCode undoes what typing and reading out do to a code: capitals, hyphens,
// spaces, and the look-alikes that Crockford's alphabet leaves out.
func plainCode(typed string) string {
	return strings.NewReplacer(" ", "", "-", "", "i", "1", "l", "1", "o", "0").Replace(strings.ToLower(typed))
}

// hashed is what is kept of a secret. Tokens and codes are random in full, so a
// plain hash is as hard to turn back as the secret is to guess.
func hashed(secret string) string {
	sum := sha256.Sum256([]byte(secret))
	return hex.EncodeToString(sum[:])
}
