package main

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"haulm/server/unsent"
)

// A savedFile is written as a phone would, or as no phone would.
type savedFile struct {
	t   testing.TB
	out bytes.Buffer
	zip *zip.Writer
}

func saved(t testing.TB, manifest map[string]any) *savedFile {
	f := &savedFile{t: t}
	f.zip = zip.NewWriter(&f.out)
	f.add("manifest.json", []byte(mustJSON(manifest)))
	return f
}

func manifest(c *testClient, photos ...[]byte) map[string]any {
	listed := []map[string]any{}
	for _, photo := range photos {
		listed = append(listed, map[string]any{"sha256": nameOf(photo), "record": "observation/x", "type": "image/jpeg", "bytes": len(photo)})
	}
	return map[string]any{"format": "haulm-unsent", "version": 1, "garden": c.garden, "member": c.member, "device": "Bo's phone",
		"made": "2026-06-02T09:15:00Z", "part": 1, "parts": 1, "photos": listed}
}

func (f *savedFile) add(name string, content []byte) *savedFile {
	f.t.Helper()
	into, err := f.zip.Create(name)
	if err != nil {
		f.t.Fatal(err)
	}
	if _, err := into.Write(content); err != nil {
		f.t.Fatal(err)
	}
	return f
}

func (f *savedFile) changes(changes ...testChange) *savedFile {
	f.t.Helper()
	var lines []string
	for _, one := range changes {
		lines = append(lines, mustJSON(one))
	}
	return f.add("changes.jsonl", []byte(strings.Join(lines, "\n")+"\n"))
}

func (f *savedFile) bytes() []byte {
	f.t.Helper()
	if err := f.zip.Close(); err != nil {
		f.t.Fatal(err)
	}
	return f.out.Bytes()
}

func (f *savedFile) path() string {
	f.t.Helper()
	path := filepath.Join(f.t.TempDir(), "saved.zip")
	if err := os.WriteFile(path, f.bytes(), 0o600); err != nil {
		f.t.Fatal(err)
	}
	return path
}

func (c *testClient) takes(file []byte, query string) *answer {
	c.t.Helper()
	return c.send(http.MethodPost, c.of("/import"+query), file, "Content-Type", "application/zip")
}

func (a *answer) summary() unsent.Summary {
	a.t.Helper()
	var got unsent.Summary
	a.mustBe(http.StatusOK).decode(&got)
	return got
}

func wantCounts(t testing.TB, got unsent.Summary, changes, originals, previews unsent.Count) {
	t.Helper()
	if got.Changes != changes || got.Originals != originals || got.Previews != previews {
		t.Errorf("changes %+v, originals %+v, previews %+v; problems %+v", got.Changes, got.Originals, got.Previews, got.Problems)
	}
}

func codes(s unsent.Summary) string {
	var found []string
	for _, problem := range s.Problems {
		found = append(found, problem.Code)
	}
	return strings.Join(found, " ")
}

// savingHousehold is a keeper and a helper whose phone saved something.
func savingHousehold(t *testing.T) (s *testServer, ann, bo *testClient) {
	s = startServer(t, "")
	ann = joins(t, s.url, s.join, "Ann")
	return s, ann, ann.invites("helper", "Bo")
}

func seenAt(note string) testChange {
	return newChange(newRef("observation"), map[string]any{"planting": "p1", "seen": "2026-06-02T09:15:00+01:00", "note": note})
}

func TestSavedFileIsTakenOnceHoweverOftenItComes(t *testing.T) {
	_, ann, bo := savingHousehold(t)
	photo, small := picture(t, 900, 600, 1), picture(t, 320, 213, 2)
	one, two := seenAt("one"), seenAt("two")
	two.Record = one.Record
	file := saved(t, manifest(bo, photo)).changes(one, two).
		add("media/"+nameOf(photo)+"/320.jpg", small).add("media/"+nameOf(photo)+"/original.jpg", photo).bytes()

	wantCounts(t, ann.takes(file, "").summary(), unsent.Count{New: 2}, unsent.Count{New: 1}, unsent.Count{New: 1})
	after := ann.pull("")
	wantCounts(t, ann.takes(file, "").summary(), unsent.Count{Known: 2}, unsent.Count{Known: 1}, unsent.Count{Known: 1})

	answer := bo.sync("", one, two)
	if len(answer.Applied) != 2 || len(answer.Refused) != 0 || answer.Digest != after.Digest || answer.Cursor != after.Cursor {
		t.Errorf("the phone sends the same later and the garden moves: %+v, before %+v", answer, after)
	}
	bo.piece(photo, 0, len(photo)).mustBe(http.StatusNoContent).mustTell(len(photo), "?1")
	if got := ann.send(http.MethodGet, ann.medium(photo), nil).mustBe(http.StatusOK); !bytes.Equal(got.body, photo) {
		t.Error("other bytes came back")
	}
}

