package assess_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"haulm/almanac/assess"
	"haulm/almanac/assess/assesstest"
	"haulm/garden"
)

// worthOf is what is said of one planting.
func worthOf(t *testing.T, w assess.Worth, planting string) assess.PlantingWorth {
	t.Helper()
	at := slices.IndexFunc(w.Plantings, func(p assess.PlantingWorth) bool { return p.Planting == planting })
	if at < 0 {
		t.Fatalf("nothing is said of %s", planting)
	}
	return w.Plantings[at]
}

// TestTheRoundGoesWhereALookSettlesMost: in its time to the plant that nobody looked
// at, not to those that were seen in flower.
func TestTheRoundGoesWhereALookSettlesMost(t *testing.T) {
	const forgotten, seen = "iris-sibirica-1", "alchemilla-mollis-0"
	s := &scene{unseen: map[string]bool{forgotten: true}}
	engine := s.garden(t)
	w := engine.Worth(on - 16)
	p := worthOf(t, w, forgotten)
	if w.Plantings[0].Planting != forgotten || len(p.Reasons) != 1 || p.Gain < 0.1 {
		t.Fatalf("first comes %+v, and the forgotten plant is worth %+v", w.Plantings[0], p)
	}
	if r := p.Reasons[0]; r.Code != "settles-late" && r.Code != "may-have-opened" || *r.Flush != 0 || *r.Probability < 0.5 || *r.Day > garden.DayOf(sceneYear, 5, 1) {
		t.Errorf("%+v", r)
	}
	if late := worthOf(t, engine.Worth(on), forgotten); late.Reasons[0].Code != "may-be-over" || late.Gain >= p.Gain {
		t.Errorf("when most of its like are over: %+v", late)
	}
	if p := worthOf(t, w, seen); p.Gain != 0 || len(p.Reasons) != 0 {
		t.Errorf("a plant that was seen in flower: %+v", p)
	}
}

// TestALatePlantIsLookedAtAgain some days after the look that named it.
func TestALatePlantIsLookedAtAgain(t *testing.T) {
	const late = "iris-sibirica-0"
	engine := (&scene{more: map[string]float64{late: 40}}).garden(t)
	if p := worthOf(t, engine.Worth(on+5), late); len(p.Reasons) != 1 || p.Reasons[0].Code != "late-still" || p.Reasons[0].Day == nil {
		t.Errorf("%+v, and found %v", p, verdicts(engine.Assess(on+5), late))
	}
}

// TestWhatShouldBeUpIsLookedFor until it was seen, and not out of its time.
func TestWhatShouldBeUpIsLookedFor(t *testing.T) {
	const sleeper = "iris-sibirica-0"
	spring := garden.DayOf(sceneYear, 4, 20)
	codes := func(up string, on garden.Day) (list []string) {
		s := &scene{}
		if up != "" {
			s.put("observation/spring", map[string]any{"planting": sleeper, "seen": "2015-04-10T09:00:00+01:00", "up": up})
		}
		for _, r := range worthOf(t, s.garden(t).Worth(on), sleeper).Reasons {
			list = append(list, r.Code)
		}
		return list
	}
	for _, c := range []struct {
		up   string
		on   garden.Day
		want bool
	}{{"", spring, true}, {"not-up", spring, true}, {"up", spring, false}, {"", spring - 80, false}, {"", spring + 150, false}} {
		if got := codes(c.up, c.on); slices.Contains(got, "not-seen-up") != c.want {
			t.Errorf("%q seen, on %s: %v", c.up, c.on, got)
		}
	}
}

// TestWhatWasPutAsideIsNotAskedAgain for that flush.
func TestWhatWasPutAsideIsNotAskedAgain(t *testing.T) {
	const late = "iris-sibirica-0"
	s := &scene{more: map[string]float64{late: 40}}
	s.put("dismissal/"+late+".2015-0.late", map[string]any{"why": "moved the label", "day": "2015-06-24"})
	if p := worthOf(t, s.garden(t).Worth(on+5), late); p.Gain != 0 {
		t.Errorf("%+v", p)
	}
}

// TestALookTodayLeavesLittleToLookFor: once somebody looked, the same look again
// settles nothing of flower or of what was found.
func TestALookTodayLeavesLittleToLookFor(t *testing.T) {
	const forgotten = "iris-sibirica-1"
	s := &scene{unseen: map[string]bool{forgotten: true}}
	engine := s.garden(t)
	look, err := garden.ParseRef("observation/today")
	if err != nil {
		t.Fatal(err)
	}
	engine.Upsert([]garden.Record{{Ref: look, Fields: garden.Fields{"planting": []byte(`"` + forgotten + `"`), "seen": []byte(`"2015-06-25T09:00:00+01:00"`), "notInFlower": []byte("true")}}})
	if p := worthOf(t, engine.Worth(on), forgotten); p.Gain != 0 {
		t.Errorf("%+v", p)
	}
}

// TestWorthIsWhole: every planting that stands is told once, by gain; each gain is the
// sum of its reasons; asking before or after the assessment, or twice, is the same.
func TestWorthIsWhole(t *testing.T) {
	codes := map[string]int{}
	for seed := range uint64(12) {
		shape := assesstest.Shape{Seed: seed, Plantings: 20, Years: 3, LastYear: 2015, LookEvery: 20}
		records, err := assesstest.Invent(shape)
		if err != nil {
			t.Fatal(err)
		}
		engine := loaded(t, records)
		on := shape.Today() - garden.Day(seed*13)
		w := engine.Worth(on)
		if again := loaded(t, records); !sameWorth(again.Assess(on), again.Worth(on), w) || !sameWorth(engine.Assess(on), engine.Worth(on), w) {
			t.Fatalf("seed %d: the answer hangs on what was asked before", seed)
		}
		told := map[string]bool{}
		for _, p := range w.Plantings {
			checkWorth(t, p)
			told[p.Planting] = true
			for _, r := range p.Reasons {
				codes[r.Code]++
			}
		}
		if !slices.IsSortedFunc(w.Plantings, func(a, b assess.PlantingWorth) int { return cmp.Compare(b.Gain, a.Gain) }) || len(told) != len(w.Plantings) {
			t.Errorf("seed %d: not in order, or one twice", seed)
		}
		for _, f := range engine.Assess(on).Findings {
			if !told[f.Planting] {
				t.Errorf("seed %d: nothing is said of %s", seed, f.Planting)
			}
		}
	}
	for _, code := range []string{"may-have-opened", "settles-late", "late-still", "not-seen-up", "height-old", "finding", "asleep"} {
		if codes[code] == 0 {
			t.Errorf("no garden gives %s: %v", code, codes)
		}
	}
}

func sameWorth(_ assess.Assessment, a, b assess.Worth) bool {
	return slices.EqualFunc(a.Plantings, b.Plantings, func(a, b assess.PlantingWorth) bool {
		return a.Planting == b.Planting && a.Gain == b.Gain && len(a.Reasons) == len(b.Reasons)
	})
}

func checkWorth(t *testing.T, p assess.PlantingWorth) {
	t.Helper()
	sum := 0.0
	for _, r := range p.Reasons {
		if r.Gain < 0 || r.Gain > 1 || r.Gain == 0 && r.Code != "asleep" {
			t.Errorf("%s: %+v", p.Planting, r)
		}
		sum += r.Gain
	}
	if math.Abs(sum-p.Gain) > 1e-9 {
		t.Errorf("%s: gain %v of reasons %+v", p.Planting, p.Gain, p.Reasons)
	}
}
