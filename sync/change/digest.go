package change

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math/bits"

	"haulm/garden"
)

// A Digest sums up a set of records: each record's own digest added up modulo
// 2^128, so that a record can be taken out and put in without the others. The
// zero Digest is of no records.
type Digest struct{ hi, lo uint64 }

// DigestOf is the digest of one record: the first 16 bytes of SHA-256, read big
// endian, over its ref and then each field's name and stamp in bytewise order of
// names, all separated by NUL. Cleared and unknown fields count. A record that
// is gone or was never written adds nothing.
func DigestOf(ref garden.Ref, s *State) Digest {
	if s.Seq == 0 || s.Gone.Value {
		return Digest{}
	}
	text := append(make([]byte, 0, 512), ref.String()...)
	for _, f := range s.Fields {
		text = append(append(text, 0), f.Name...)
		text = append(append(text, 0), f.At...)
	}
	sum := sha256.Sum256(text)
	return Digest{binary.BigEndian.Uint64(sum[:8]), binary.BigEndian.Uint64(sum[8:16])}
}

// Plus adds other's records.
func (d Digest) Plus(other Digest) Digest {
	lo, carry := bits.Add64(d.lo, other.lo, 0)
	hi, _ := bits.Add64(d.hi, other.hi, carry)
	return Digest{hi, lo}
}

// Minus takes other's records out.
func (d Digest) Minus(other Digest) Digest {
	lo, borrow := bits.Sub64(d.lo, other.lo, 0)
	hi, _ := bits.Sub64(d.hi, other.hi, borrow)
	return Digest{hi, lo}
}

// String is 32 hexadecimal digits.
func (d Digest) String() string { return fmt.Sprintf("%016x%016x", d.hi, d.lo) }

// MarshalText makes a Digest its text in JSON.
func (d Digest) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (d *Digest) UnmarshalText(text []byte) error {
	b, err := hex.DecodeString(string(text))
	if err != nil || len(b) != 16 {
		return fmt.Errorf("digest %q is not 32 hexadecimal digits", shorten(string(text)))
	}
	*d = Digest{binary.BigEndian.Uint64(b[:8]), binary.BigEndian.Uint64(b[8:])}
	return nil
}

// Buckets is the number of parts in which a garden's digest is kept, so that a
// phone finds what differs without comparing everything.
const Buckets = 256

// BucketOf is the part that a record belongs to: the first byte of SHA-256 over
// its ref.
func BucketOf(ref garden.Ref) int { return int(sha256.Sum256([]byte(ref.String()))[0]) }
