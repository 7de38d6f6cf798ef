package growth

import (
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

// TestAMovedShrubKeepsItsHeightAndPauses: it stands as tall as before, grows at the
// pace of a new plant for two seasons, and nobody is told that it is small meanwhile.
func TestAMovedShrubKeepsItsHeightAndPauses(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2011-10-11"), HeightCm: cm(40), On: date("2015-07-10"), Measures: []Measure{tall("2014-10-01", 75)}}
	moved := in
	moved.Moves = []garden.Day{date("2014-11-10")}
	still, now := grow(t, in), grow(t, moved)
	if a, b := still.on(t, "2014-11-01"), now.on(t, "2014-11-01"); a != b {
		t.Errorf("before it was moved %+v, and unmoved %+v", b, a)
	}
	grown := func(r Result, from, to string) float64 { return r.on(t, to).Mid - r.on(t, from).Mid }
	if a, b := grown(still, "2015-01-01", "2015-11-01"), grown(now, "2015-01-01", "2015-11-01"); !(b > 0 && b < 0.5*a) {
		t.Errorf("in the season after it grows %v cm, and unmoved %v", b, a)
	}
	if now.Reaches == nil || still.Reaches == nil || now.Reaches.Year < still.Reaches.Year+1 {
		t.Errorf("reaches its size %+v, and unmoved %+v", now.Reaches, still.Reaches)
	}
	moved.Measures = append(moved.Measures, tall("2015-07-05", 60))
	if f, found := grow(t, moved).finding(SmallForAge); found {
		t.Errorf("dug up last winter, it gave %+v", f)
	}
}

// TestAMovedClumpKeepsItsYears: a grown clump is full in the season after, where a
// young plant is not.
func TestAMovedClumpKeepsItsYears(t *testing.T) {
	young := Input{Kind: clump(), Planted: planted("2014-10-10"), Form: "pot", On: date("2015-07-10")}
	old := young
	old.Planted, old.Moves = planted("2010-10-10"), []garden.Day{date("2014-10-10")}
	if a, b := grow(t, young).on(t, "2015-07-05").Mid, grow(t, old).on(t, "2015-07-05").Mid; !(b > 1.2*a) {
		t.Errorf("a moved clump is %v cm where a new one is %v", b, a)
	}
}

// TestMovesOnlyDelay: at any time a shrub is no taller for having been moved, keeps its
// height through a move, and stays as it is where moved after today.
func TestMovesOnlyDelay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := Input{Kind: shrub(), Planted: planted("2005-03-01"), HeightCm: cm(40), On: date("2015-07-10")}
		moved := in
		for range rapid.IntRange(1, 4).Draw(t, "moves") {
			moved.Moves = append(moved.Moves, date("2005-06-01")+garden.Day(rapid.IntRange(0, 4000).Draw(t, "day")))
		}
		a, b := growAny(t, in), growAny(t, moved)
		last := 0.0
		for i, at := range b.Band {
			if at.Mid > a.Band[i].Mid+0.1 || at.Mid < last {
				t.Fatalf("%s: %v cm, unmoved %v, a week before %v", at.Day, at.Mid, a.Band[i].Mid, last)
			}
			last = at.Mid
		}
	})
}

func growAny(t *rapid.T, in Input) Result {
	result, err := Grow(in)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// TestEffectiveAgeRunsBackThroughMoves: clockAt is the inverse of age.
func TestEffectiveAgeRunsBackThroughMoves(t *testing.T) {
	for _, since := range []float64{2001.5, -1e9} {
		w := &woody{planted: since}
		for _, clock := range []float64{2004, 2004.6, 2009.2} {
			w.transplant(clock)
		}
		for clock := 2003.05; clock < 2014; clock += 0.1 {
			if back := w.clockAt(w.age(clock)); back < clock-1e-6 || back > clock+1e-6 {
				t.Errorf("planted %v: %v comes back as %v", since, clock, back)
			}
		}
	}
}
