package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/dgraph-io/badger/v4"
)

func openTest(t *testing.T, dir string) *Store {
	t.Helper()
	s, err := Open(dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.db.Close() })
	return s
}

func get(t *testing.T, s *Store, key string) (string, error) {
	t.Helper()
	view := s.View()
	defer view.Close()
	value, err := view.Get([]byte(key))
	return string(value), err
}

func TestCommitIsAllOrNone(t *testing.T) {
	s := openTest(t, t.TempDir())
	if err := s.Commit([]Write{{[]byte("a"), []byte("1")}, {[]byte("b"), []byte("2")}}); err != nil {
		t.Fatal(err)
	}
	tooBig := []Write{{[]byte("a"), nil}}
	for i := range s.Limit().Count * 2 {
		tooBig = append(tooBig, Write{fmt.Append(nil, "k", i), []byte("x")})
	}
	if err := s.Commit(tooBig); !errors.Is(err, badger.ErrTxnTooBig) {
		t.Fatal(err)
	}
	if got, err := get(t, s, "a"); got != "1" || err != nil {
		t.Error(got, err)
	}
	if err := s.Commit([]Write{{[]byte("a"), nil}}); err != nil {
		t.Errorf("a commit that was too big must not stop the next: %v", err)
	}
	if _, err := get(t, s, "a"); !errors.Is(err, ErrMissing) {
		t.Error(err)
	}
}

func TestWhatWeighsWithinTheLimitIsTaken(t *testing.T) {
	s := openTest(t, "")
	for _, size := range []int{1, 100, 10_000, 50_000} {
		var writes []Write
		for i := 0; ; i++ {
			next := append(writes, Write{fmt.Appendf(nil, "%d-%d", size, i), make([]byte, size)})
			if !Weigh(next).Within(s.Limit()) {
				break
			}
			writes = next
		}
		if err := s.Commit(writes); err != nil {
			t.Errorf("%d values of %d bytes: %v", len(writes), size, err)
		}
	}
}

func TestCommitsTogether(t *testing.T) {
	s := openTest(t, "")
	var wait sync.WaitGroup
	for i := range 50 {
		wait.Go(func() {
			if err := s.Commit([]Write{{fmt.Append(nil, i), bytes.Repeat([]byte("x"), 40_000)}}); err != nil {
				t.Error(err)
			}
		})
	}
	wait.Wait()
	for i := range 50 {
		if got, err := get(t, s, fmt.Sprint(i)); len(got) != 40_000 || err != nil {
			t.Error(i, len(got), err)
		}
	}
}

// raw writes past the seal, as a disk that forgets or mixes up.
func raw(t *testing.T, s *Store, key, value []byte) {
	t.Helper()
	if err := s.db.Update(func(txn *badger.Txn) error { return txn.Set(key, value) }); err != nil {
		t.Fatal(err)
	}
}

func TestAnyOtherValueIsDamage(t *testing.T) {
	s := openTest(t, "")
	key, sealed := []byte("key"), seal([]byte("key"), []byte("value"))
	raw(t, s, key, sealed)
	if got, err := get(t, s, "key"); got != "value" || err != nil {
		t.Fatal(got, err)
	}
	bad := map[string][]byte{"empty": {}, "the seal alone": sealed[:sealBytes], "another key's": seal([]byte("kez"), []byte("value")), "longer": append(bytes.Clone(sealed), 0)}
	for i := range sealed {
		flipped := bytes.Clone(sealed)
		flipped[i] ^= 0x40
		bad[fmt.Sprint("byte ", i, " flipped")] = flipped
		bad[fmt.Sprint("cut at ", i)] = sealed[:i]
	}
	for name, value := range bad {
		raw(t, s, key, value)
		if got, err := get(t, s, "key"); !errors.Is(err, ErrDamaged) || got != "" {
			t.Errorf("%s: %q, %v", name, got, err)
		}
		view := s.View()
		for pair, err := range view.Scan([]byte("k"), nil) {
			if !errors.Is(err, ErrDamaged) || len(pair.Value) > 0 {
				t.Errorf("%s, scanned: %q, %v", name, pair.Value, err)
			}
		}
		view.Close()
	}
}

func TestNothingIsTakenAfterAFailedWrite(t *testing.T) {
	s := openTest(t, t.TempDir())
	if err := s.Err(); err != nil {
		t.Fatal(err)
	}
	s.db.Close()
	if err := s.Commit([]Write{{[]byte("a"), []byte("1")}}); err == nil {
		t.Fatal("a write to a closed database was acknowledged")
	}
	if s.Err() == nil {
		t.Error("a failed write is forgotten")
	}
	if err := s.Commit([]Write{{[]byte("a"), []byte("1")}}); err == nil {
		t.Error("a write after a failed one was acknowledged")
	}
}

// TestTheValueLogStaysEmpty holds what Open's options are for: a value log that
// is written would be synced without anybody hearing of a failure.
func TestTheValueLogStaysEmpty(t *testing.T) {
	dir := t.TempDir()
	s := openTest(t, dir)
	for i := range 60 {
		if err := s.Commit([]Write{{fmt.Append(nil, i), bytes.Repeat([]byte("x"), valueThreshold-sealBytes-1)}}); err != nil {
			t.Fatal(err)
		}
	}
	logs, err := filepath.Glob(filepath.Join(dir, "*.vlog"))
	if err != nil || len(logs) != 1 {
		t.Fatalf("value logs: %v, %v", logs, err)
	}
	text, err := os.ReadFile(logs[0])
	if err != nil {
		t.Fatal(err)
	}
	const header = 20 // bytes: key id and base IV (Badger v4, vlogHeaderSize)
	if written := bytes.TrimRight(text, "\x00"); len(written) > header {
		t.Errorf("the value log has %d bytes", len(written))
	}
}
