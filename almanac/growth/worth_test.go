package growth

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"haulm/almanac/stats"
	"haulm/garden"
)

// measuredShrub was planted in 2011 and measured at a share of what is usual.
func measuredShrub(share float64, on string, days ...string) Input {
	in := Input{Kind: shrub(), Planted: planted("2011-10-11"), HeightCm: cm(40), On: date("2016-07-10")}
	usual := in
	for _, day := range days {
		height := 40 + share*(growthOn(usual, day)-40)
		in.Measures = append(in.Measures, tall(day, height))
	}
	in.On = date(on)
	return in
}

func growthOn(in Input, day string) float64 {
	result, err := Grow(in)
	if err != nil {
		panic(err)
	}
	for _, b := range result.Band {
		if b.Day >= date(day) {
			return b.Mid
		}
	}
	panic("no band on " + day)
}

func worthOf(t *testing.T, in Input) float64 {
	t.Helper()
	bits, err := Worth(in)
	if err != nil {
		t.Fatal(err)
	}
	return bits
}

// TestAHeightIsWorthMeasuringWhereItMaySettleSomething: of a shrub that is behind, more
// a year after it was measured than a month; of a clump once it has risen in a season
// in which nobody measured it; not of what is well ahead, just measured, never
// measured, or in its first season.
func TestAHeightIsWorthMeasuringWhereItMaySettleSomething(t *testing.T) {
	behind := func(on string) float64 { return worthOf(t, measuredShrub(0.4, on, "2013-07-01")) }
	if soon, later := behind("2013-08-01"), behind("2014-08-01"); !(0 < soon && soon < later && later < 0.3) {
		t.Errorf("a shrub: worth %v after a month, %v after a year", soon, later)
	}
	clumpOn := func(on string, measured ...string) float64 {
		in := Input{Kind: clump(), Planted: planted("2011-03-10"), On: date(on)}
		for _, day := range measured {
			in.Measures = append(in.Measures, tall(day, 98))
		}
		return worthOf(t, in)
	}
	if risen := clumpOn("2014-07-05", "2013-07-05"); risen < 0.1 {
		t.Errorf("a clump: worth %v", risen)
	}
	if again, winter := clumpOn("2014-07-25", "2013-07-05", "2014-07-05"), clumpOn("2014-12-10", "2013-07-05"); again > 0.02 || winter != 0 {
		t.Errorf("a clump: worth %v three weeks after, %v in winter", again, winter)
	}
	for name, in := range map[string]Input{
		"ahead":             measuredShrub(1.3, "2015-08-01", "2013-07-01", "2014-07-01", "2015-07-01"),
		"measured today":    measuredShrub(0.62, "2015-08-01", "2013-07-01", "2015-08-01"),
		"never measured":    measuredShrub(0.62, "2015-08-01"),
		"its first season":  measuredShrub(0.62, "2012-07-01", "2012-04-01"),
		"of unknown height": {Kind: garden.Kind{Habit: "shrub"}, Planted: planted("2011-10-11"), On: date("2015-08-01"), Measures: []Measure{tall("2014-01-01", 30)}},
	} {
		if bits := worthOf(t, in); bits != 0 {
			t.Errorf("%s: worth %v bits", name, bits)
		}
	}
	if _, err := Worth(Input{Kind: shrub(), HeightCm: cm(-1), On: date("2015-08-01")}); err == nil {
		t.Error("a height below nothing is taken")
	}
}

// TestBitsOfAHeightAreThoseCounted: held against its definition on a hundred thousand
// drawn plants whose rate is then measured with an error.
func TestBitsOfAHeightAreThoseCounted(t *testing.T) {
	chance := rand.New(rand.NewPCG(3, 4))
	b, after := belief{math.Log(0.7), 0.09}, 0.02
	noise := math.Sqrt(1 / (1/after - 1/b.variance)) // of a measure that leaves that variance
	counts := map[int][2]float64{}                   // by what was measured: small or not
	for range 1_000_000 {
		rate := b.mean + math.Sqrt(b.variance)*chance.NormFloat64()
		bin := int(math.Floor((rate + noise*chance.NormFloat64()) * 25))
		n := counts[bin]
		if rate < math.Log(smallRate) {
			n[0]++
		} else {
			n[1]++
		}
		counts[bin] = n
	}
	left, small, all := 0.0, 0.0, 0.0
	for _, n := range counts {
		left += (n[0] + n[1]) * stats.Unsure(n[0]/(n[0]+n[1]))
		small, all = small+n[0], all+n[0]+n[1]
	}
	want := stats.Unsure(small/all) - left/all
	if got := b.settledBy(after); math.Abs(got-want) > 0.01 {
		t.Errorf("%v bits, and %v counted", got, want)
	}
}

// TestAnyHeightsWorthIsSound: whatever was measured of whatever kind.
func TestAnyHeightsWorthIsSound(t *testing.T) {
	kinds := []garden.Kind{shrub(), clump()}
	rapid.Check(t, func(t *rapid.T) {
		in := Input{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), Planted: planted("2009-10-11"), On: date("2012-01-01") + garden.Day(rapid.IntRange(0, 1400).Draw(t, "on"))}
		for range rapid.IntRange(0, 8).Draw(t, "measures") {
			in.Measures = append(in.Measures, Measure{Day: date("2009-11-01") + garden.Day(rapid.IntRange(0, 2200).Draw(t, "day")), HeightCm: cm(float64(rapid.IntRange(1, 400).Draw(t, "cm")))})
		}
		bits, err := Worth(in)
		if err != nil || !(bits >= 0 && bits <= 1) || bits != stats.RoundProbability(bits) {
			t.Fatalf("%v bits, %v", bits, err)
		}
	})
}
