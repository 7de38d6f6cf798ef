package assess_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"haulm/almanac/assess"
	"haulm/garden"
)

var update = flag.Bool("update", false, "write the assessment vectors anew")

// A scene is a garden whose truth is known to the test: six kinds that flower
// around midsummer, two plantings of each, three ordinary seasons behind it.
type scene struct {
	lateBy  float64            // this season, for everything
	more    map[string]float64 // and for one planting on top
	unseen  map[string]bool    // plantings that nobody looked at since 1 May
	records []garden.Record
}

var sceneKinds = []string{"iris-sibirica", "alchemilla-mollis", "geranium-sylvaticum-mayflower", "paeonia-lactiflora-sarah-bernhardt", "aruncus-dioicus", "nepeta-racemosa"}

const (
	sceneYear  = 2015
	sceneFirst = 2012
)

func (s *scene) put(ref string, fields map[string]any) {
	parsed, err := garden.ParseRef(ref)
	if err != nil {
		panic(err)
	}
	raw := garden.Fields{}
	for name, value := range fields {
		text, err := json.Marshal(value)
		if err != nil {
			panic(err)
		}
		raw[name] = text
	}
	s.records = append(s.records, garden.Record{Ref: parsed, Fields: raw})
}

// on is the day that the scenes stand at.
var on = garden.DayOf(sceneYear, 6, 25)

// garden makes all records up to the day on: looks every four days from April to
// August, flower for three weeks from the day it opens.
func (s *scene) garden(t *testing.T) *assess.Engine {
	t.Helper()
	kinds, _, err := garden.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	s.put("garden/g", map[string]any{"name": "Scene", "lat": 51.5, "lon": -2.6, "altitudeM": 50, "timeZone": "Europe/London"})
	s.put("bed/b", map[string]any{"name": "The bed", "order": 1})
	for n, slug := range sceneKinds {
		at := slices.IndexFunc(kinds, func(k garden.Kind) bool { return k.ID == slug })
		if at < 0 {
			t.Fatalf("the catalogue has no %s", slug)
		}
		for copyNumber := range 2 {
			s.planting(fmt.Sprintf("%s-%d", slug, copyNumber), kinds[at], n*2+copyNumber)
		}
	}
	engine, err := assess.New()
	if err != nil {
		t.Fatal(err)
	}
	engine.Upsert(s.records)
	return engine
}

func (s *scene) planting(id string, kind garden.Kind, n int) {
	s.put("planting/"+id, map[string]any{"kind": kind.ID, "bed": "b", "planted": "2010-03", "identity": "confirmed", "at": []int{n, 0}})
	for year := sceneFirst; year <= sceneYear; year++ {
		opens := kind.Bloom[0].From.In(year) + garden.Day(n%3)
		if year == sceneYear {
			opens += garden.Day(s.lateBy + s.more[id])
		}
		s.year(id, year, opens)
	}
}

func (s *scene) year(id string, year int, opens garden.Day) {
	for day := garden.DayOf(year, 4, 1); day <= min(on, garden.DayOf(year, 8, 30)); day += 4 {
		if year == sceneYear && s.unseen[id] && day > garden.DayOf(year, 5, 1) {
			return
		}
		fields := map[string]any{"planting": id, "seen": day.String() + "T09:00:00+01:00"}
		switch {
		case day < opens-10 || day > opens+35:
			fields["notInFlower"] = true
		case day < opens:
			fields["stage"] = 55
		case day < opens+21:
			fields["stage"] = 65
		default:
			fields["stage"] = 69
		}
		s.put(fmt.Sprintf("observation/%s-%s", id, day), fields)
	}
}

// first gives the first finding of a verdict on a planting, nil when there is none.
func find(a assess.Assessment, planting, verdict string) *assess.Finding {
	for i := range a.Findings {
		if f := &a.Findings[i]; f.Planting == planting && f.Verdict == verdict {
			return f
		}
	}
	return nil
}

func verdicts(a assess.Assessment, planting string) (list []string) {
	for _, f := range a.Findings {
		if f.Planting == planting {
			list = append(list, f.Verdict)
		}
	}
	return list
}

func TestLatePlantInALateSeasonIsToldFromOneInANormalSeason(t *testing.T) {
	const culprit = "iris-sibirica-0"
	normal := &scene{more: map[string]float64{culprit: 40}}
	late := &scene{lateBy: 12, more: map[string]float64{culprit: 40}}
	inNormal, inLate := normal.garden(t).Assess(on), late.garden(t).Assess(on)

	for name, a := range map[string]assess.Assessment{"normal": inNormal, "late": inLate} {
		f := find(a, culprit, "late")
		if f == nil {
			t.Fatalf("in the %s season it is %v, not late", name, verdicts(a, culprit))
		}
		if f.Probability == nil || *f.Probability > 0.02 || f.Days == nil || f.Days[0] == nil || f.Days[1] != nil {
			t.Errorf("in the %s season: probability %v, days %v", name, f.Probability, f.Days)
		}
		for _, other := range sceneKinds[1:] {
			if find(a, other+"-0", "late") != nil || find(a, other+"-1", "late") != nil {
				t.Errorf("in the %s season %s is called late with it", name, other)
			}
		}
	}
	if s := *find(inNormal, culprit, "late").SeasonDays; s < -4 || s > 4 {
		t.Errorf("in a normal season %v days are put down to it", s)
	}
	if s := *find(inLate, culprit, "late").SeasonDays; s < 7 || s > 15 {
		t.Errorf("of a season 12 days late, %v days are put down to it", s)
	}
	if s := inLate.Season; s == nil || s.Days < 8 || s.Days > 15 || s.From < 8 {
		t.Errorf("the late season is reported as %+v", s)
	}
	writeVectors(t, "late-in-normal-season", inNormal)
	writeVectors(t, "late-in-late-season", inLate)
}

