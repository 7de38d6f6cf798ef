package journal_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"haulm/sync/change"
	"haulm/sync/journal"
)

// The benchmarks print what `make bench` puts into its table. The members push
// with a permission check, as the server's do.

func anna() journal.Writer {
	return journal.Writer{Member: "anna", Device: "kitchen", May: func(change.Change) error { return nil }}
}

func push(b *testing.B, j *journal.Journal, changes []change.Change) {
	answer, err := j.Push(context.Background(), home, anna(), changes)
	if err != nil || len(answer.Applied) != len(changes) {
		b.Fatal(err, answer.Refused)
	}
}

func fill(b *testing.B, j *journal.Journal, records int) {
	for range records / 500 {
		push(b, j, observations(500))
	}
}

// BenchmarkFsync is the same disk without us: 4 KB written and synced.
func BenchmarkFsync(b *testing.B) {
	file, err := os.Create(filepath.Join(b.TempDir(), "probe"))
	if err != nil {
		b.Fatal(err)
	}
	defer file.Close()
	block := make([]byte, 4096)
	for b.Loop() {
		if _, err := file.Write(block); err != nil {
			b.Fatal(err)
		}
		if err := file.Sync(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkPush10000 pushes 10,000 new observations in batches of 500, each
// batch durable before the next.
func BenchmarkPush10000(b *testing.B) {
	for b.Loop() {
		b.StopTimer()
		j := openHome(b, b.TempDir())
		changes := observations(10_000)
		b.StartTimer()
		for at := 0; at < len(changes); at += 500 {
			push(b, j, changes[at:at+500])
		}
		b.StopTimer()
		j.Close()
		b.StartTimer()
	}
	b.ReportMetric(10_000*float64(b.N)/b.Elapsed().Seconds(), "changes/s")
}

// BenchmarkPushOne makes one change durable.
func BenchmarkPushOne(b *testing.B) {
	j := openHome(b, b.TempDir())
	defer j.Close()
	changes := observations(20_000)
	i := 0
	for b.Loop() {
		push(b, j, changes[i:i+1])
		i++
	}
}

// BenchmarkPushTogether makes single changes durable from 32 phones at once.
func BenchmarkPushTogether(b *testing.B) {
	j := openHome(b, b.TempDir())
	defer j.Close()
	changes := observations(b.N + 1)
	var next atomic.Int64
	b.SetParallelism(32 / runtime.GOMAXPROCS(0))
	b.ResetTimer()
	b.RunParallel(func(phone *testing.PB) {
		for phone.Next() {
			i := next.Add(1)
			push(b, j, changes[i-1:i])
		}
	})
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "changes/s")
}

// BenchmarkPull10000 reads 10,000 records in pages of 500, as feed JSON.
func BenchmarkPull10000(b *testing.B) {
	j := openHome(b, b.TempDir())
	defer j.Close()
	fill(b, j, 10_000)
	for b.Loop() {
		if n := pullAll(b, j); n != 10_000 {
			b.Fatal(n)
		}
	}
	b.ReportMetric(10_000*float64(b.N)/b.Elapsed().Seconds(), "records/s")
}

func pullAll(b *testing.B, j *journal.Journal) (records int) {
	cursor, buf := "", []byte(nil)
	for more := true; more; {
		page, err := j.Pull(context.Background(), home, cursor, 500)
		if err != nil {
			b.Fatal(err)
		}
		for _, record := range page.Records {
			buf = record.AppendJSON(buf[:0])
		}
		records += len(page.Records)
		cursor, more = page.Cursor, page.More
	}
	return records
}

// BenchmarkOpen100000 opens a journal of 100,000 records.
func BenchmarkOpen100000(b *testing.B) {
	dir := b.TempDir()
	j := openHome(b, dir)
	fill(b, j, 100_000)
	j.Close()
	for b.Loop() {
		j := open(b, dir)
		if err := j.Ready(); err != nil {
			b.Fatal(err)
		}
		j.Close()
	}
}

// BenchmarkMemory100000 reports anonymous memory of a fresh process, at rest
// after opening 100,000 records and the most while they are pulled, with the
// memory limit that the server runs with.
func BenchmarkMemory100000(b *testing.B) {
	dir := b.TempDir()
	j := openHome(b, dir)
	fill(b, j, 100_000)
	j.Close()
	var rest, most float64
	for b.Loop() {
		out, err := childCommand(b, "memory", dir, "GOMEMLIMIT=48MiB").Output()
		if err != nil {
			b.Skipf("measuring memory: %v", err)
		}
		if _, err := fmt.Sscan(string(out), &rest, &most); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(rest, "MB-at-rest")
	b.ReportMetric(most, "MB-pulling")
}

// measureMemory is the fresh process: it opens the journal and pulls it all.
func measureMemory(dir string) error {
	ctx := context.Background()
	j, err := journal.Open(ctx, journal.Options{Dir: dir, Now: time.Now})
	if err != nil {
		return err
	}
	time.Sleep(time.Second) // Badger tidies up after opening
	rest, err := rssAnon()
	most := rest
	records, cursor := 0, ""
	for more := true; more && err == nil; {
		var page journal.Page
		if page, err = j.Pull(ctx, home, cursor, 500); err != nil {
			return err
		}
		records += len(page.Records)
		cursor, more = page.Cursor, page.More
		var now float64
		now, err = rssAnon()
		most = max(most, now)
	}
	if records != 100_000 {
		return fmt.Errorf("%d records were pulled", records)
	}
	fmt.Println(rest, most)
	return errors.Join(err, j.Close())
}

// rssAnon is the process's anonymous memory in MB, from /proc/self/status.
func rssAnon() (float64, error) {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0, err
	}
	for line := range strings.Lines(string(status)) {
		if rest, found := strings.CutPrefix(line, "RssAnon:"); found {
			kB, err := strconv.ParseFloat(strings.Fields(rest)[0], 64)
			return kB / 1024, err
		}
	}
	return 0, errors.New("no RssAnon in /proc/self/status")
}
