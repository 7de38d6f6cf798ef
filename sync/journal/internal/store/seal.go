package store

import (
	"encoding/binary"
	"errors"
	"fmt"

	"github.com/cespare/xxhash/v2"
)

// sealBytes is the length of the checksum in front of every value.
const sealBytes = 8

// ErrDamaged is a value that is not what was written under its key.
var ErrDamaged = errors.New("damaged on disk")

// seal puts in front of a value the 64-bit xxHash of its key and itself. The
// key counts so that a sound value under another's key is found out.
func seal(key, value []byte) []byte {
	sealed := make([]byte, sealBytes, sealBytes+len(value))
	binary.BigEndian.PutUint64(sealed, sum(key, value))
	return append(sealed, value...)
}

// unseal checks a value and takes the seal off; empty is damage.
func unseal(key, sealed []byte) ([]byte, error) {
	if len(sealed) <= sealBytes {
		return nil, fmt.Errorf("%w: it has %d bytes where more were written", ErrDamaged, len(sealed))
	}
	value := sealed[sealBytes:]
	if binary.BigEndian.Uint64(sealed) != sum(key, value) {
		return nil, fmt.Errorf("%w: its checksum does not fit", ErrDamaged)
	}
	return value, nil
}

func sum(key, value []byte) uint64 {
	var digest xxhash.Digest
	digest.Reset()
	digest.Write(key)   // never fails
	digest.Write(value) // never fails
	return digest.Sum64()
}
