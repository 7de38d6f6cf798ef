package media

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// watchedDisk notes what is synced, by base name and size, and can refuse.
func watch(store *Store, refuse func(base string) bool) *[]string {
	var synced []string
	store.disk.sync = func(f *os.File) error {
		base := filepath.Base(f.Name())
		if refuse != nil && refuse(base) {
			return errors.New("the disk refuses")
		}
		size := ""
		if info, err := f.Stat(); err == nil && !info.IsDir() {
			size = fmt.Sprintf(" %d", info.Size())
		}
		synced = append(synced, base+size)
		return f.Sync()
	}
	return &synced
}

func TestAPieceIsSyncedBeforeItIsAcknowledged(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	name := NameOf(content)
	synced := watch(store, nil)
	folder, part := name.String()[:2], name.String()+".part"

	put := func(from, to int) {
		t.Helper()
		*synced = nil
		_, err := store.Append(t.Context(), home, name, Piece{int64(from), int64(len(content)), bytes.NewReader(content[from:to])})
		if err != nil {
			t.Fatal(err)
		}
	}
	put(0, 1000)
	if want := []string{part + " 1000", folder}; !slices.Equal((*synced)[len(*synced)-2:], want) {
		t.Errorf("the first piece synced %v, want at the end %v", *synced, want)
	}
	put(1000, 1500)
	if want := []string{part + " 1500"}; !slices.Equal(*synced, want) {
		t.Errorf("the second piece synced %v, want %v", *synced, want)
	}
	put(1500, len(content))
	if want := []string{fmt.Sprintf("%s %d", part, len(content)), folder}; !slices.Equal(*synced, want) {
		t.Errorf("the last piece synced %v, want %v: the bytes, then the new name", *synced, want)
	}
}

func TestAPieceThatTheDiskRefusesDoesNotCount(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	name, length := NameOf(content), int64(len(content))
	if _, err := store.Append(t.Context(), home, name, Piece{0, length, bytes.NewReader(content[:1000])}); err != nil {
		t.Fatal(err)
	}
	refuses := true
	watch(store, func(base string) bool { return refuses && strings.HasSuffix(base, ".part") })
	progress, err := store.Append(t.Context(), home, name, Piece{1000, length, bytes.NewReader(content[1000:])})
	wantCode(t, err, Storage)
	if progress.Complete || progress.Offset != 1000 {
		t.Errorf("told %+v", progress)
	}
	refuses = false
	if progress, err := store.Offset(t.Context(), home, name); err != nil || progress.Offset != 1000 {
		t.Errorf("afterwards %+v, %v", progress, err)
	}
	if progress, err := store.Append(t.Context(), home, name, Piece{1000, length, bytes.NewReader(content[1000:])}); err != nil || !progress.Complete {
		t.Errorf("when it works again %+v, %v", progress, err)
	}
}

