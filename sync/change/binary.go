package change

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// AppendBinary appends the state's compact form, for a store: the form's
// version, the distinct writes (most records have few), then the mark and the
// fields, each with the number of its write. Numbers are varints, texts have
// their length first. It never fails.
func (s *State) AppendBinary(buf []byte) ([]byte, error) {
	writes := s.writes()
	buf = append(buf, stateVersion)
	buf = binary.AppendUvarint(buf, s.Seq)
	buf = binary.AppendUvarint(buf, uint64(len(writes)))
	for _, w := range writes {
		buf = appendBytes(binary.AppendUvarint(buf, w.Seq), w.At)
		buf = appendBytes(appendBytes(buf, w.By.Member), w.By.Device)
	}
	buf = appendIndex(append(buf, boolByte(s.Gone.Value)), writes, s.Gone.Write)
	buf = binary.AppendUvarint(buf, uint64(len(s.Fields)))
	for _, f := range s.Fields {
		buf = appendIndex(appendBytes(appendBytes(buf, f.Name), f.Value), writes, f.Write)
		buf = binary.AppendUvarint(buf, uint64(len(f.Also)))
		for _, l := range f.Also {
			buf = appendIndex(appendBytes(buf, l.Value), writes, l.Write)
		}
	}
	return buf, nil
}

const stateVersion = 1

func (s *State) writes() []Write {
	all := make([]Write, 0, 4) // most records have fewer
	note := func(w Write) {
		if !slices.Contains(all, w) {
			all = append(all, w)
		}
	}
	note(s.Gone.Write)
	for i := range s.Fields {
		note(s.Fields[i].Write)
		for _, l := range s.Fields[i].Also {
			note(l.Write)
		}
	}
	return all
}

func appendIndex(buf []byte, writes []Write, w Write) []byte {
	return binary.AppendUvarint(buf, uint64(slices.Index(writes, w)))
}

func boolByte(b bool) byte {
	if b {
		return 1
	}
	return 0
}

// UnmarshalBinary reads what AppendBinary wrote. Values point into buf, which
// must not change afterwards.
func (s *State) UnmarshalBinary(buf []byte) error {
	r := reader{buf: buf}
	if v := r.byte(); v != stateVersion {
		return fmt.Errorf("it has form %d and this program reads form %d", v, stateVersion)
	}
	*s = State{Seq: r.number()}
	r.writes = make([]Write, r.count())
	for i := range r.writes {
		r.writes[i] = Write{Seq: r.number(), At: Stamp(r.bytes()), By: Writer{Member: r.text(), Device: r.text()}}
	}
	s.Gone = Mark{Value: r.byte() == 1, Write: r.write()}
	s.Fields = make([]Field, r.count())
	for i := range s.Fields {
		s.Fields[i] = r.field()
	}
	if r.broken || len(r.buf) > 0 {
		return errors.New("its bytes end in the wrong place")
	}
	return nil
}

// A reader takes values off buf and remembers that it ran short.
type reader struct {
	buf    []byte
	writes []Write
	broken bool
}

func (r *reader) byte() byte {
	if len(r.buf) == 0 {
		r.broken = true
		return 0
	}
	b := r.buf[0]
	r.buf = r.buf[1:]
	return b
}

func (r *reader) number() uint64 {
	n, size := binary.Uvarint(r.buf)
	if size <= 0 {
		r.broken = true
		return 0
	}
	r.buf = r.buf[size:]
	return n
}

// count reads the number of things that follow; each takes at least a byte.
func (r *reader) count() int {
	n := r.number()
	if n > uint64(len(r.buf)) {
		r.broken = true
		return 0
	}
	return int(n)
}

func (r *reader) bytes() []byte {
	n := r.count()
	b := r.buf[:n:n]
	r.buf = r.buf[n:]
	return b
}

func (r *reader) text() string { return string(r.bytes()) }

func (r *reader) write() Write {
	if i := r.number(); i < uint64(len(r.writes)) {
		return r.writes[i]
	}
	r.broken = true
	return Write{}
}

func (r *reader) field() Field {
	f := Field{Name: r.text(), Value: r.bytes(), Write: r.write()}
	if n := r.count(); n > 0 {
		f.Also = make([]Loser, n)
		for i := range f.Also {
			f.Also[i] = Loser{Value: r.bytes(), Write: r.write()}
		}
	}
	return f
}

// appendBytes appends a length and the bytes.
func appendBytes[T ~string | ~[]byte](buf []byte, b T) []byte {
	buf = binary.AppendUvarint(buf, uint64(len(b)))
	return append(buf, b...)
}