func TestLateSeasonAloneCallsNoPlantLate(t *testing.T) {
	a := (&scene{lateBy: 12}).garden(t).Assess(on)
	for _, f := range a.Findings {
		if f.Verdict == "late" || f.Verdict == "no-flower-seen" || f.Verdict == "later-than-the-book" {
			t.Errorf("%s is called %s", f.Planting, f.Verdict)
		}
	}
	writeVectors(t, "late-season", a)
}

func TestAPlantNobodyLookedAtIsNeverLate(t *testing.T) {
	const forgotten = "iris-sibirica-1"
	s := &scene{more: map[string]float64{forgotten: 30}, unseen: map[string]bool{forgotten: true}}
	engine := s.garden(t)
	asked := false
	for day := garden.DayOf(sceneYear, 4, 1); day <= garden.DayOf(sceneYear, 12, 31); day += 3 {
		for _, verdict := range verdicts(engine.Assess(day), forgotten) {
			asked = asked || verdict == "needs-a-look"
			if verdict == "late" || verdict == "later-than-the-book" || verdict == "no-flower-seen" {
				t.Errorf("on %s, with no look since 1 May, it is called %s", day, verdict)
			}
		}
	}
	if !asked {
		t.Error("nobody was ever asked to look at it")
	}
	writeVectors(t, "nobody-looked", engine.Assess(on))
}

func TestAnotherDayWithNothingSeenChangesNoVerdictForTheWorse(t *testing.T) {
	engine := (&scene{more: map[string]float64{"iris-sibirica-0": 30}}).garden(t)
	before, after := engine.Assess(on), engine.Assess(on+1)
	for _, f := range after.Findings {
		if f.Verdict == "late" && find(before, f.Planting, "late") == nil {
			t.Errorf("%s became late overnight with nobody looking", f.Planting)
		}
	}
}

func TestABrokenRecordSilencesNoOther(t *testing.T) {
	s := &scene{}
	engine := s.garden(t)
	whole := engine.Assess(on)
	bad := garden.Record{Ref: garden.Ref{Kind: garden.ObservationRecord, ID: "bad"}, Fields: garden.Fields{"stage": json.RawMessage(`140`)}}
	engine.Upsert([]garden.Record{bad})
	a := engine.Assess(on)
	if len(a.Skipped) != 1 || a.Skipped[0].Record != "observation/bad" || a.Skipped[0].Why == "" {
		t.Errorf("skipped: %+v", a.Skipped)
	}
	if len(a.Findings) != len(whole.Findings) {
		t.Errorf("%d findings beside a broken record, %d without", len(a.Findings), len(whole.Findings))
	}
	engine.Forget([]garden.Ref{bad.Ref})
	if skipped := engine.Assess(on).Skipped; len(skipped) != 0 {
		t.Errorf("still skipped after it is gone: %+v", skipped)
	}
}

func TestDismissedFindingsStayButAskForNothing(t *testing.T) {
	s := &scene{more: map[string]float64{"iris-sibirica-0": 30}}
	engine := s.garden(t)
	ref, err := garden.ParseRef("dismissal/iris-sibirica-0.2015-0.late")
	if err != nil {
		t.Fatal(err)
	}
	engine.Upsert([]garden.Record{{Ref: ref, Fields: garden.Fields{"why": json.RawMessage(`"cut for the house"`)}}})
	f := find(engine.Assess(on), "iris-sibirica-0", "late")
	if f == nil || f.Dismissed == nil || f.Dismissed.Why != "cut for the house" || f.WorthALook {
		t.Errorf("the dismissed finding is %+v", f)
	}
}

func TestTheOrderOfRecordsDoesNotMatter(t *testing.T) {
	s := &scene{more: map[string]float64{"iris-sibirica-0": 30}}
	one := s.garden(t).Assess(on)
	slices.Reverse(s.records)
	engine, err := assess.New()
	if err != nil {
		t.Fatal(err)
	}
	engine.Upsert(s.records)
	a, errA := json.Marshal(one)
	b, errB := json.Marshal(engine.Assess(on))
	if errA != nil || errB != nil || string(a) != string(b) {
		t.Errorf("read backwards the records give another answer (%v, %v)", errA, errB)
	}
}

// writeVectors keeps the assessment for the phone's tests of its words; with
// -update it is written anew, without it must be what is there.
func writeVectors(t *testing.T, name string, a assess.Assessment) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "vectors", "assess", name+".json")
	text, err := json.MarshalIndent(a, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	text = append(text, '\n')
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	kept, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (make it with: go test ./almanac/assess -update)", err)
	}
	if string(kept) != string(text) {
		t.Errorf("%s has changed; read the difference, then go test ./almanac/assess -update", path)
	}
}

func TestOneFlowerIsNoSeason(t *testing.T) {
	s := &scene{}
	engine := s.garden(t)
	for _, record := range s.records {
		if record.Ref.Kind == garden.PlantingRecord && record.Ref.ID != "iris-sibirica-0" && record.Ref.ID != "iris-sibirica-1" {
			engine.Forget([]garden.Ref{record.Ref})
		}
	}
	if season := engine.Assess(on).Season; season != nil {
		t.Errorf("from two plants the season is told as %+v", season)
	}
}

func TestASeasonLongPastIsNotSpokenOf(t *testing.T) {
	engine := (&scene{lateBy: 12}).garden(t)
	if engine.Assess(on).Season == nil {
		t.Fatal("no season in its midst")
	}
	if season := engine.Assess(garden.DayOf(sceneYear, 11, 25)).Season; season != nil {
		t.Errorf("in November early summer is told as %+v", season)
	}
}
