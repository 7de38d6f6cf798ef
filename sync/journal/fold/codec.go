package fold

import (
	"encoding/binary"
	"encoding/json"
	"fmt"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal/entry"
)

// A Standing is where the fold of a garden stands.
type Standing struct {
	Head    entry.Head    `json:"head"`
	Parent  string        `json:"parent"` // the epoch this one was restored from
	Fork    uint64        `json:"fork"`   // the last sequence shared with Parent
	Top     change.Stamp  `json:"top"`    // the greatest stamp accepted
	Mark    int64         `json:"mark"`   // the latest time of judging, Unix milliseconds
	Digest  change.Digest `json:"digest"`
	Records int           `json:"records"` // tombstones included
	Rules   int           `json:"rules"`   // entry.Version by which it was folded
}

func encodeStanding(s Standing) []byte {
	text, _ := json.Marshal(s) // made of texts and numbers
	return text
}

func decodeStanding(value []byte) (Standing, error) {
	var s Standing
	if err := json.Unmarshal(value, &s); err != nil {
		return Standing{}, err
	}
	if s.Rules != entry.Version {
		return Standing{}, fmt.Errorf("it was folded by rules %d and this program has rules %d", s.Rules, entry.Version)
	}
	return s, nil
}

// encodeRecord puts the ref in front of the state.
func encodeRecord(ref garden.Ref, s *change.State) []byte {
	name := ref.String()
	buf := make([]byte, 0, 128+s.Size()) // 128: the ref and the lengths of a usual record
	buf = append(binary.AppendUvarint(buf, uint64(len(name))), name...)
	buf, _ = s.AppendBinary(buf) // never fails
	return buf
}

func decodeRecord(value []byte) (change.Record, error) {
	n, size := binary.Uvarint(value)
	if size <= 0 || n > uint64(len(value)-size) {
		return change.Record{}, fmt.Errorf("its name is cut off")
	}
	ref, err := garden.ParseRef(string(value[size : size+int(n)]))
	if err != nil {
		return change.Record{}, err
	}
	record := change.Record{Ref: ref}
	return record, record.State.UnmarshalBinary(value[size+int(n):])
}

// An Outcome is what became of an applied change, kept for its replays.
type Outcome struct {
	Hash [16]byte
	Seq  uint64
	At   change.Stamp
}

func encodeOutcome(o Outcome) []byte {
	buf := append(make([]byte, 0, 72), o.Hash[:]...)
	return append(binary.BigEndian.AppendUint64(buf, o.Seq), o.At...)
}

func decodeOutcome(value []byte) (Outcome, error) {
	if len(value) < 24 {
		return Outcome{}, fmt.Errorf("it is cut off")
	}
	return Outcome{[16]byte(value[:16]), binary.BigEndian.Uint64(value[16:]), change.Stamp(value[24:])}, nil
}

// A Private is a private value and the sequence of its write.
type Private struct {
	Key     string
	Value   json.RawMessage
	Version uint64
}

func encodePrivate(p Private) []byte {
	buf := binary.BigEndian.AppendUint64(make([]byte, 0, 8+len(p.Value)), p.Version)
	return append(buf, p.Value...)
}

func decodePrivate(key string, value []byte) (Private, error) {
	if len(value) < 8 {
		return Private{}, fmt.Errorf("it is cut off")
	}
	return Private{key, value[8:], binary.BigEndian.Uint64(value)}, nil
}

func decodeDigest(value []byte) (change.Digest, error) {
	var d change.Digest
	err := d.UnmarshalText(value)
	return d, err
}

func seqOf(rest string) (uint64, bool) {
	if len(rest) != 8 {
		return 0, false
	}
	return binary.BigEndian.Uint64([]byte(rest)), true
}

func decodeSeq(value []byte) (uint64, error) {
	seq, ok := seqOf(string(value))
	if !ok {
		return 0, fmt.Errorf("it is no sequence")
	}
	return seq, nil
}
