package growth

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

func TestSmallShrubIsNamedWithItsEvidence(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2012-10-11"), Form: "pot", PotL: cm(5), HeightCm: cm(40), On: date("2015-07-10"),
		Measures: []Measure{tall("2013-10-10", 46), tall("2014-09-10", 56), tall("2015-05-05", 58), tall("2015-07-05", 62)}}
	result := grow(t, in)
	small, found := result.finding(SmallForAge)
	if !found || small.Probability < 0.8 {
		t.Fatalf("findings %+v, want %s", result.Findings, SmallForAge)
	}
	if got := small.Evidence[0]; got.Say != "measured" || *got.Day != date("2015-07-05") || *got.Cm != 62 || !(got.ExpectedCm[0] > 75) {
		t.Errorf("first evidence %+v, want 62 cm under a band that starts above 75", got)
	}
	said := ""
	for _, e := range small.Evidence {
		said += e.Say + " "
	}
	if said != "measured grown establishing rate " {
		t.Errorf("evidence says %q", said)
	}
	if !(result.Rate.P50 > 0.25 && result.Rate.P50 < 0.55) {
		t.Errorf("rate %+v, want under half", result.Rate)
	}
	if on := result.Reaches; on == nil || !(on.From <= on.Year && on.Year <= on.To && on.Year >= 2018) {
		t.Errorf("reaches its size %+v, want after 2018", on)
	}
}

func TestSameShrubAtItsExpectedHeightIsNot(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2012-10-11"), HeightCm: cm(40), On: date("2015-07-10")}
	for _, day := range []string{"2013-10-10", "2014-09-10", "2015-07-05"} {
		in.Measures = append(in.Measures, tall(day, grow(t, in).on(t, day).Mid))
	}
	if result := grow(t, in); len(result.Findings) != 0 {
		t.Errorf("findings %+v, want none", result.Findings)
	}
}

func TestStalledNeedsThreeMeasuresInGrowth(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2011-10-11"), HeightCm: cm(40), On: date("2015-08-10"), Measures: []Measure{
		tall("2014-07-01", 85), tall("2015-04-01", 86), tall("2015-06-10", 87), tall("2015-08-05", 88)}}
	stalled, found := grow(t, in).finding(Stalled)
	if !found {
		t.Fatalf("findings %+v, want %s", grow(t, in).Findings, Stalled)
	}
	if got := stalled.Evidence[0]; got.Say != "grown" || got.Measures != 3 || *got.Cm != 2 || !(*got.GrownExpectedCm > 15) {
		t.Errorf("evidence %+v, want 2 cm in three measures where more than 15 was likely", got)
	}
	two := in
	two.Measures = append(append([]Measure{}, in.Measures[:2]...), in.Measures[3])
	if f, found := grow(t, two).finding(Stalled); found {
		t.Errorf("two measures in the season gave %+v", f)
	}
	winter := in
	winter.Measures, winter.On = []Measure{tall("2015-10-01", 86), tall("2015-11-10", 87), tall("2015-12-20", 87)}, date("2015-12-21")
	if f, found := grow(t, winter).finding(Stalled); found {
		t.Errorf("a winter without growth gave %+v", f)
	}
}

func TestPruningStartsAgainFromWhatWasLeft(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2009-10-11"), On: date("2015-07-10"), Measures: []Measure{tall("2014-10-01", 150)},
		Work: []Work{{Day: date("2015-03-01"), What: "pruned", HeightLeftCm: cm(60)}}}
	result := grow(t, in)
	before, after := result.on(t, "2015-02-28"), result.on(t, "2015-03-01")
	if !(before.Mid > 110) || after.Mid != 60 {
		t.Errorf("band %+v before and %+v after the cut, want 60 cm then", before, after)
	}
	in.Measures = append(in.Measures, tall("2015-07-01", 80))
	if f, found := grow(t, in).finding(SmallForAge); found {
		t.Errorf("80 cm four months after a cut to 60 gave %+v", f)
	}
}

func TestACutNobodyRecordedIsNotSmallness(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2009-10-11"), On: date("2015-07-10"),
		Measures: []Measure{tall("2013-10-01", 140), tall("2014-10-01", 150), tall("2015-04-01", 70), tall("2015-07-01", 92)}}
	if result := grow(t, in); len(result.Findings) != 0 {
		t.Errorf("findings %+v, want none", result.Findings)
	}
}

