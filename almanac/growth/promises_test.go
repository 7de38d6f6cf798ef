package growth

import (
	"math"
	"slices"
	"testing"

	"haulm/almanac/stats"
	"haulm/garden"
	"pgregory.net/rapid"
)

// Common practice: roots in the first year, shoots in the second, flowers, and with
// them its full pace, in the third.
func TestRootsThenShootsThenFlowers(t *testing.T) {
	tree := kindsOfEachWay()[1] // in fifteen years, so that the curve is nearly straight
	in := Input{Kind: tree, Planted: planted("2012-11-15"), HeightCm: cm(120), On: date("2016-12-01"), From: day(date("2012-12-01"))}
	result := grow(t, in)
	var grew [4]float64
	for year := range grew {
		from, to := garden.DayOf(2012+year, 12, 1), garden.DayOf(2013+year, 12, 1)
		grew[year] = result.on(t, to.String()).Mid - result.on(t, from.String()).Mid
	}
	if !(grew[0] < 0.6*grew[1] && grew[1] < 0.9*grew[2]) {
		t.Errorf("it grows %.1f, %.1f and %.1f cm in its first three years", grew[0], grew[1], grew[2])
	}
	if math.Abs(grew[3]/grew[2]-1) > 0.15 {
		t.Errorf("it grows %.1f cm in its fourth year, after %.1f: the third should be at full pace", grew[3], grew[2])
	}
}

func TestWhatIsSownInItsPlaceIsNeverSlowed(t *testing.T) {
	in := Input{Kind: shrub(), Planted: planted("2012-11-15"), HeightCm: cm(30), On: date("2014-12-01")}
	sown := in
	sown.Form = "seed"
	if moved, never := grow(t, in).on(t, "2013-12-01").Mid, grow(t, sown).on(t, "2013-12-01").Mid; !(moved < never) {
		t.Errorf("after a year %.1f cm planted and %.1f sown", moved, never)
	}
}

func TestEventualHeightIsFittedWithinItsRange(t *testing.T) {
	kinds := catalogue(t)
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t, kinds)
		for range rapid.IntRange(1, 6).Draw(t, "measures") {
			day := garden.Day(rapid.Int32Range(int32(date("2014-01-01")), int32(in.On)).Draw(t, "day"))
			in.Measures = append(in.Measures, Measure{Day: day, HeightCm: cm(rapid.Float64Range(1, 2000).Draw(t, "height"))})
		}
		result, err := Judge(in)
		if err != nil {
			t.Fatal(err)
		}
		r := sizeRangeOf(in.Kind.HeightCm)
		if e := result.EventualCm; e != nil && !(e.P10 >= math.Exp(r.low)-0.1 && e.P90 <= math.Exp(r.low+r.width)+0.1) {
			t.Fatalf("eventual height %+v of a kind of %v", *e, in.Kind.HeightCm)
		}
	})
	tall, low := Input{Kind: shrub(), Planted: planted("2000"), On: date("2015-10-10"), Measures: []Measure{tall("2015-10-01", 165)}}, Input{}
	low = tall
	low.Measures = []Measure{{Day: date("2015-10-01"), HeightCm: cm(135)}}
	if a, b := grow(t, tall).EventualCm.P50, grow(t, low).EventualCm.P50; !(a > b+10) {
		t.Errorf("old shrubs of 165 and 135 cm are on the way to %v and %v", a, b)
	}
}

func TestWhichKindsAreCutEveryYear(t *testing.T) {
	for group, want := range map[string]way{
		"late-winter-hard": cutYearly, "clematis-3": cutYearly, "rose-repeating": cutYearly,
		"none": woodyGrowth, "after-flower": woodyGrowth, "late-winter-light": woodyGrowth, "rose-once": woodyGrowth,
		"clematis-1": woodyGrowth, "clematis-2": woodyGrowth, "wisteria": woodyGrowth, "summer-only": woodyGrowth,
	} {
		kind := shrub()
		kind.PruneGroup = group
		if got := wayOf(&kind); got != want {
			t.Errorf("a shrub of group %s grows by way %d, want %d", group, got, want)
		}
	}
	rose := kindNamed(t, "rosa-zephirine-drouhin")
	if got := wayOf(&rose); got != woodyGrowth {
		t.Errorf("a climbing rose grows by way %d: it is not cut down", got)
	}
}

