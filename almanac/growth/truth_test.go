package growth

import (
	"math"
	"math/rand/v2"
	"testing"

	"haulm/garden"
)

// Invented plantings whose own rate and size are known, measured with a tape: what
// the model says must hold as often as it claims.
const (
	truths    = 600
	trueSeed1 = 20261124
)

// aTruth draws one planting of a kind, grows it by the model with a rate and a size
// of its own, and measures it three times a season with error.
func aTruth(draw *rand.Rand, kind garden.Kind, logRate float64) Input {
	in := Input{Kind: kind, Planted: planted("2011-10-20"), HeightCm: cm(35), On: date("2015-08-20")}
	p := newPlanner(&in, in.On)
	course, _ := p.course()
	truth := theta{ofRate: logRate, ofSize: draw.NormFloat64()}
	for year := 2012; year <= 2015; year++ {
		stray := truth
		if _, rises := course.(*seasonal); rises && year < 2015 {
			stray[ofRate] = rateSD * draw.NormFloat64() // each year anew
		}
		stray[ofLate] = timingSD * draw.NormFloat64()
		for _, day := range []garden.Day{garden.DayOf(year, 5, 10), garden.DayOf(year, 6, 20), garden.DayOf(year, 8, 10)} {
			where := course.spot(p.calendar.in(day))
			if !where.judged {
				continue
			}
			height := course.at(where, p.size.own(stray)).cm
			height += measuringError(height) * draw.NormFloat64()
			in.Measures = append(in.Measures, Measure{Day: day, HeightCm: cm(math.Max(1, height))})
		}
	}
	return in
}

func TestRatesHoldAsOftenAsTheyClaim(t *testing.T) {
	for name, kind := range map[string]garden.Kind{"woody": shrub(), "clump": clump()} {
		draw := rand.New(rand.NewPCG(trueSeed1, 1))
		inside := 0
		for range truths {
			logRate := rateSD * draw.NormFloat64()
			result := judged(t, aTruth(draw, kind, logRate))
			if rate := math.Exp(logRate); rate >= result.Rate.P10 && rate <= result.Rate.P90 {
				inside++
			}
		}
		share := float64(inside) / truths
		t.Logf("%s: the true rate is within the 80 %% band in %.1f %%", name, 100*share)
		if share < 0.74 || share > 0.96 {
			t.Errorf("%s: the true rate is within the 80 %% band in %.1f %%", name, 100*share)
		}
	}
}

func TestHealthyPlantsAreLeftAloneAndFailingOnesNamed(t *testing.T) {
	for name, kind := range map[string]garden.Kind{"woody": shrub(), "clump": clump()} {
		draw := rand.New(rand.NewPCG(trueSeed1, 2))
		alarms, named := 0, 0
		for range truths {
			healthy := math.Max(math.Log(0.75), rateSD*draw.NormFloat64())
			if _, found := judged(t, aTruth(draw, kind, healthy)).finding(SmallForAge); found {
				alarms++
			}
			failing := math.Log(0.25 + 0.15*draw.Float64())
			if _, found := judged(t, aTruth(draw, kind, failing)).finding(SmallForAge); found {
				named++
			}
		}
		t.Logf("%s: %.1f alarms per hundred healthy, %.1f %% of failing named", name, 100*float64(alarms)/truths, 100*float64(named)/truths)
		if float64(alarms)/truths > 0.01 {
			t.Errorf("%s: %d of %d healthy plants were called small", name, alarms, truths)
		}
		if float64(named)/truths < 0.9 {
			t.Errorf("%s: only %d of %d failing plants were called small", name, named, truths)
		}
	}
}

func TestBandsHoldTheHeightsOfHealthyPlants(t *testing.T) {
	for name, kind := range map[string]garden.Kind{"woody": shrub(), "clump": clump()} {
		draw := rand.New(rand.NewPCG(trueSeed1, 3))
		inside, all := 0, 0
		for range truths / 6 {
			in := aTruth(draw, kind, rateSD*draw.NormFloat64())
			measures := in.Measures
			in.Measures = nil
			p := newPlanner(&in, in.On)
			course, _ := p.course()
			g := &grown{planner: p, course: course, fitter: p.newFitter(course)}
			for _, m := range measures {
				lo, _, hi := g.percentiles(g.fitter.prior(), course.spot(p.calendar.in(m.Day)), true)
				all++
				if *m.HeightCm >= lo && *m.HeightCm <= hi {
					inside++
				}
			}
		}
		share := float64(inside) / float64(all)
		t.Logf("%s: %.1f %% of heights are within the 80 %% band", name, 100*share)
		if share < 0.65 || share > 0.9 {
			t.Errorf("%s: %.1f %% of heights are within the 80 %% band", name, 100*share)
		}
	}
}

func judged(t testing.TB, in Input) Result {
	t.Helper()
	result, err := Judge(in)
	if err != nil {
		t.Fatal(err)
	}
	if result.Rate == nil {
		t.Fatal("no rate from measures")
	}
	return result
}

// A garden of 500 plantings with five years of measures, every kind of the
// catalogue in turn: what assess asks of growth.
func BenchmarkJudge500PlantingsOver5Years(b *testing.B) {
	inputs := benchmarkGarden(b)
	b.ReportAllocs()
	for b.Loop() {
		for i := range inputs {
			if _, err := Judge(inputs[i]); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkGrowOnePlanting(b *testing.B) {
	in := benchmarkGarden(b)[0]
	for b.Loop() {
		if _, err := Grow(in); err != nil {
			b.Fatal(err)
		}
	}
}

func benchmarkGarden(b *testing.B) []Input {
	kinds := catalogue(b)
	draw := rand.New(rand.NewPCG(trueSeed1, 4))
	inputs := make([]Input, 500)
	for i := range inputs {
		inputs[i] = aTruth(draw, kinds[i%len(kinds)], rateSD*draw.NormFloat64())
		inputs[i].Planted = planted("2010-10-20")
	}
	return inputs
}
