package growth

import (
	"math"
	"slices"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

func TestWoodyKindHas95PerCentAtItsYearsToSize(t *testing.T) {
	for _, habit := range []string{"shrub", "climber", "tree"} {
		m, k := woodyShape(habit, 7)
		course := &woody{m: m, k: k, planted: math.Inf(-1)}
		course.begin(segment{from: float64(date("2020-01-01")), cm: 1e-9})
		got := course.at(course.spot(float64(date("2027-01-01"))), exactly(200))
		relative(t, habit+" after seven seasons", got.cm, 0.95*200, 1e-3)
	}
}

func TestChapmanRichardsByHand(t *testing.T) {
	m, k := woodyShape("shrub", 6)
	course := &woody{m: m, k: k, planted: math.Inf(-1)}
	course.begin(segment{from: float64(date("2020-01-01")), cm: 40})
	got := course.at(course.spot(float64(date("2022-01-01"))), exactly(150))
	// The age at which the curve from nothing has 40 cm, and two seasons on.
	age := -math.Log(1-math.Pow(40.0/150, 1/m)) / k
	relative(t, "height", got.cm, 150*math.Pow(1-math.Exp(-k*(age+2)), m), 1e-12)
}

func TestFirstSeasonsAreSlow(t *testing.T) {
	for _, c := range []struct{ seasons, age float64 }{{0, 0}, {0.5, 0.175}, {1, 0.35}, {2, 1.05}, {3, 2.05}, {10, 9.05}} {
		relative(t, "effective age", established(c.seasons)+1, c.age+1, 1e-12)
		relative(t, "seasons", seasonsFor(c.age)+1, c.seasons+1, 1e-12)
	}
}

func TestSeasonClockStandsStillInWinterAndRunsBack(t *testing.T) {
	winter := seasonClock(float64(date("2026-01-10")))
	if before := seasonClock(float64(date("2025-11-01"))); before != winter {
		t.Errorf("the clock moved from %v to %v in winter", before, winter)
	}
	rapid.Check(t, func(t *rapid.T) {
		clock := rapid.Float64Range(1950, 2100).Draw(t, "clock")
		if got := seasonClock(seasonDay(clock)); math.Abs(got-clock) > 1e-6 {
			t.Fatalf("clock %v came back as %v", clock, got)
		}
	})
}

func TestCoursesRiseWithRateAndHaveTheDerivativesTheyGive(t *testing.T) {
	kinds := catalogue(t)
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t, kinds)
		p := newPlanner(&in, in.On)
		course, known := p.course()
		if !known {
			return
		}
		where := course.spot(p.today - rapid.Float64Range(0, 900).Draw(t, "ago"))
		if !where.known {
			return
		}
		t0 := theta{rapid.Float64Range(-1, 0.7).Draw(t, "log rate"), rapid.Float64Range(-2, 2).Draw(t, "place"),
			rapid.Float64Range(-0.4, 0.4).Draw(t, "log start"), rapid.Float64Range(-15, 15).Draw(t, "late")}
		at := course.at(where, p.size.own(t0))
		if math.IsNaN(at.cm) || at.cm < 0 {
			t.Fatalf("height %v", at.cm)
		}
		const step = 1e-5
		for j := range t0 {
			up, down := t0, t0
			up[j] += step
			down[j] -= step
			above, below := course.at(where, p.size.own(up)).cm, course.at(where, p.size.own(down)).cm
			if j == ofRate && above < below-1e-9 {
				t.Fatalf("a faster plant is lower: %v and %v", above, below)
			}
			slope := (above - below) / (2 * step)
			if math.Abs(slope-at.by[j]) > 1e-3*math.Max(1, math.Abs(slope)) {
				t.Fatalf("derivative by %d is %v, by differences %v", j, at.by[j], slope)
			}
		}
	})
}

func TestPartsOfACourseComeInOrder(t *testing.T) {
	kinds := catalogue(t)
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t, kinds)
		for range rapid.IntRange(0, 12).Draw(t, "measures") {
			day := garden.Day(rapid.Int32Range(int32(date("2014-01-01")), int32(in.On)).Draw(t, "measured"))
			in.Measures = append(in.Measures, Measure{Day: day, HeightCm: cm(rapid.Float64Range(1, 300).Draw(t, "height"))})
		}
		p := newPlanner(&in, in.On)
		begun := []float64{}
		switch course, _ := p.course(); c := course.(type) {
		case *woody:
			for _, s := range c.segments {
				begun = append(begun, s.from)
			}
		case *seasonal:
			for _, r := range c.rises {
				begun = append(begun, r.from)
			}
		}
		if !slices.IsSorted(begun) {
			t.Fatalf("parts begin on %v", begun)
		}
	})
}

// exactly is a plant of usual rate of one size.
func exactly(cm float64) own { return own{rate: 1, size: cm, logSize: math.Log(cm), sizeSlope: 1} }

// anyInput draws a planting of the catalogue with whatever may be known of it.
func anyInput(t *rapid.T, kinds []garden.Kind) Input {
	in := Input{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), On: date("2026-07-10"),
		Form:         rapid.SampledFrom([]string{"", "seed", "plug", "pot", "bare-root", "bulb", "division", "cutting"}).Draw(t, "form"),
		LatenessDays: rapid.Float64Range(-40, 40).Draw(t, "lateness"), Southern: rapid.Bool().Draw(t, "southern")}
	day := rapid.Int32Range(int32(date("2014-01-01")), int32(date("2026-07-09")))
	if rapid.Bool().Draw(t, "dated") {
		in.Planted = planted(garden.Day(day.Draw(t, "planted")).String()[:rapid.SampledFrom([]int{4, 7, 10}).Draw(t, "precision")])
	}
	height := rapid.Float64Range(0, 400)
	if rapid.Bool().Draw(t, "start known") {
		in.HeightCm = cm(height.Draw(t, "start"))
	}
	for range rapid.IntRange(0, 3).Draw(t, "cuts") {
		w := Work{Day: garden.Day(day.Draw(t, "cut")), What: rapid.SampledFrom([]string{"pruned", "cut-back", "divided", "watered"}).Draw(t, "work")}
		if rapid.Bool().Draw(t, "left known") {
			w.HeightLeftCm = cm(height.Draw(t, "left"))
		}
		in.Work = append(in.Work, w)
	}
	return in
}