func TestASlipOfThePenIsNotSmallness(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2011-10-11"), HeightCm: cm(40), On: date("2015-07-10"), Measures: []Measure{
		tall("2013-10-01", 100), tall("2014-06-01", 112), tall("2014-08-01", 12), tall("2014-10-01", 121), tall("2015-07-01", 133)}}
	result := grow(t, in)
	if _, found := result.finding(SmallForAge); found || !(result.Rate.P50 > 0.8) {
		t.Errorf("rate %+v and findings %+v after 12 was written for 120", result.Rate, result.Findings)
	}
}

func TestClumpRisesToFlowerAndDiesDown(t *testing.T) {
	result := grow(t, Input{Kind: clump(), Planted: planted("2013-10-01"), On: date("2015-07-10")})
	first, second := result.on(t, "2014-08-01"), result.on(t, "2015-08-01")
	near(t, "first season", first.Mid, 0.7*math.Sqrt(90*110), 0.06)
	near(t, "second season", second.Mid, math.Sqrt(90*110), 0.06)
	if !(second.Lo > 75 && second.Hi < 120) {
		t.Errorf("band %+v of a kind of 90 to 110 cm", second)
	}
	if winter := result.on(t, "2015-12-01"); winter.Hi != 0 {
		t.Errorf("band %+v in winter, want nothing above ground", winter)
	}
	if may := result.on(t, "2015-05-10"); !(may.Lo < 0.6*may.Mid && may.Hi > 1.2*may.Mid) {
		t.Errorf("band %+v in the middle of the rise, want room for an early or late spring", may)
	}
	if result.Reaches == nil || result.Reaches.Year != 2015 {
		t.Errorf("reaches %+v, want its second season, 2015", result.Reaches)
	}
}

func TestBiennialFlowersInItsSecondYearAndIsDone(t *testing.T) {
	result := grow(t, Input{Kind: kindNamed(t, "digitalis-purpurea"), Planted: planted("2012-10-01"), On: date("2015-07-10")})
	first, second, third := result.on(t, "2013-06-20"), result.on(t, "2014-06-20"), result.on(t, "2015-06-20")
	if !(first.Hi < 50 && second.Mid > 120 && third.Hi == 0) {
		t.Errorf("bands %+v, %+v and %+v, want a rosette, a flower stem and nothing", first, second, third)
	}
}

func TestALateSpringIsNotSmallness(t *testing.T) {
	in := Input{Kind: clump(), Planted: planted("2010-10-01"), On: date("2015-05-25"), Measures: []Measure{tall("2015-05-20", 28)}}
	late := in
	late.LatenessDays = 14
	if f, found := grow(t, late).finding(SmallForAge); found {
		t.Errorf("28 cm in a spring two weeks late gave %+v", f)
	}
	if early := grow(t, in).on(t, "2015-05-20").Mid; !(early > 1.3*grow(t, late).on(t, "2015-05-20").Mid) {
		t.Error("a late spring does not lower the band in May")
	}
}

func TestThisYearsFailureIsNotHiddenByLastYear(t *testing.T) {
	in := Input{Kind: clump(), Planted: planted("2010-10-01"), On: date("2015-07-10"),
		Measures: []Measure{tall("2013-07-10", 101), tall("2014-07-10", 99), tall("2015-07-05", 38)}}
	small, found := grow(t, in).finding(SmallForAge)
	if !found {
		t.Fatal("38 cm of a clump that had 100 the year before is not found small")
	}
	if got := small.Check[0]; got != "browsed" {
		t.Errorf("check first %q", got)
	}
}

func TestClumpsAreJudgedBySpreadAndStemsToo(t *testing.T) {
	in := Input{Kind: clump(), Planted: planted("2010-10-01"), On: date("2015-08-10"), Measures: []Measure{
		{Day: date("2014-07-25"), Stems: count(20)},
		{Day: date("2015-07-25"), SpreadCm: cm(20), Stems: count(3)}}}
	small, found := grow(t, in).finding(SmallForAge)
	if !found {
		t.Fatalf("findings %+v of a clump of 20 cm where 55 is usual, with 3 stems for 20", grow(t, in).Findings)
	}
	if len(small.Evidence) != 3 || small.Evidence[0].Say != "spread" || small.Evidence[1].Say != "stems" || *small.Evidence[1].CountBefore != 20 {
		t.Errorf("evidence %+v", small.Evidence)
	}
}

func TestBulbsAreJudgedByNumberNotHeight(t *testing.T) {
	in := Input{Kind: kindNamed(t, "tulipa-queen-of-night"), Planted: planted("2013-11"), Count: count(30), On: date("2015-05-20"),
		Measures: []Measure{{Day: date("2015-05-12"), HeightCm: cm(20), Alive: count(29)}}}
	if result := grow(t, in); len(result.Findings) != 0 {
		t.Errorf("29 of 30 short tulips gave %+v", result.Findings)
	}
	in.Measures[0].Alive = count(8)
	small, found := grow(t, in).finding(SmallForAge)
	if !found || *small.Evidence[0].Count != 8 || *small.Evidence[0].CountBefore != 30 {
		t.Errorf("8 of 30 tulips gave %+v", small)
	}
}

