package skill

import (
	"slices"
	"testing"

	"haulm/almanac/assess"
	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// flush has a window from day 100 to 140 and expects itself on day 110; its chance
// is 4.5 days, its flower lasts 30.
func flush() *simulate.Flush {
	return &simulate.Flush{Planting: "p", Year: simulate.LastYear, StatedDay: 100, StatedEnd: 140, UsualDay: 110, ExpectedDay: 110, LastsDays: 30}
}

func on(day int) garden.Day { return garden.DayOf(simulate.LastYear, 1, day) }

// shut and staged are looks on days of the last year.
func shut(day int) bloom.Look { return bloom.Look{Day: on(day), NotInFlower: true} }

func staged(day, stage int) bloom.Look { return bloom.Look{Day: on(day), Stage: &stage} }

// TestNotebookWaitsForTheEndOfTheWindow and takes any flower noted, but last
// year's.
func TestNotebookWaitsForTheEndOfTheWindow(t *testing.T) {
	for _, c := range []struct {
		name  string
		looks []bloom.Look
		on    int
		want  bool
	}{
		{"the window's last day", []bloom.Look{shut(139)}, 140, false},
		{"the day after", []bloom.Look{shut(139)}, 141, true},
		{"nobody looked", nil, 141, true},
		{"flower was noted", []bloom.Look{staged(120, 61)}, 141, false},
		{"petals down were noted", []bloom.Look{staged(139, 69)}, 141, false},
		{"a bud is no flower", []bloom.Look{staged(139, 55)}, 141, true},
		{"last year's flower is not this year's", []bloom.Look{staged(-100, 65)}, 141, true},
	} {
		if _, got := (Notebook{}).Names(flush(), c.looks, on(c.on)); got != c.want {
			t.Errorf("%s: named %v", c.name, got)
		}
	}
}

// TestOracleSpeaksAtIts97PercentPoint: 1.88 standard deviations after the own
// expected day, if looks show it.
func TestOracleSpeaksAtIts97PercentPoint(t *testing.T) {
	oracle := Oracle{simulate.Luck{SD: 4.5}}
	for _, c := range []struct {
		name  string
		looks []bloom.Look
		want  bool
	}{
		{"8 days after", []bloom.Look{shut(90), shut(118)}, false},
		{"9 days after", []bloom.Look{shut(90), shut(119)}, true},
		{"a bud 9 days after", []bloom.Look{shut(90), staged(119, 55)}, true},
		{"nobody looked", nil, false},
		{"flower was seen before", []bloom.Look{shut(90), staged(112, 61), shut(150)}, false},
		{"it may have come and gone", []bloom.Look{shut(90), shut(145)}, false},
		{"it cannot have come and gone", []bloom.Look{shut(110), shut(130), shut(145)}, true},
	} {
		if _, got := oracle.Names(flush(), c.looks, on(160)); got != c.want {
			t.Errorf("%s: named %v", c.name, got)
		}
	}
	later := flush()
	later.ExpectedDay = 109.6 // the look is 8.4 days after; 97 % of t with 4 degrees lie below 2.60·4.5/√2 = 8.3
	heavy := Oracle{simulate.Luck{SD: 4.5, HeavyTails: true}}
	if _, got := heavy.Names(later, []bloom.Look{shut(90), shut(118)}, on(118)); !got {
		t.Error("the oracle of heavy tails does not know where their 97 % point lies")
	}
	if _, got := oracle.Names(later, []bloom.Look{shut(90), shut(118)}, on(118)); got {
		t.Error("the oracle of normal chance speaks before its 97 % point")
	}
}

// TestFirstNamingIsKept: what was named stays so, whatever is seen later.
func TestFirstNamingIsKept(t *testing.T) {
	was := first(nil, Notebook{}, flush(), nil, on(150))
	if was == nil || was.Day != 150 {
		t.Fatalf("named %+v", was)
	}
	if again := first(was, Notebook{}, flush(), []bloom.Look{staged(151, 61)}, on(160)); again != was {
		t.Errorf("named again %+v", again)
	}
}

// TestScoreCountsEachPlantOnce on hand cases.
func TestScoreCountsEachPlantOnce(t *testing.T) {
	opens := 140.0
	late := simulate.Flush{ExpectedDay: 110, LateDays: 28, OpensDay: &opens}
	well := simulate.Flush{ExpectedDay: 138, OpensDay: &opens}
	blind := simulate.Flush{ExpectedDay: 110}
	cases := []Case{
		{Flush: late, Haulm: &Naming{Day: 125}, Oracle: &Naming{Day: 120}},
		{Flush: late, Haulm: &Naming{Day: 171}, Notebook: &Naming{Day: 170}},
		{Flush: late},
		{Flush: well, Haulm: &Naming{Day: 190}, Before: &bloom.Band{P10: 130, P90: 141}},
		{Flush: well, Before: &bloom.Band{P10: 130, P90: 139}},
		{Flush: blind, Haulm: &Naming{Day: 150}},
	}
	var s Score
	s.Count(Walk{Cases: cases})
	s.Add(s)
	switch {
	case s.Haulm.Named != Share{2, 6} || s.Notebook.Named != Share{2, 6} || s.Oracle.Named != Share{2, 6}:
		t.Errorf("named %+v, %+v, %+v", s.Haulm.Named, s.Notebook.Named, s.Oracle.Named)
	case s.Haulm.MedianDays() != 15 || s.Notebook.MedianDays() != 60 || s.Oracle.MedianDays() != 10:
		t.Errorf("after %v, %v, %v days", s.Haulm.Days, s.Notebook.Days, s.Oracle.Days)
	case s.Haulm.False != Share{2, 4} || s.Oracle.False != Share{0, 4} || s.Blind != Share{2, 2}:
		t.Errorf("false %+v, %+v; blind %+v", s.Haulm.False, s.Oracle.False, s.Blind)
	case s.Before != Share{2, 4} || s.After.Of != 0:
		t.Errorf("bands %+v, %+v", s.Before, s.After)
	}
}

// TestTheFrontierIsWhatBandsSay: a band of 110 ± 5 leaves 2.3 in a hundred after day
// 120, and what was in flower is asked about no more.
func TestTheFrontierIsWhatBandsSay(t *testing.T) {
	c := Case{Flush: *flush()}
	off := 5 * 1.2815515655446004
	band := &bloom.Band{P10: 110 - off, P50: 110, P90: 110 + off}
	c.low(band, []bloom.Look{shut(90), shut(110)}, 112)
	c.low(band, []bloom.Look{shut(90), shut(110)}, 114)
	c.low(band, []bloom.Look{shut(90), shut(110), shut(120)}, 121)
	c.low(band, []bloom.Look{shut(90), shut(110), shut(120), staged(130, 61)}, 130)
	if want := []Low{{112, 0.5}, {121, 0.023}}; !slices.Equal(c.Lows, want) {
		t.Errorf("lows %v, want %v", c.Lows, want)
	}
	opens := 130.0
	c.OpensDay, c.LateDays = &opens, 20
	if r := At(0.03, []Case{c}); r.Named != (Share{1, 1}) || r.MedianDays() != 11 {
		t.Errorf("at 0.03: %+v", r)
	}
	if r := At(0.02, []Case{c}); r.Named != (Share{0, 1}) {
		t.Errorf("at 0.02: %+v", r)
	}
}

// TestTheEngineSaysWhatTheModelSays: the walk asks package bloom; the engine that
// server and phone run names the same plants on the same days.
func TestTheEngineSaysWhatTheModelSays(t *testing.T) {
	out, err := simulate.Garden(simulate.Input{Seed: 5, Plantings: 24, Years: 3})
	if err != nil {
		t.Fatal(err)
	}
	b, err := read(out.Records)
	if err != nil {
		t.Fatal(err)
	}
	engine, err := assess.New()
	if err != nil {
		t.Fatal(err)
	}
	engine.Upsert(out.Records)
	h, said, late := &Haulm{book: b}, 0, 0
	for day := on(10); day <= out.On; day += 10 {
		h.at(day)
		for _, f := range engine.Assess(day).Findings {
			if f.Flush == nil || f.Year != simulate.LastYear {
				continue
			}
			said++
			if verdict := h.verdicts[f.Planting].Verdict; string(verdict) != f.Verdict {
				t.Errorf("%s on %s: the engine says %s, the model %s", f.Planting, day, f.Verdict, verdict)
			}
			if naming(bloom.Verdict(f.Verdict)) {
				late++
			}
		}
	}
	if said < 150 || late == 0 {
		t.Errorf("the engine says something %d times, late %d times", said, late)
	}
}

// TestHaulmBeatsTheNotebook is the floor of the skill table, on seeds that nothing
// was chosen by.
func TestHaulmBeatsTheNotebook(t *testing.T) {
	s, _ := scenario{input: simulate.Input{Plantings: 60, Years: 4}}.walk(t, benchSeeds-100, 6)
	haulm, notebook, oracle := s.Haulm, s.Notebook, s.Oracle
	if haulm.Named.Of < 20 || haulm.Named.Percent() < notebook.Named.Percent()+30 || haulm.Named.Percent() < 80 {
		t.Errorf("haulm names %+v, the notebook %+v", haulm.Named, notebook.Named)
	}
	if oracle.MedianDays() > haulm.MedianDays() || haulm.MedianDays() > notebook.MedianDays() {
		t.Errorf("median days: oracle %.1f, haulm %.1f, notebook %.1f", oracle.MedianDays(), haulm.MedianDays(), notebook.MedianDays())
	}
	if haulm.False.Percent() > 3 || s.Before.Percent() < 70 || s.Before.Percent() > 90 {
		t.Errorf("false alarms %+v, bands %+v", haulm.False, s.Before)
	}
}

// TestStrugglingPlantsAreFound by height and vigour, and few others.
func TestStrugglingPlantsAreFound(t *testing.T) {
	share := 0.2
	var s Struggle
	for seed := range uint64(2) {
		out, err := simulate.Garden(simulate.Input{Seed: benchSeeds - 1 - seed, Plantings: 40, Years: 3, Struggling: &share})
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Count(out); err != nil {
			t.Fatal(err)
		}
	}
	if s.Named.Of < 8 || s.Named.Percent() < 80 || s.False.Percent() > 5 {
		t.Errorf("named %+v as %v, others %+v", s.Named, s.Words, s.False)
	}
}
