package tie

import (
	"bytes"
	"encoding/json"
	"testing"
)

// The shape that the verb reads and writes, with every field; a phone relies on
// the names and on null where nothing is known. The numbers are reckoned by hand:
// 9e-6° are 1.0006 m there, so the subject is 0.5 m from p; the variance is 8.66
// m², the ground about 1046 m²; the shares before are 0.32 for p in flower, 0.16
// for r and 0.1 for none, and q, just logged, is too far away.
func TestTheVerbsShape(t *testing.T) {
	const (
		asked = `{"photo": {"lat": 47.600009, "lon": -122.3, "accuracyM": 4, "bearingDeg": 0,
			"seen": "2026-06-02T09:15:00-07:00", "lastPlanting": "q", "lastSeen": "2026-06-02T09:13:30-07:00"},
			"garden": {"planOrigin": {"lat": 47.6, "lon": -122.3}, "planBearingDeg": 0},
			"plantings": [{"id": "p", "at": [0, 2], "area": null, "inFlower": true},
				{"id": "q", "at": null, "area": [[24, 0], [26, 0], [26, 3]]}, {"id": "r", "at": null}]}`
		answered = `{"tied":"p","sure":0.96,"lacking":"","candidates":[` +
			`{"planting":"p","probability":0.96,"distanceM":0.9993572},` +
			`{"planting":"r","probability":0.024,"distanceM":null}],"others":0.001,"none":0.015}`
	)
	var in Input
	decoder := json.NewDecoder(bytes.NewReader([]byte(asked)))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&in); err != nil {
		t.Fatal(err)
	}
	got, err := json.Marshal(mustTie(t, in))
	if err != nil || string(got) != answered {
		t.Errorf("answered\n%s, want\n%s (%v)", got, answered, err)
	}
}

func BenchmarkTie(b *testing.B) {
	in := inGarden(photoAt(3, 3, 5))
	for i := range 500 {
		in.Plantings = append(in.Plantings, plantingAt(string(rune('a'+i/26))+string(rune('a'+i%26)), float64(i%25), float64(i/25)))
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Tie(in); err != nil {
			b.Fatal(err)
		}
	}
}
