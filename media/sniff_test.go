package media

import (
	"encoding/hex"
	"encoding/json"
	"os"
	"testing"
)

// TestSniffAgreesWithThePhone holds sniff to the list that the phone's own test
// reads too: a file that the phone keeps must be one that the server takes.
func TestSniffAgreesWithThePhone(t *testing.T) {
	content, err := os.ReadFile("../testdata/media/beginnings.json")
	if err != nil {
		t.Fatal(err)
	}
	var list struct {
		Samples []struct {
			What string `json:"what"`
			Hex  string `json:"hex"`
			Type *Type  `json:"type"`
		} `json:"samples"`
	}
	if err := json.Unmarshal(content, &list); err != nil {
		t.Fatal(err)
	}
	if len(list.Samples) < 20 {
		t.Fatalf("%d samples, fewer than the kinds that there are", len(list.Samples))
	}
	for _, sample := range list.Samples {
		start, err := hex.DecodeString(sample.Hex)
		if err != nil {
			t.Fatalf("%s: %v", sample.What, err)
		}
		got, err := sniff(Name{}, start)
		switch {
		case sample.Type == nil && err == nil:
			t.Errorf("%s was taken as %s", sample.What, got)
		case sample.Type != nil && (err != nil || got != *sample.Type):
			t.Errorf("%s: %q, %v; want %s", sample.What, got, err, *sample.Type)
		}
	}
}
