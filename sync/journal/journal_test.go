package journal_test

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"

	"haulm/garden"
	"haulm/sync/change"
	"haulm/sync/journal"
)

const home = "0192aaaa-0000-7000-8000-000000000001"

func open(t testing.TB, dir string) *journal.Journal {
	t.Helper()
	j, err := journal.Open(context.Background(), journal.Options{Dir: dir, Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
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

func TestPushPull(t *testing.T) {
	j := open(t, t.TempDir())
	ctx := context.Background()
	if err := j.CreateGarden(ctx, home); err != nil {
		t.Fatal(err)
	}
	changes := observations(1200)
	answer, err := j.Push(ctx, home, journal.Writer{Member: "anna", Device: "d1"}, changes)
	if err != nil || len(answer.Refused) > 0 || len(answer.Applied) != len(changes) {
		t.Fatal(err, len(answer.Applied), answer.Refused)
	}
	page, err := j.Pull(ctx, home, "", 5000)
	if err != nil || len(page.Records) != 1200 || page.More {
		t.Fatal(err, len(page.Records), page.More)
	}
	text, _ := json.Marshal(page.Records[0])
	t.Log(string(text), page.Cursor, page.Digest)
	report, err := j.Verify(ctx, nil)
	t.Log(report, err)
}