func TestKindCutEveryYearRisesFromWhatWasLeft(t *testing.T) {
	in := Input{Kind: kindsOfEachWay()[2], Planted: planted("2005-03-01"), On: date("2015-10-10"), From: day(date("2015-02-01")),
		Work: []Work{{Day: date("2015-03-05"), What: "pruned", HeightLeftCm: cm(50)}}}
	result := grow(t, in)
	near(t, "after the cut", result.on(t, "2015-03-06").Mid, 50, 10)
	spring, summer, autumn := result.on(t, "2015-05-01").Mid, result.on(t, "2015-07-01").Mid, result.on(t, "2015-09-01").Mid
	if !(spring < summer && summer < autumn) {
		t.Errorf("it stands at %v, %v and %v", spring, summer, autumn)
	}
	near(t, "in autumn", autumn, math.Sqrt(130*170), 3)
	if early := summer - spring; !(early > autumn-summer) {
		t.Errorf("it rises by %v to July and %v after: a logistic slows", early, autumn-summer)
	}
}

func TestHerbaceousKindsTakeTheirPaceOfSeasons(t *testing.T) {
	for _, c := range []struct {
		pace    string
		years   float64
		seasons int
	}{{"quick", 1, 1}, {"ordinary", 2, 2}, {"slow", 2, 3}, {"slow", 4, 4}, {"slow", 9, 5}} {
		kind := clump()
		kind.Pace, kind.YearsToSize = c.pace, c.years
		in := Input{Kind: kind, Planted: planted("2009-10-01"), On: date("2015-10-01"), From: day(date("2009-11-01"))}
		result := grow(t, in)
		for season := 1; season <= 6; season++ {
			height := result.on(t, garden.DayOf(2009+season, 8, 1).String()).Mid
			if full := height > 0.97*math.Sqrt(90*110); full != (season >= c.seasons) {
				t.Errorf("%s, %v years: %v cm in season %d, want full from season %d", c.pace, c.years, height, season, c.seasons)
			}
		}
	}
}

func TestAClumpIsFullByTheStartOfFlower(t *testing.T) {
	result := grow(t, Input{Kind: clump(), Planted: planted("2010-10-01"), On: date("2015-10-01")})
	flower, later := result.on(t, "2015-07-01").Mid, result.on(t, "2015-08-05").Mid
	if !(flower > 0.93*later) {
		t.Errorf("%v cm at the start of flower and %v in August", flower, later)
	}
}

func TestAClumpCutBackOrDividedStartsAgain(t *testing.T) {
	in := Input{Kind: clump(), Planted: planted("2008-10-01"), On: date("2015-09-01"), From: day(date("2014-01-01"))}
	cutBack := in
	cutBack.Work = []Work{{Day: date("2015-05-25"), What: "cut back", HeightLeftCm: cm(15)}}
	result := grow(t, cutBack)
	near(t, "after the cut", result.on(t, "2015-05-26").Mid, 15, 6)
	if late, usual := result.on(t, "2015-07-01").Mid, grow(t, in).on(t, "2015-07-01").Mid; !(late < 0.9*usual) {
		t.Errorf("%v cm in July after a cut in May, %v without", late, usual)
	}
	divided := in
	divided.Work = []Work{{Day: date("2014-10-15"), What: "divided"}}
	if small, usual := grow(t, divided).on(t, "2015-08-01").Mid, grow(t, in).on(t, "2015-08-01").Mid; math.Abs(small/usual-firstOrdinary) > 0.02 {
		t.Errorf("%v cm in the season after dividing, %v without", small, usual)
	}
}

