package entry

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"

	"haulm/garden"
	"haulm/sync/change"
)

func whole() Entry {
	gone := true
	c := change.Change{ID: "0192dddd-0000-7000-8000-000000000001", Record: garden.Ref{Kind: garden.PlantingRecord, ID: "p1"}, Base: 3,
		At: "2026-06-02T09:00:00.000Z-0000-aaaaaa", Set: garden.Fields{"label": json.RawMessage(`"<né> & 1.50"`)}, Gone: &gone}
	return Entry{
		Version: Version, Head: Head{"one", 5}, Now: 1780390800000, Writer: change.Writer{Member: `an"na`, Device: "kitchen"},
		Changes: []Change{{Change: c, Hash: c.ContentHash()}},
	}
}

func TestAnEntrySurvivesItsJSON(t *testing.T) {
	private := Entry{Version: Version, Head: Head{"one", 7}, Now: 1, Private: []Private{{"a<", json.RawMessage(`{"b":1}`)}, {Key: "removed"}}}
	for _, e := range []Entry{whole(), private, Start(Head{"one", 7}, "two", 9), Start(Head{}, "one", 1)} {
		text := e.AppendJSON(nil)
		back, err := Parse(text)
		if err != nil {
			t.Fatalf("%v in %s", err, text)
		}
		if again := back.AppendJSON(nil); !bytes.Equal(text, again) {
			t.Errorf("%s became %s", text, again)
		}
		if bytes.ContainsRune(text, '\n') {
			t.Errorf("%s is not one line", text)
		}
	}
}

func TestParseRefusesWhatItCannotFold(t *testing.T) {
	e := whole()
	sound := string(e.AppendJSON(nil))
	for name, change := range map[string][2]string{
		"a later version":      {`"v":1`, `"v":2`},
		"a broken head":        {`"one.5"`, `"one.x"`},
		"a broken hash":        {`"hash":"`, `"hash":"0`},
		"an unknown kind":      {`"planting/p1"`, `"gnome/p1"`},
		"a broken stamp":       {`09:00:00.000Z`, `09:00:61.000Z`},
		"a base of text":       {`"base":3`, `"base":"3"`},
		"broken JSON":          {`}`, ``},
		"another field's type": {`"now":`, `"now":"x`},
	} {
		text := bytes.Replace([]byte(sound), []byte(change[0]), []byte(change[1]), 1)
		if _, err := Parse(text); err == nil {
			t.Errorf("%s was read: %s", name, text)
		}
	}
}

func TestCursorsSurviveTheirText(t *testing.T) {
	for _, head := range []Head{{}, {"a1", 0}, {"re7sr876f2mjjegr", 1<<64 - 1}} {
		if back, err := ParseCursor(head.String()); err != nil || back != head {
			t.Errorf("%q became %v (%v)", head.String(), back, err)
		}
	}
	var broken *CursorError
	if _, err := ParseCursor("a.18446744073709551616"); !errors.As(err, &broken) {
		t.Error(err)
	}
}