func TestReachedAndOutgrown(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2003"), On: date("2015-10-10"), Measures: []Measure{tall("2014-10-01", 150), tall("2015-10-01", 151)}}
	if _, found := grow(t, in).finding(Reached); !found {
		t.Errorf("findings %+v of a shrub at its size, want %s", grow(t, in).Findings, Reached)
	}
	in.Measures[1] = tall("2015-10-01", 215)
	outgrown, found := grow(t, in).finding(Outgrown)
	if !found || *outgrown.Evidence[0].ExpectedCm != [2]float64{130, 170} {
		t.Errorf("215 cm of a kind of 130 to 170 gave %+v", grow(t, in).Findings)
	}
}

func TestInheritedShrubIsNotJudgedByAnAgeNobodyKnows(t *testing.T) {
	in := Input{Kind: shrub(), On: date("2015-07-10"), Measures: []Measure{tall("2015-05-01", 40)}}
	result := grow(t, in)
	if len(result.Findings) != 0 || result.Unknown != "" || len(result.Band) == 0 {
		t.Errorf("got %+v", result)
	}
	in.Measures = nil
	if got := grow(t, in).Unknown; got != "start" {
		t.Errorf("without date and measure: %q, want start", got)
	}
	in.Kind.HeightCm = garden.Range{}
	if got := grow(t, in).Unknown; got != "kind-height" {
		t.Errorf("without a height of the kind: %q", got)
	}
}

func TestTheSouthIsHalfAYearApart(t *testing.T) {
	north := Input{Kind: clump(), Planted: planted("2013-10-01"), On: date("2015-07-10"), Measures: []Measure{tall("2015-07-01", 45)}}
	south := Input{Kind: clump(), Planted: planted("2014-04-02"), On: date("2016-01-09"), Measures: []Measure{tall("2015-12-31", 45)}, Southern: true}
	a, b := grow(t, north), grow(t, south)
	near(t, "rate", b.Rate.P50, a.Rate.P50, 0.02)
	if len(a.Findings) != len(b.Findings) {
		t.Errorf("findings %+v in the north, %+v in the south", a.Findings, b.Findings)
	}
}

func TestWhatComesLaterChangesNothingNow(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2012-10-11"), HeightCm: cm(40), On: date("2015-07-10"), Measures: []Measure{tall("2015-05-05", 58), tall("2014-09-10", 56)}}
	later := in
	later.Measures = append([]Measure{tall("2015-07-11", 400)}, in.Measures[1], in.Measures[0])
	later.Work = []Work{{Day: date("2015-07-11"), What: "cut back"}}
	if a, b := asJSON(t, grow(t, in)), asJSON(t, grow(t, later)); a != b {
		t.Errorf("today's answer changed from\n%s to\n%s", a, b)
	}
}

func TestErrorsNameTheField(t *testing.T) {
	good := Input{Kind: shrub(), On: date("2015-07-10")}
	for want, spoil := range map[string]func(*Input){
		"heightCm -4":                              func(in *Input) { in.HeightCm = cm(-4) },
		"potL 1e+06":                               func(in *Input) { in.PotL = cm(1e6) },
		"measures[0].heightCm NaN":                 func(in *Input) { in.Measures = []Measure{tall("2015-05-05", math.NaN())} },
		"measures[0].spreadCm -1":                  func(in *Input) { in.Measures = []Measure{{SpreadCm: cm(-1)}} },
		"work[0].heightLeftCm":                     func(in *Input) { in.Work = []Work{{HeightLeftCm: cm(1e9)}} },
		"latenessDays 1000 is outside -366 to 366": func(in *Input) { in.LatenessDays = 1000 },
		"measures has 10001":                       func(in *Input) { in.Measures = make([]Measure, mostMeasures+1) },
		"work has 2001":                            func(in *Input) { in.Work = make([]Work, mostWork+1) },
		"on 0201-06-01":                            func(in *Input) { in.On = garden.DayOf(201, 6, 1) },
		"planted 0201-04-01": func(in *Input) {
			in.Planted = &garden.PartialDate{First: garden.DayOf(201, 4, 1), Last: garden.DayOf(201, 4, 30)}
		},
		"measures[0].day 2201": func(in *Input) { in.Measures = []Measure{{Day: garden.DayOf(2201, 1, 1)}} },
		"kind.heightCm":        func(in *Input) { in.Kind.HeightCm = garden.Range{100, 50} },
		"kind.yearsToSize":     func(in *Input) { in.Kind.YearsToSize = -1 },
		"must run forwards":    func(in *Input) { in.From, in.To = day(date("2015-01-01")), day(date("2014-01-01")) },
	} {
		in := good
		spoil(&in)
		if _, err := Grow(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one with %q", err, want)
		}
	}
}