func TestSavedFileFollowsWhatThePhoneHadSent(t *testing.T) {
	_, ann, bo := savingHousehold(t)
	one, two := seenAt("one"), seenAt("two")
	two.Record = one.Record
	photo := picture(t, 900, 600, 3)
	bo.sync("", one)
	bo.piece(photo, 0, len(photo)/2).mustBe(http.StatusNoContent)
	file := saved(t, manifest(bo, photo)).changes(one, two).add("media/"+nameOf(photo)+"/original.jpg", photo).bytes()
	wantCounts(t, ann.takes(file, "").summary(), unsent.Count{New: 1, Known: 1}, unsent.Count{New: 1}, unsent.Count{})
}

func TestSavedFileIsTakenInItsWritersName(t *testing.T) {
	_, ann, bo := savingHousehold(t)
	one, two := seenAt("one"), seenAt("two")
	two.Record = one.Record
	ann.takes(saved(t, manifest(bo)).changes(one).bytes(), "").summary()
	bo.sync("", two) // the same phone, which never saw the answer: no text is written apart from another
	for _, record := range ann.pullAll() {
		if record.Record != one.Record {
			continue
		}
		if by := string(record.Fields["by"]); by != mustJSON(bo.member) || string(record.Fields["note"]) != `"two"` {
			t.Errorf("by %s, note %s", by, record.Fields["note"])
		}
		if record.Also != nil {
			t.Errorf("one phone's texts were held to be two people's: %s", record.Also)
		}
	}
}

func TestSavedFileGivesNobodyMoreThanTheirRole(t *testing.T) {
	_, ann, bo := savingHousehold(t)
	bed := newChange("bed/b1", map[string]any{"name": "Mine"})
	helpers := saved(t, manifest(bo)).changes(bed, seenAt("fine")).bytes()
	for who, c := range map[string]*testClient{"the helper": bo, "a keeper, for the helper": ann} {
		got := c.takes(helpers, "").summary()
		if codes(got) != "role_helper" || got.Changes.Aside != 1 || got.Changes.New+got.Changes.Known != 1 {
			t.Errorf("%s: %+v", who, got)
		}
	}
	forged := saved(t, manifest(ann)).changes(newChange("bed/b2", map[string]any{"name": "Mine"})).bytes()
	if got := bo.takes(forged, "").summary(); codes(got) != "role_helper" {
		t.Errorf("a helper writes as a keeper: %+v", got)
	}
	ann.invites("viewer", "Cleo").takes(helpers, "").mustRefuse(http.StatusForbidden, "role_viewer")
}

func TestSavedRefusalsAreJudgedAgain(t *testing.T) {
	_, ann, bo := savingHousehold(t)
	wrong := newChange(newRef("observation"), map[string]any{"planting": "p1", "stage": 140})
	line := func(c testChange) string {
		return mustJSON(map[string]any{"change": c, "code": "invalid", "why": "it was"}) + "\n"
	}
	file := saved(t, manifest(bo)).add("refused.jsonl", []byte(line(wrong)+line(seenAt("now it may")))).bytes()
	got := ann.takes(file, "").summary()
	wantCounts(t, got, unsent.Count{New: 1, Aside: 1}, unsent.Count{}, unsent.Count{})
	if !strings.Contains(got.Problems[0].Entry, "line 1") || !strings.Contains(got.Problems[0].Why, "140") {
		t.Errorf("%+v", got.Problems)
	}
}

