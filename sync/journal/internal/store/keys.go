package store

import (
	"encoding/binary"
	"fmt"
	"strings"
)

// The tables, told apart by a key's first byte; what they hold is in the package
// comment of sync/journal.
const (
	StandingTable = 'h'
	LogTable      = 'l'
	FeedTable     = 'f'
	RecordTable   = 'r'
	OutcomeTable  = 'i'
	SumTable      = 's'
	PrivateTable  = 'p'
	TipTable      = 'c'
)

// Key makes a key: the table, the garden, NUL, and the rest.
func Key[T ~string | ~[]byte](table byte, garden string, rest T) []byte {
	key := make([]byte, 0, 1+len(garden)+1+len(rest))
	key = append(append(key, table), garden...)
	return append(append(key, 0), rest...)
}

// SeqKey makes a key whose rest is a sequence, in order of sequences.
func SeqKey(table byte, garden string, seq uint64) []byte {
	return Key(table, garden, Seq(seq))
}

// Seq is a sequence as it is sorted in keys: 8 bytes, big endian.
func Seq(seq uint64) []byte { return binary.BigEndian.AppendUint64(nil, seq) }

// SplitKey takes a key apart.
func SplitKey(key []byte) (table byte, garden, rest string, err error) {
	if len(key) > 0 {
		if garden, rest, found := strings.Cut(string(key[1:]), "\x00"); found {
			return key[0], garden, rest, nil
		}
	}
	return 0, "", "", fmt.Errorf("%w: the key %q is none of ours", ErrDamaged, key)
}
