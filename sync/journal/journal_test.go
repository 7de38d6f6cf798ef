package journal_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
)

// What every journal does is tested in sync/synctest; here is what is the local
// one's own: the disk.

const home = "0192aaaa-0000-7000-8000-000000000001"

func open(t testing.TB, dir string) *journal.Journal {
	t.Helper()
	j, err := journal.Open(context.Background(), journal.Options{Dir: dir, Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// openHome opens a journal with one garden.
func openHome(t testing.TB, dir string) *journal.Journal {
	t.Helper()
	j := open(t, dir)
	if err := j.CreateGarden(context.Background(), home); err != nil {
		t.Fatal(err)
	}
	return j
}

// observations makes n new observations as a phone writes them.
func observations(n int) []change.Change {
	clock := change.Clock{Device: "k7f3q2"}
	made := make([]change.Change, n)
	for i := range made {
		made[i] = change.Change{
			ID:     uuid.Must(uuid.NewV7()).String(),
			Record: garden.Ref{Kind: garden.ObservationRecord, ID: uuid.Must(uuid.NewV7()).String()},
			At:     clock.Next(time.Now()),
			Set: garden.Fields{
				"planting": json.RawMessage(`"0192bbbb-0000-7000-8000-000000000001"`),
				"seen":     json.RawMessage(`"2026-06-02T10:15:00+01:00"`),
				"stage":    json.RawMessage(`61`),
				"heightCm": json.RawMessage(fmt.Sprint(40 + i%100)),
				"vigour":   json.RawMessage(`4`),
				"note":     json.RawMessage(`"First two trusses open on the south side, buds behind."`),
			},
		}
	}
	return made
}

func TestEverythingIsThereAfterANewStart(t *testing.T) {
	dir, ctx := t.TempDir(), t.Context()
	j := openHome(t, dir)
	changes := observations(1200)
	first, err := j.Push(ctx, home, journal.Writer{Member: "anna", Device: "kitchen"}, changes)
	if err != nil {
		t.Fatal(err)
	}
	version, err := j.WritePrivate(ctx, journal.Global, journal.PrivateWrite{Key: "device/x", Value: json.RawMessage(`{"name":"kitchen"}`)})
	if err != nil {
		t.Fatal(err)
	}
	before, err := j.Pull(ctx, home, "", journal.MaxLimit)
	if err != nil || len(before.Records) != len(changes) {
		t.Fatal(len(before.Records), err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = open(t, dir)
	defer j.Close()
	after, err := j.Pull(ctx, home, "", journal.MaxLimit)
	if err != nil || asJSON(t, after) != asJSON(t, before) {
		t.Errorf("the feed is another after a new start (%v)", err)
	}
	if private, err := j.GetPrivate(ctx, journal.Global, "device/x"); err != nil || private.Version != version {
		t.Error(private, err)
	}
	again, err := j.Push(ctx, home, journal.Writer{Member: "anna", Device: "kitchen"}, changes)
	if err != nil || !slices.Equal(again.Applied, first.Applied) {
		t.Errorf("the replay after a new start got another answer (%v)", err)
	}
}

func TestOneProcessAtATime(t *testing.T) {
	dir := t.TempDir()
	j := open(t, dir)
	defer j.Close()
	_, err := journal.Open(t.Context(), journal.Options{Dir: dir, Now: time.Now})
	if err == nil || !strings.Contains(err.Error(), dir) {
		t.Errorf("a second journal on the folder: %v", err)
	}
}

func asJSON(t *testing.T, value any) string {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

const spoilt = "the one that the disk spoils"

// damagedHome makes a garden of three observations of which the first has the
// text spoilt, and changes a letter of it in every file.
func damagedHome(t *testing.T) (*journal.Journal, []change.Change) {
	dir := t.TempDir()
	j := openHome(t, dir)
	changes := observations(3)
	changes[0].Set["note"] = json.RawMessage(`"` + spoilt + `"`)
	for _, c := range changes { // one entry each, so that one is damaged
		if _, err := j.Push(t.Context(), home, journal.Writer{Member: "anna", Device: "kitchen"}, []change.Change{c}); err != nil {
			t.Fatal(err)
		}
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	spoil(t, dir)
	j = open(t, dir)
	t.Cleanup(func() { j.Close() })
	return j, changes
}

func spoil(t *testing.T, dir string) {
	files, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil {
		t.Fatal(err)
	}
	hits := 0
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if n := bytes.Count(text, []byte(spoilt)); n > 0 {
			hits += n
			text = bytes.ReplaceAll(text, []byte(spoilt), []byte(strings.ToUpper(spoilt)))
			if err := os.WriteFile(name, text, 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	if hits != 2 {
		t.Fatalf("the text was on disk %d times; a record and a log entry hold it", hits)
	}
}

func TestDamageIsNamedAndNeverServed(t *testing.T) {
	j, changes := damagedHome(t)
	ref := changes[0].Record
	named := func(what string, err error) {
		var damage *journal.DamageError
		if !errors.As(err, &damage) || damage.Garden != home || damage.What != "record" || damage.Name != ref.String() {
			t.Errorf("%s: %v", what, err)
		}
	}
	page, err := j.Pull(t.Context(), home, "", 0)
	named("pull", err)
	if len(page.Records) != 0 {
		t.Errorf("a damaged garden was served: %+v", page)
	}
	_, err = j.Get(t.Context(), home, ref)
	named("get", err)
	_, err = j.PullBucket(t.Context(), home, change.BucketOf(ref))
	named("bucket", err)
	sound := 0
	for _, err := range j.Each(t.Context(), home) {
		if err == nil {
			sound++
		} else {
			named("each", err)
		}
	}
	if sound != 2 {
		t.Errorf("%d sound records were given", sound)
	}
	if _, err := j.Get(t.Context(), home, changes[1].Record); err != nil {
		t.Errorf("a sound record: %v", err)
	}
}

func TestDamageRefusesTheChangeAndNotThePush(t *testing.T) {
	j, changes := damagedHome(t)
	edit := observations(2)
	edit[0].Record, edit[1].Record = changes[0].Record, changes[1].Record
	answer, err := j.Push(t.Context(), home, journal.Writer{Member: "anna", Device: "kitchen"}, edit)
	if err != nil || len(answer.Applied) != 1 || len(answer.Refused) != 1 || answer.Refused[0].ID != edit[0].ID || answer.Refused[0].Code != "damaged" {
		t.Errorf("%+v, %v", answer, err)
	}
}

func TestVerifyNamesAllDamage(t *testing.T) {
	j, changes := damagedHome(t)
	report, err := j.Verify(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, damage := range report.Damage {
		found = append(found, damage.What+" "+damage.Name)
	}
	if want := []string{"record " + changes[0].Record.String(), "log entry 2"}; !slices.Equal(found, want) {
		t.Errorf("found %q, want %q", found, want)
	}
}
