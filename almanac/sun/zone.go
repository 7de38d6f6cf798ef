package sun

import (
	_ "embed"
	"encoding/binary"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// zoneTable has the civil time of every zone of the IANA time zone database (in
// the public domain) since 1900. The phone has no such database, and the one of a
// server's system is another every year, so the almanac carries its own and gives
// the same answer everywhere: 20 kB sent compressed, where the one that comes with
// Go would be 61 kB and is asked only after the system's. A line has four fields
// parted by tabs: the names; the rule for after the last change, as POSIX writes
// it; the offsets in seconds, the first being that of before; and the changes,
// each as the seconds since the one before (the first since 1970) and the number
// of the new offset. `go test ./almanac/sun -run ZoneTable -update` makes it anew
// from the database that comes with Go.
//
//go:embed zones.txt
var zoneTable string

// Zone gives a zone by its IANA name ("Europe/London") or by an offset from UTC
// ("Z", "+02:00", "-03:30"). Before 1900 a zone keeps the offset of then.
func Zone(name string) (*time.Location, error) {
	if moment, err := time.Parse("Z07:00", name); err == nil {
		_, offset := moment.Zone()
		return time.FixedZone("", offset), nil
	}
	for line := range strings.Lines(zoneTable) {
		fields := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if len(fields) == 4 && listed(fields[0], name) {
			return location(name, fields)
		}
	}
	return nil, fmt.Errorf("timeZone %q is not known: give an IANA name, such as Europe/London, or an offset from UTC, such as +02:00 or Z", name)
}

func listed(names, name string) bool {
	for one := range strings.SplitSeq(names, " ") {
		if one == name {
			return true
		}
	}
	return false
}

// location writes a line of the table in the form of RFC 8536, which package
// time reads: version 2 with an empty first part, all zones of one nameless
// abbreviation.
func location(name string, fields []string) (*time.Location, error) {
	offsets, changes := strings.Fields(fields[2]), strings.Fields(fields[3])
	times, kinds, err := zoneChanges(changes)
	if err != nil {
		return nil, err
	}
	file := append(zoneHead(0, 1), 0, 0, 0, 0, 0, 0, '-', 0)
	file = append(file, zoneHead(len(changes), len(offsets))...)
	file = append(append(file, times...), kinds...)
	for _, text := range offsets {
		offset, err := strconv.ParseInt(text, 10, 32)
		if err != nil {
			return nil, errZoneTable
		}
		file = append(binary.BigEndian.AppendUint32(file, uint32(offset)), 0, 0)
	}
	file = append(file, '-', 0)
	return time.LoadLocationFromTZData(name, append(file, "\n"+fields[1]+"\n"...))
}

// zoneChanges gives the moments of changes, eight bytes each, and the numbers of
// their offsets, one byte each.
func zoneChanges(changes []string) (times, kinds []byte, err error) {
	moment := int64(0)
	for _, change := range changes {
		since, number, _ := strings.Cut(change, ",")
		elapsed, err1 := strconv.ParseInt(since, 10, 64)
		kind, err2 := strconv.ParseUint(number, 10, 8)
		if err1 != nil || err2 != nil {
			return nil, nil, errZoneTable
		}
		moment += elapsed
		times = binary.BigEndian.AppendUint64(times, uint64(moment))
		kinds = append(kinds, byte(kind))
	}
	return times, kinds, nil
}

// zoneHead is the header of RFC 8536, section 3.1, for a number of changes and
// of offsets.
func zoneHead(changes, offsets int) []byte {
	head := append([]byte("TZif2"), make([]byte, 15)...)
	for _, count := range []int{0, 0, 0, changes, offsets, 2} {
		head = binary.BigEndian.AppendUint32(head, uint32(count))
	}
	return head
}

var errZoneTable = errors.New("the almanac's table of zones is damaged: build the program anew")