func TestBadEntriesAreLeftAsideAndTheRestIsTaken(t *testing.T) {
	_, ann, bo := savingHousehold(t)
	photo := picture(t, 400, 300, 4)
	sha := "media/" + nameOf(photo)
	f := saved(t, manifest(bo, photo))
	f.add("changes.jsonl", []byte(mustJSON(seenAt("one"))+"\n{broken\n"+strings.Repeat("x", 1<<20)+"\n"+
		mustJSON(newChange("garden/elsewhere", map[string]any{"name": "x"}))+"\n"+mustJSON(seenAt("two"))+"\n"))
	f.add("../../evil.sh", []byte("x")).add("/etc/passwd", []byte("x")).add(sha+"/../../x", []byte("x")).add("media/no-sha/320.jpg", []byte("x"))
	f.add("changes.jsonl", []byte(mustJSON(seenAt("a second list"))))
	f.add("media/"+strings.Repeat("ab", 32)+"/original.jpg", photo) // not its name
	f.add(sha+"/1600.jpg", []byte("no picture"))
	f.add(sha+"/original.jpg", photo)
	got := ann.takes(f.bytes(), "").summary()
	wantCounts(t, got, unsent.Count{New: 2, Aside: 3}, unsent.Count{New: 1, Aside: 1}, unsent.Count{Aside: 1})
	if got.Strange != 5 {
		t.Errorf("%d strange entries: %+v", got.Strange, got.Problems)
	}
	for _, code := range []string{"invalid_change", "other_garden", "wrong_content", "strange_entry"} {
		if !strings.Contains(codes(got), code) {
			t.Errorf("%s is not told: %s", code, codes(got))
		}
	}
}

func TestFilesThatAreNoSavedFilesOfThisGarden(t *testing.T) {
	s, ann, bo := savingHousehold(t)
	with := func(field string, value any) []byte {
		m := manifest(bo)
		m[field] = value
		return saved(t, m).changes(seenAt("x")).bytes()
	}
	whole := saved(t, manifest(bo)).changes(seenAt("x")).bytes()
	empty := &savedFile{t: t}
	empty.zip = zip.NewWriter(&empty.out)
	cases := []struct {
		name string
		file []byte
		code string
	}{
		{"nothing", nil, "not_a_saved_file"},
		{"no zip", []byte("<html>sign in</html>"), "not_a_saved_file"},
		{"cut short", whole[:len(whole)-40], "not_a_saved_file"},
		{"a zip of something else", empty.add("readme.txt", []byte("x")).bytes(), "not_a_saved_file"},
		{"another format", with("format", "other"), "not_a_saved_file"},
		{"a newer version", with("version", 2), "newer_file"},
		{"another garden", with("garden", "elsewhere"), "other_garden"},
		{"a manifest of another shape", with("photos", "none"), "bad_manifest"},
		{"a list of millions", longList(t), "not_a_saved_file"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { ann.takes(c.file, "").mustRefuse(http.StatusUnprocessableEntity, c.code) })
	}
	huge := fmt.Sprintf("POST %s HTTP/1.1\r\nHost: localhost\r\nAuthorization: %s\r\nContent-Length: %d\r\n\r\n",
		ann.of("/import"), ann.header.Get("Authorization"), unsent.MaxFileBytes+1)
	if said := s.raw(t, huge); !strings.Contains(said, " 413 ") {
		t.Errorf("too large a file: %.200s", said)
	}
	if left, err := filepath.Glob(filepath.Join(s.dir, "arriving", "*")); err != nil || len(left) > 0 {
		t.Errorf("left lying: %v, %v", left, err)
	}
}

// longList is a zip whose list of entries alone takes more than it may.
func longList(t *testing.T) []byte {
	f := saved(t, map[string]any{})
	for i := range 70_000 {
		f.add(fmt.Sprintf("%064d", i), nil)
	}
	return f.bytes()
}

