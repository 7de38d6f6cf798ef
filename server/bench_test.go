package main

import (
	"bytes"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
)

// What the benchmarks measure with: batches as phones send them, and a garden that is large
// after many years.
const (
	benchBatch   = 500
	benchChanges = 10_000
	benchRecords = 100_000
)

// batches makes the bodies of sync requests that push observations.
func batches(changes int) [][]byte {
	var bodies [][]byte
	at := time.Now().UTC()
	for done := 0; done < changes; done += benchBatch {
		var batch []testChange
		for i := range min(benchBatch, changes-done) {
			at = at.Add(time.Millisecond)
			one := newChange("observation/"+uuid.Must(uuid.NewV7()).String(), map[string]any{
				"planting": "0192b3c4-0000-7000-8000-00000000000a", "seen": "2026-06-02T09:15:00+02:00",
				"stage": 61, "heightCm": 84 + i%40, "vigour": 4, "note": "two stems down after the rain, the rest stands"})
			one.At = at.Format("2006-01-02T15:04:05.000Z") + "-0000-phone1"
			batch = append(batch, one)
		}
		bodies = append(bodies, []byte(mustJSON(map[string]any{"cursor": "", "limit": 1, "changes": batch})))
	}
	return bodies
}

// plain leaves the check against openapi.json out of a measurement.
func plain(c *testClient) *testClient {
	c.router = nil
	return c
}

func pushAll(b *testing.B, c *testClient, bodies [][]byte) {
	b.Helper()
	for _, body := range bodies {
		var got synced
		c.send(http.MethodPost, c.of("/sync"), body).mustBe(http.StatusOK).decode(&got)
		if len(got.Refused) > 0 || len(got.Applied) == 0 {
			b.Fatalf("%d applied, refused %+v", len(got.Applied), got.Refused)
		}
	}
}

// BenchmarkSyncPush is 10,000 changes in batches of 500, each batch durable,
// with members and validation, over HTTP on the loopback.
func BenchmarkSyncPush(b *testing.B) {
	s := startServer(b, "", "--log-level", "info")
	ann := plain(joins(b, s.url, s.join, "Ann"))
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		bodies := batches(benchChanges)
		b.StartTimer()
		pushAll(b, ann, bodies)
	}
	b.ReportMetric(float64(benchChanges*b.N)/b.Elapsed().Seconds(), "changes/s")
}

// BenchmarkSyncOneChange is one durable change in a request of its own.
func BenchmarkSyncOneChange(b *testing.B) {
	s := startServer(b, "", "--log-level", "info")
	ann := plain(joins(b, s.url, s.join, "Ann"))
	for b.Loop() {
		one := newChange(newRef("observation"), map[string]any{"note": "x"})
		body := []byte(mustJSON(map[string]any{"limit": 1, "changes": []testChange{one}}))
		ann.send(http.MethodPost, ann.of("/sync"), body).mustBe(http.StatusOK)
	}
}

// pullCount reads the whole feed as bytes, as fast as the server gives it, and
// counts the records.
func pullCount(b testing.TB, c *testClient, limit int) int {
	b.Helper()
	records, cursor := 0, ""
	for {
		body := fmt.Appendf(nil, `{"cursor":%q,"limit":%d}`, cursor, limit)
		got := c.send(http.MethodPost, c.of("/sync"), body).mustBe(http.StatusOK).body
		records += bytes.Count(got, []byte(`{"record":"`))
		tail := string(got[bytes.LastIndex(got, []byte(`,"cursor":"`)):])
		_, tail, _ = strings.Cut(tail, `"cursor":"`)
		cursor, tail, _ = strings.Cut(tail, `"`)
		if strings.Contains(tail, `"more":false`) {
			return records
		}
	}
}

// BenchmarkSyncPull is the feed of 10,000 records over HTTP on the loopback.
func BenchmarkSyncPull(b *testing.B) {
	s := startServer(b, "", "--log-level", "info")
	ann := plain(joins(b, s.url, s.join, "Ann"))
	pushAll(b, ann, batches(benchChanges))
	records := 0
	for b.Loop() {
		records += pullCount(b, ann, 2000)
	}
	b.ReportMetric(float64(records)/b.Elapsed().Seconds(), "records/s")
}