// The rate found is the maximum of prior times likelihood, by trying every rate and
// size: a shrub once measured, of known height when planted.
func TestTheRateIsTheMaximumAPosteriori(t *testing.T) {
	for _, height := range []float64{60, 80, 95, 120} {
		in := Input{Kind: shrub(), Planted: planted("2010-11-01"), HeightCm: cm(40), On: date("2013-11-01"), Measures: []Measure{tall("2013-10-20", height)}}
		p := newPlanner(&in, in.On)
		course, _ := p.course()
		where := course.spot(p.calendar.in(date("2013-10-20")))
		best, rate := math.Inf(1), 0.0
		for logRate := -1.5; logRate <= 1; logRate += 0.002 {
			for place := -2.5; place <= 2.5; place += 0.05 {
				at := course.at(where, p.size.own(theta{ofRate: logRate, ofSize: place}))
				chance := math.Hypot(seasonSD/math.Sqrt(where.seasons)*at.by[ofRate], at.startErr)
				sd := math.Hypot(measuringError(math.Max(height, at.cm)), chance)
				if off := math.Pow((at.cm-height)/sd, 2) + math.Pow(logRate/rateSD, 2) + place*place; off < best {
					best, rate = off, math.Exp(logRate)
				}
			}
		}
		if got := grow(t, in).Rate.P50; math.Abs(got/rate-1) > 0.03 {
			t.Errorf("%v cm: rate %v, and %v by trying all", height, got, rate)
		}
	}
}

// small-for-age is said exactly where the rate that is shown is under 0.6, seven in
// ten sure.
func TestSmallIsSaidFromSevenInTenOn(t *testing.T) {
	said := 0
	for height := 40.0; height < 130; height++ {
		in := Input{Kind: shrub(), Planted: planted("2010-11-01"), HeightCm: cm(40), On: date("2013-11-01"), Measures: []Measure{tall("2013-10-20", height)}}
		result := grow(t, in)
		sd := math.Log(result.Rate.P90/result.Rate.P10) / (2 * tenth)
		sure := stats.NormalCDF(math.Log(0.6/result.Rate.P50) / sd)
		small, found := result.finding(SmallForAge)
		if found != (sure >= smallSure) && math.Abs(sure-smallSure) > 1e-3 {
			t.Errorf("%v cm: said %v where it is %.3f sure", height, found, sure)
		}
		if found {
			said++
			near(t, "probability", small.Probability, sure, 1e-3)
		}
	}
	if said < 5 || said > 60 {
		t.Errorf("said of %d heights in 90", said)
	}
}

func TestStalledNeedsMuchToExpectAndLittleSeen(t *testing.T) {
	at := func(cms ...float64) Input {
		in := Input{Kind: shrub(), Planted: planted("2011-10-11"), HeightCm: cm(40), On: date("2015-08-10")}
		for i, day := range []string{"2015-04-01", "2015-06-10", "2015-08-05"} {
			in.Measures = append(in.Measures, tall(day, cms[i]))
		}
		return in
	}
	for name, c := range map[string]struct {
		in   Input
		want bool
	}{
		"nothing grown":           {at(86, 86, 87), true},
		"a third of the expected": {at(86, 91, 96), false},
		"all of it":               {at(86, 98, 112), false},
		"little to expect":        {at(141, 141, 142), false},
	} {
		if f, found := grow(t, c.in).finding(Stalled); found != c.want {
			t.Errorf("%s: %+v, want found %v", name, f, c.want)
		}
	}
}

// "Reaches 90 % of its size in 2029" is the year in which its own course does.
func TestItReachesItsSizeWhenItsOwnCourseDoes(t *testing.T) {
	for _, height := range []float64{60, 75, 90} {
		in := Input{Kind: shrub(), Planted: planted("2012-11-01"), HeightCm: cm(40), On: date("2015-11-01"), Measures: []Measure{tall("2015-10-20", height)}, To: day(date("2050-01-01"))}
		result := grow(t, in)
		passed := slices.IndexFunc(result.Own, func(b BandDay) bool { return b.Mid >= reachedShare*result.EventualCm.P50 })
		if passed < 0 || result.Reaches == nil {
			t.Fatalf("%v cm: never passed, reaches %+v", height, result.Reaches)
		}
		if year := result.Own[passed].Day.Year(); year != result.Reaches.Year {
			t.Errorf("%v cm: its course passes in %d, reaches %+v", height, year, *result.Reaches)
		}
	}
}