// Bombs: entries that are small in the file and large out of it, and one that
// is not as long as the list says.
func TestBombsTakeNoRoom(t *testing.T) {
	s, ann, bo := savingHousehold(t)
	photo := picture(t, 400, 300, 5)
	name := nameOf(photo)
	f := saved(t, manifest(bo, photo)).add("changes.jsonl", bytes.Repeat([]byte(" "), 80<<20))
	f.add("media/"+name+"/320.jpg", make([]byte, 30<<20)).add("media/"+name+"/original.jpg", make([]byte, 70<<20))
	got := ann.takes(f.bytes(), "").summary()
	wantCounts(t, got, unsent.Count{Aside: 1}, unsent.Count{Aside: 1}, unsent.Count{Aside: 1})

	lying := saved(t, manifest(bo, photo)).add("media/"+name+"/original.jpg", photo).bytes()
	at := bytes.LastIndex(lying, []byte("PK\x01\x02"))   // the last entry of the list
	binary.LittleEndian.PutUint32(lying[at+24:], 60<<20) // its size unpacked
	if got := ann.takes(lying, "").summary(); got.Originals.Aside != 1 {
		t.Errorf("%+v", got)
	}
	if room := roomOf(t, filepath.Join(s.dir, "media")); room > 1<<20 {
		t.Errorf("%d bytes were kept", room)
	}
	ann.piece(photo, 0, len(photo)) // nothing of it stands in the way of the real one
	good := saved(t, manifest(bo, photo)).add("media/"+name+"/original.jpg", photo).bytes()
	if got := ann.takes(good, "").summary(); got.Originals.New+got.Originals.Known != 1 {
		t.Errorf("%+v", got)
	}
}

func roomOf(t *testing.T, dir string) (room int64) {
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		info, err := entry.Info()
		room += info.Size()
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return room
}

func TestCheckOfASavedFileWritesNothing(t *testing.T) {
	_, ann, bo := savingHousehold(t)
	photo := picture(t, 400, 300, 6)
	wrong := newChange(newRef("observation"), map[string]any{"stage": 140})
	file := saved(t, manifest(bo, photo)).changes(seenAt("one"), wrong).add("media/"+nameOf(photo)+"/original.jpg", photo).bytes()
	before := ann.pull("")
	got := ann.takes(file, "?check=true").summary()
	wantCounts(t, got, unsent.Count{New: 1, Aside: 1}, unsent.Count{New: 1}, unsent.Count{})
	if after := ann.pull(""); !got.Checked || after.Cursor != before.Cursor {
		t.Errorf("checked %v; the garden moved from %s to %s", got.Checked, before.Cursor, after.Cursor)
	}
	ann.send(http.MethodGet, ann.medium(photo), nil).mustRefuse(http.StatusNotFound, "not_here")
}

func TestImportByCommand(t *testing.T) {
	s, ann, bo := savingHousehold(t)
	photo := picture(t, 400, 300, 7)
	good := saved(t, manifest(bo, photo)).changes(seenAt("one")).add("media/"+nameOf(photo)+"/original.jpg", photo).path()
	half := saved(t, manifest(bo)).changes(seenAt("two"), newChange("bed/b1", map[string]any{"name": "Mine"})).path()
	run := func(code int, says []string, args ...string) {
		t.Helper()
		got, out := command(t, append([]string{"import", "--data", s.dir}, args...)...)
		missing := func(part string) bool { return !strings.Contains(out, part) }
		if got != code || slices.ContainsFunc(says, missing) {
			t.Errorf("exit %d, want %d and %q: %s", got, code, says, out)
		}
	}
	run(0, []string{"1 to take", "nothing was written"}, "--check", good)
	run(0, []string{"from Bo's phone, file 1 of 1", "changes:   1 taken, 0 here before", "originals: 1 taken"}, good)
	run(1, []string{"1 taken", "a helper may log", "left aside"}, half)
	run(1, []string{"not a file saved by Haulm"}, filepath.Join(s.dir, "journal", "MANIFEST"))
	run(2, nil, filepath.Join(s.dir, "nowhere.zip"))
	if records := ann.pullAll(); len(records) != 3 { // the garden and two notes
		t.Errorf("%d records", len(records))
	}
	s.stop()
	run(0, []string{"0 taken, 1 here before"}, good)
	if code, out := command(t, "import", "--data", t.TempDir(), good); code != 1 || !strings.Contains(out, "holds no gardens") {
		t.Errorf("exit %d: %s", code, out)
	}
}