func TestBandsAreOrderedWhateverIsKnown(t *testing.T) {
	kinds := catalogue(t)
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t, kinds)
		for range rapid.IntRange(0, 6).Draw(t, "measures") {
			day := garden.Day(rapid.Int32Range(int32(date("2014-01-01")), int32(date("2026-07-10"))).Draw(t, "day"))
			in.Measures = append(in.Measures, Measure{Day: day, HeightCm: cm(rapid.Float64Range(0, 1500).Draw(t, "height"))})
		}
		result, err := Grow(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, band := range [][]BandDay{result.Band, result.Own} {
			for i, b := range band {
				if !(b.Lo >= 0 && b.Lo <= b.Mid && b.Mid <= b.Hi && b.Hi < 1e6) || i > 0 && b.Day <= band[i-1].Day {
					t.Fatalf("band %+v", b)
				}
			}
		}
		if r := result.Rate; r != nil && !(r.P10 > 0 && r.P10 <= r.P50 && r.P50 <= r.P90) {
			t.Fatalf("rate %+v", r)
		}
		if r := result.Reaches; r != nil && !(r.From <= r.Year && r.Year <= r.To) {
			t.Fatalf("reaches %+v", r)
		}
		if _, err := json.Marshal(result); err != nil {
			t.Fatal(err)
		}
	})
}

func TestNothingMeasuredRaisesNoFinding(t *testing.T) {
	kinds := catalogue(t)
	rapid.Check(t, func(t *rapid.T) {
		if result, err := Grow(anyInput(t, kinds)); err != nil || len(result.Findings) > 0 || result.Rate != nil {
			t.Fatalf("%+v, %v", result, err)
		}
	})
}

func TestMeasuresAtTheExpectationRaiseNoAlarm(t *testing.T) {
	kinds := catalogue(t)
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t, kinds)
		if in.Planted == nil || taller(in.HeightCm, in.Kind) {
			return
		}
		for _, w := range in.Work {
			if taller(w.HeightLeftCm, in.Kind) {
				return
			}
		}
		band, err := Grow(in)
		if err != nil {
			t.Fatal(err)
		}
		for i := rapid.IntRange(0, 20).Draw(t, "first"); i < len(band.Band); i += rapid.IntRange(1, 40).Draw(t, "step") {
			if b := band.Band[i]; b.Day <= in.On && b.Mid > 0 {
				in.Measures = append(in.Measures, Measure{Day: b.Day, HeightCm: cm(b.Mid)})
			}
		}
		result, err := Grow(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range result.Findings {
			if f.Finding != Reached {
				t.Fatalf("%+v", f)
			}
		}
	})
}

// taller says whether a recorded height is above what its kind grows to at least.
func taller(height *float64, kind garden.Kind) bool {
	return height != nil && *height > kind.HeightCm[0]
}

func asJSON(t *testing.T, value any) string {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %v, want %v within %v", what, got, want, tolerance)
	}
}

func TestKindCutEachWinterMakesRootsFirstToo(t *testing.T) {
	kind := kindNamed(t, "hydrangea-paniculata")
	in := Input{Kind: kind, Planted: planted("2015-03-21"), Form: "pot", PotL: cm(7), HeightCm: cm(60), On: date("2015-07-10"), LatenessDays: -11,
		Measures: []Measure{tall("2015-04-04", 60), tall("2015-05-02", 68), tall("2015-06-06", 82), tall("2015-07-04", 96), tall("2015-07-08", 97)}}
	result := grow(t, in)
	if len(result.Findings) != 0 {
		t.Errorf("97 cm in its first season gave %+v", result.Findings)
	}
	if july := result.on(t, "2015-07-08"); !(july.Lo < 97 && july.Hi > 80 && july.Hi < 140) {
		t.Errorf("band %+v of a first season from 60 cm", july)
	}
	if result.Reaches == nil || result.Reaches.Year < 2018 {
		t.Errorf("reaches %+v, want as many years as its yearsToSize, 5, say", result.Reaches)
	}
}

