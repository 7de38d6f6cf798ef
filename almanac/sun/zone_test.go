package sun

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "make zones.txt anew from the time zone database that comes with Go, and write the answers anew; read the difference")

// The IANA time zone database as Go ships it, read by package time itself, must
// give the offsets that the table gives, at moments from 1900 to the last year
// that the sun is reckoned for.
func TestZoneTableAgreesWithTheDatabase(t *testing.T) {
	files := databaseOfGo(t)
	if *update {
		if err := os.WriteFile("zones.txt", []byte(zoneLines(t, files)), 0o644); err != nil {
			t.Fatal(err)
		}
		t.Skip("zones.txt is made anew: run again without -update")
	}
	random := rand.New(rand.NewPCG(1, 2))
	from, to := time.Date(1900, 1, 2, 0, 0, 0, 0, time.UTC).Unix(), time.Date(lastYear+1, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	for _, f := range files {
		ours, err := Zone(f.name)
		if err != nil {
			t.Fatal(err)
		}
		theirs, err := time.LoadLocationFromTZData(f.name, f.data)
		if err != nil {
			t.Fatal(err)
		}
		for range 500 {
			moment := time.Unix(from+random.Int64N(to-from), 0)
			_, is := moment.In(ours).Zone()
			_, want := moment.In(theirs).Zone()
			if is != want {
				t.Fatalf("%s is %d s from UTC on %s, the database says %d: make the table anew with -update", f.name, is, moment.UTC(), want)
			}
		}
	}
}

func TestZoneByOffset(t *testing.T) {
	for name, want := range map[string]int{"Z": 0, "+02:00": 7200, "-03:30": -12600, "UTC": 0} {
		zone, err := Zone(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if _, is := time.Unix(0, 0).In(zone).Zone(); is != want {
			t.Errorf("%s is %d s from UTC, want %d", name, is, want)
		}
	}
	for _, name := range []string{"", "Europe/Londn", "Europe", "+2", "+02:00 ", "#", "\t", "Local", "-"} {
		if _, err := Zone(name); err == nil || !strings.Contains(err.Error(), fmt.Sprintf("timeZone %q is not known", name)) {
			t.Errorf("zone %q: error %v", name, err)
		}
	}
}

type zoneFile struct {
	name string
	data []byte
}

// databaseOfGo reads the archive in the Go installation's lib/time.
func databaseOfGo(t *testing.T) []zoneFile {
	t.Helper()
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Skipf("no installation of Go can be asked from here (WebAssembly starts no programs): %v", err)
	}
	archive, err := zip.OpenReader(filepath.Join(strings.TrimSpace(string(root)), "lib", "time", "zoneinfo.zip"))
	if err != nil {
		t.Skipf("this installation of Go has no time zone database: %v", err)
	}
	defer archive.Close()
	var files []zoneFile
	for _, f := range archive.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		reader, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(reader)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, zoneFile{f.Name, data})
	}
	return files
}

// zoneLines makes the table: zones of one history share a line.
func zoneLines(t *testing.T, files []zoneFile) string {
	t.Helper()
	names := map[string][]string{}
	for _, f := range files {
		history := historyOf(f.data)
		names[history] = append(names[history], f.name)
	}
	var lines []string
	for history, of := range names {
		slices.Sort(of)
		lines = append(lines, strings.Join(of, " ")+"\t"+history+"\n")
	}
	slices.Sort(lines)
	return strings.Join(lines, "")
}

// historyOf reads the second part of a file in the form of RFC 8536 from 1900 on.
func historyOf(file []byte) string {
	const since = -2208988800 // 1900-01-01
	counts := func(head []byte) (n [6]int) {
		for i := range n {
			n[i] = int(binary.BigEndian.Uint32(head[20+4*i:]))
		}
		return n
	}
	n := counts(file)
	file = file[44+n[3]*5+n[4]*6+n[5]+n[2]*8+n[1]+n[0]:]
	n = counts(file)
	times := file[44:]
	kinds := times[8*n[3]:]
	types := kinds[n[3]:]
	footer := bytes.TrimSpace(types[6*n[4]+n[5]+12*n[2]+n[1]+n[0]:])
	offset := func(kind byte) int { return int(int32(binary.BigEndian.Uint32(types[6*int(kind):]))) }
	offsets, last, lastMoment := []int{offset(0)}, offset(0), int64(0)
	var changes []string
	for i := range n[3] {
		moment, next := int64(binary.BigEndian.Uint64(times[8*i:])), offset(kinds[i])
		if moment < since {
			offsets[0], last = next, next
			continue
		}
		if next == last && i < n[3]-1 { // the rule counts from the last change, so that one stays
			continue
		}
		if !slices.Contains(offsets, next) {
			offsets = append(offsets, next)
		}
		changes = append(changes, fmt.Sprintf("%d,%d", moment-lastMoment, slices.Index(offsets, next)))
		last, lastMoment = next, moment
	}
	return string(footer) + "\t" + strings.Trim(fmt.Sprint(offsets), "[]") + "\t" + strings.Join(changes, " ")
}