// BenchmarkPhotoUpload is a file of 3.6 MB in pieces of 256 kB, each durable.
func BenchmarkPhotoUpload(b *testing.B) {
	s := startServer(b, "", "--log-level", "info")
	ann := plain(joins(b, s.url, s.join, "Ann"))
	const size, piece = 3_600_000, 256 << 10
	photo := picture(b, 2400, 1800, 11)
	photo = append(photo[:len(photo):len(photo)], make([]byte, max(0, size-len(photo)))...)[:size]
	b.SetBytes(size)
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		copy(photo[size-20:], fmt.Sprintf("%020d", i))
		b.StartTimer()
		for from := 0; from < size; from += piece {
			ann.piece(photo, from, min(from+piece, size)).mustBe(http.StatusNoContent)
		}
	}
}

// largeFolder makes a data folder with 100,000 records and gives its keeper.
func largeFolder(b *testing.B) (string, *testClient) {
	b.Helper()
	dir := b.TempDir()
	s := startServer(b, dir, "--log-level", "info")
	ann := plain(joins(b, s.url, s.join, "Ann"))
	pushAll(b, ann, batches(benchRecords))
	if code := s.stop(); code != 0 {
		b.Fatalf("exit code %d", code)
	}
	return dir, ann
}

// BenchmarkServerMemory reports the anonymous memory of a server process with
// 100,000 records: at rest, and the most while they are pulled.
func BenchmarkServerMemory(b *testing.B) {
	dir, ann := largeFolder(b)
	var rest, most float64
	for b.Loop() {
		s, child := startChild(b, dir)
		ann.base = s.url
		ann.send(http.MethodGet, "/healthz", nil).mustBe(http.StatusOK)
		rest = max(rest, rssAnon(b, child))
		stop := watchMemory(b, child, &most)
		if n := pullCount(b, ann, 500); n <= benchRecords {
			b.Fatalf("%d records pulled", n)
		}
		stop()
		s.stop()
	}
	b.ReportMetric(rest, "MB-at-rest")
	b.ReportMetric(most, "MB-while-pulled")
}

// BenchmarkServerPreviews is both small pictures of a 12-megapixel JPEG, made by
// a server process because the phone sent none, and its memory meanwhile.
func BenchmarkServerPreviews(b *testing.B) {
	s, child := startChild(b, b.TempDir())
	ann := plain(joins(b, s.url, s.join, "Ann"))
	base := picture(b, 4000, 3000, 13)
	var most float64
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		photo := fmt.Appendf(base[:len(base):len(base)], "%d", i)
		ann.piece(photo, 0, len(photo)).mustBe(http.StatusNoContent)
		stop := watchMemory(b, child, &most)
		b.StartTimer()
		ann.send(http.MethodGet, ann.medium(photo)+"?w=1600", nil).mustBe(http.StatusOK)
		ann.send(http.MethodGet, ann.medium(photo)+"?w=320", nil).mustBe(http.StatusOK)
		b.StopTimer()
		stop()
		b.StartTimer()
	}
	b.ReportMetric(most, "MB-RssAnon")
}

// watchMemory samples a process until the function it gives is called.
func watchMemory(b *testing.B, child *exec.Cmd, most *float64) (stop func()) {
	done, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		for {
			select {
			case <-done:
				return
			case <-time.After(10 * time.Millisecond):
				*most = max(*most, rssAnon(b, child))
			}
		}
	}()
	return func() { close(done); <-ended }
}

// rssAnon is a process's anonymous resident memory in MB: mapped files count
// for the page cache, not for it.
func rssAnon(b *testing.B, child *exec.Cmd) float64 {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", child.Process.Pid))
	if err != nil {
		b.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "RssAnon:")
	kb, err := strconv.ParseFloat(strings.Fields(rest)[0], 64)
	if err != nil {
		b.Fatal(err)
	}
	return kb / 1024
}

// BenchmarkServerStart is from starting the process to its first answer, with
// 100,000 records in the folder.
func BenchmarkServerStart(b *testing.B) {
	dir, ann := largeFolder(b)
	for b.Loop() {
		s, _ := startChild(b, dir)
		ann.base = s.url
		ann.send(http.MethodGet, "/readyz", nil).mustBe(http.StatusOK)
		b.StopTimer()
		s.stop()
		b.StartTimer()
	}
}