func TestNothingIsSmallInItsFirstSeason(t *testing.T) {
	for name, in := range map[string]Input{
		"woody": {Kind: shrub(), Planted: planted("2015-03-01"), HeightCm: cm(100), On: date("2015-10-10"), Measures: []Measure{tall("2015-10-01", 80)}},
		"clump": {Kind: clump(), Planted: planted("2015-03-01"), On: date("2015-07-20"), Measures: []Measure{tall("2015-07-15", 9)}},
	} {
		if f, found := grow(t, in).finding(SmallForAge); found {
			t.Errorf("%s: %+v", name, f)
		}
	}
}

func TestAnOldClumpAtItsSizeIsNotStalled(t *testing.T) {
	in := Input{Kind: kindNamed(t, "helleborus-hybridus"), On: date("2012-05-20"),
		Measures: []Measure{tall("2012-04-07", 42), tall("2012-04-20", 42), tall("2012-05-06", 42)}}
	if f, found := grow(t, in).finding(Stalled); found {
		t.Errorf("42 cm of a kind of 40 to 50 gave %+v", f)
	}
}

func TestGrowthThatStopsAfterMidsummerIsNotAStall(t *testing.T) {
	in := Input{Kind: kindNamed(t, "rosa-ballerina"), Planted: planted("2011-03-01"), On: date("2014-10-10"),
		Work: []Work{{Day: date("2014-02-20"), What: "pruned", HeightLeftCm: cm(44)}},
		Measures: []Measure{tall("2014-04-06", 50), tall("2014-05-10", 62), tall("2014-06-07", 80), tall("2014-07-05", 94), tall("2014-08-03", 94),
			tall("2014-08-20", 93), tall("2014-09-02", 90), tall("2014-09-15", 88), tall("2014-09-28", 92)}}
	if f, found := grow(t, in).finding(Stalled); found {
		t.Errorf("44 cm grown gave %+v", f)
	}
}

func TestAStallIsForgottenOnceGrowthBeginsAgain(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2011-10-11"), HeightCm: cm(40), Measures: []Measure{
		tall("2015-04-01", 86), tall("2015-06-10", 87), tall("2015-08-05", 88)}}
	for day, want := range map[string]bool{"2015-08-10": true, "2016-02-10": true, "2016-05-10": false} {
		in.On = date(day)
		if _, found := grow(t, in).finding(Stalled); found != want {
			t.Errorf("on %s the stall of 2015 is found: %v, want %v", day, found, want)
		}
	}
}

func TestAPlantThatStandsStillHasNotReachedItsSize(t *testing.T) {
	in := Input{Kind: kindNamed(t, "weigela-florida"), Planted: planted("2013-03-16"), Form: "pot", PotL: cm(5), HeightCm: cm(55), On: date("2015-07-10")}
	for _, day := range []string{"2014-04-05", "2014-05-10", "2014-06-07", "2014-07-05", "2014-08-02", "2014-09-06", "2015-04-04", "2015-05-02", "2015-06-06", "2015-07-04"} {
		in.Measures = append(in.Measures, tall(day, 91))
	}
	result := grow(t, in)
	if _, found := result.finding(Stalled); !found {
		t.Errorf("findings %+v, want %s", result.Findings, Stalled)
	}
	if f, found := result.finding(Reached); found || result.Reaches != nil {
		t.Errorf("91 cm of a kind of 180 to 250: %+v, reaches %+v", f, result.Reaches)
	}
	if result.EventualCm.P10 < 180 || result.EventualCm.P90 > 250 {
		t.Errorf("eventual height %+v is outside the kind's 180 to 250", result.EventualCm)
	}
}

func TestLastYearsHeightSaysNothingOfAPlantThatDiedDown(t *testing.T) {
	in := Input{Kind: clump(), Planted: planted("2012-10-01"), On: date("2014-11-10"), Measures: []Measure{tall("2014-08-09", 100)}}
	if _, found := grow(t, in).finding(Reached); !found {
		t.Errorf("in the autumn of its second season: %+v", grow(t, in).Findings)
	}
	in.On = date("2015-07-10")
	if result := grow(t, in); len(result.Findings) != 0 {
		t.Errorf("a year later: %+v", result.Findings)
	}
}

func TestThisYearsSpreadIsNotMixedWithLastYearsHeight(t *testing.T) {
	in := Input{Kind: clump(), Planted: planted("2010-10-01"), On: date("2015-07-10"), Measures: []Measure{
		tall("2014-07-10", 30), {Day: date("2015-06-25"), SpreadCm: cm(56)}}}
	if result := grow(t, in); len(result.Findings) != 0 || result.Rate.P50 < 0.9 {
		t.Errorf("a clump of its full spread: rate %+v, findings %+v", result.Rate, result.Findings)
	}
}