// The kernel's own account: what a process asks of the system between the last
// byte of a piece and the line that acknowledges it.
func TestTheKernelSeesTheSync(t *testing.T) {
	if _, err := exec.LookPath("strace"); err != nil {
		t.Skip("strace is not installed")
	}
	trace := filepath.Join(t.TempDir(), "trace")
	file, err := filepath.Abs(filepath.Join(samples, "gps_nw.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	child := exec.Command("strace", "-f", "-y", "-s", "32", "-o", trace, "-e", "trace=pwrite64,fsync,renameat,rename,write",
		os.Args[0], "-test.run=^TestChildTakesOneFile$")
	child.Env = append(os.Environ(), childFile+"="+file)
	if out, err := child.CombinedOutput(); err != nil {
		t.Skipf("strace may not watch here: %v\n%s", err, out)
	}
	content, err := os.ReadFile(trace)
	if err != nil {
		t.Fatal(err)
	}
	const piece, sync, rename, folder, acknowledged = `pwrite64\([^\n]*\.part>`, `fsync\([^\n]*\.part>`, `rename(at)?\([^\n]*\.part`, `fsync\([^\n]*/[0-9a-f]{2}>`, `write\(1[^\n]*growth=`
	order := regexp.MustCompile(`(?s)` + strings.Join([]string{piece, sync, folder, rename, folder, acknowledged}, ".*"))
	if !order.Match(content) {
		t.Errorf("want the piece, its sync, its name's sync, the rename, its sync and then the acknowledgement; got\n%s", content)
	}
}

func TestASmallPictureIsWholeOrNotThere(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	name := NameOf(content)
	mustSend(t, store, content)
	refuses := true
	watch(store, func(base string) bool { return refuses && strings.HasSuffix(base, ".jpg.new") })
	_, err := store.Preview(t.Context(), home, name, Small)
	wantCode(t, err, Storage)
	entry, err := store.index.Entry(t.Context(), home, name)
	if err != nil || len(entry.Previews) != 0 {
		t.Errorf("the index speaks of %v, %v", entry.Previews, err)
	}
	refuses = false
	if _, err := store.Preview(t.Context(), home, name, Small); err != nil {
		t.Error(err)
	}
}

func TestDamageIsNamedAndNeverServed(t *testing.T) {
	index, dir := newMemoryIndex(), t.TempDir()
	content := sample(t, "gps_nw.jpg")
	name := NameOf(content)
	mustSend(t, openStore(t, dir, index), content)
	file := filepath.Join(dir, home, name.String()[:2], name.String())
	flip(t, file, 900)

	store := openStore(t, dir, index) // a process that has proven nothing yet
	_, err := store.Original(t.Context(), home, name)
	if problem := wantCode(t, err, Damaged); !strings.Contains(err.Error(), file) || strings.Contains(problem.Text, store.dir) {
		t.Errorf("the file is not named: %s", problem.Text)
	}
	if err := store.Verify(t.Context(), home, name); !errors.Is(err, Damaged) {
		t.Errorf("verifying says %v", err)
	}
	mustSend(t, store, content) // a phone that still has it mends it
	checkReadsBack(t, store, content)
	if err := store.Verify(t.Context(), home, name); err != nil {
		t.Errorf("after mending: %v", err)
	}
}

func flip(t *testing.T, file string, at int64) {
	t.Helper()
	info, err := os.Stat(file)
	if err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	content[at] ^= 0x10
	if err := os.WriteFile(file, content, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(file, info.ModTime(), info.ModTime()); err != nil { // rot leaves no date
		t.Fatal(err)
	}
}

// Rot after the file was proven: a whole reading sees it before its last bytes,
// ranges do not.
func TestDamageWhileTheServerRuns(t *testing.T) {
	store := newStore(t)
	content := sample(t, "gps_nw.jpg")
	name := NameOf(content)
	mustSend(t, store, content)
	flip(t, filepath.Join(store.dir, home, name.String()[:2], name.String()), 900)
	original, err := store.Original(t.Context(), home, name)
	if err != nil {
		t.Fatal(err)
	}
	defer original.Close()
	got, err := io.ReadAll(original)
	wantCode(t, err, Damaged)
	if len(got) >= len(content) {
		t.Error("all of a damaged file was handed out")
	}
	if err := store.Verify(t.Context(), home, name); !errors.Is(err, Damaged) {
		t.Errorf("verifying says %v", err)
	}
}

// A file that has changed since it was proven is proven again before a byte of it
// is given out.
func TestAChangedFileIsProvenAgain(t *testing.T) {
	content := sample(t, "gps_nw.jpg")
	name := NameOf(content)
	for what, change := range map[string]func(string) error{
		"another date": func(file string) error { return os.WriteFile(file, bytes.Repeat([]byte("x"), len(content)), 0o600) },
		"cut short":    func(file string) error { return os.Truncate(file, 100) },
		"gone":         os.Remove,
	} {
		t.Run(what, func(t *testing.T) {
			store := newStore(t)
			mustSend(t, store, content)
			path, err := store.path(home, name)
			if err != nil {
				t.Fatal(err)
			}
			old := time.Now().Add(-time.Hour)
			if err := errors.Join(os.Chtimes(path, old, old), store.Verify(t.Context(), home, name), change(path)); err != nil {
				t.Fatal(err)
			}
			_, err = store.Original(t.Context(), home, name)
			if what == "gone" {
				wantCode(t, err, NotHere)
			} else {
				wantCode(t, err, Damaged)
			}
			mustSend(t, store, content)
			checkReadsBack(t, store, content)
		})
	}
}

func TestRanges(t *testing.T) {
	store := newStore(t)
	content := noise(t, 100, 100)
	mustSend(t, store, content)
	original, err := store.Original(t.Context(), home, NameOf(content))
	if err != nil {
		t.Fatal(err)
	}
	defer original.Close()
	length, err := original.Seek(0, io.SeekEnd)
	if err != nil || length != int64(len(content)) {
		t.Fatalf("length %d, %v", length, err)
	}
	for _, at := range []int64{500, 0, length - 1} {
		if _, err := original.Seek(at, io.SeekStart); err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(original)
		if err != nil || !bytes.Equal(got, content[at:]) {
			t.Errorf("from %d: %d bytes, %v", at, len(got), err)
		}
	}
}
