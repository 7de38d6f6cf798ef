package water

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

func shown(out Output) string {
	text, err := json.Marshal(out)
	if err != nil {
		return fmt.Sprintf("not JSON: %v (%+v)", err, out)
	}
	return string(text)
}

// drawnDays is a season's weather with gaps.
func drawnDays(t *rapid.T) []Day {
	n := rapid.IntRange(20, 120).Draw(t, "days")
	first := on("2015-04-01") + garden.Day(rapid.IntRange(0, 200).Draw(t, "first"))
	var list []Day
	for i := range n {
		minC := rapid.Float64Range(-10, 25).Draw(t, "minC")
		day := Day{Day: first + garden.Day(i), MinC: &minC, MaxC: number(minC + rapid.Float64Range(0, 20).Draw(t, "range")), RainMm: number(0)}
		switch rapid.IntRange(0, 12).Draw(t, "kind of day") {
		case 0:
			continue
		case 1:
			day.RainMm = nil
		case 2, 3:
			day.RainMm = number(rapid.Float64Range(0, 40).Draw(t, "rain"))
		}
		list = append(list, day)
	}
	return list
}

func drawnPlant(t *rapid.T, today garden.Day) Plant {
	p := Plant{
		Kind: garden.Kind{
			Habit:       rapid.SampledFrom([]string{"shrub", "climber", "tree", "perennial", "bulb", "annual", "biennial", "grass", "fern"}).Draw(t, "habit"),
			Foliage:     rapid.SampledFrom([]string{"evergreen", "semi-evergreen", "deciduous", "dies-down", "winter-green"}).Draw(t, "foliage"),
			Moisture:    rapid.SampledFrom([]string{"", "dry", "drained", "moist", "wet"}).Draw(t, "moisture"),
			SpreadCm:    garden.Range{rapid.Float64Range(0, 100).Draw(t, "least spread"), rapid.Float64Range(100, 900).Draw(t, "most spread")},
			YearsToSize: rapid.Float64Range(0, 20).Draw(t, "years"),
		},
		Form:      rapid.SampledFrom([]string{"", "bare-root", "pot", "bulb", "plug", "seed", "division", "cutting"}).Draw(t, "form"),
		Soil:      rapid.SampledFrom([]string{"", "sand", "loam", "clay", "silty clay loam"}).Draw(t, "soil"),
		Container: rapid.Bool().Draw(t, "container"),
		RainShare: rapid.Ptr(rapid.Float64Range(0, 1), true).Draw(t, "rain share"),
		PotL:      rapid.Ptr(rapid.Float64Range(0, 60), true).Draw(t, "pot"),
		DepthCm:   rapid.Ptr(rapid.Float64Range(-10, 30), true).Draw(t, "depth"),
		AreaM2:    rapid.Ptr(rapid.Float64Range(0.01, 5), true).Draw(t, "area"),
		On:        today,
	}
	if ago := rapid.IntRange(-1, 900).Draw(t, "planted so long ago"); ago >= 0 {
		day := today - garden.Day(ago)
		p.Planted = &garden.PartialDate{First: day, Last: day}
	}
	for range rapid.IntRange(0, 3).Draw(t, "waterings") {
		p.Given = append(p.Given, Given{today - garden.Day(rapid.IntRange(0, 100).Draw(t, "watered so long ago")), number(rapid.Float64Range(0, 10).Draw(t, "litres"))})
	}
	return p
}

func drawnGarden(t *rapid.T) (lat float64, list []Day, p Plant) {
	lat = rapid.Float64Range(-65, 65).Draw(t, "latitude")
	list = drawnDays(t)
	today := on("2015-11-01")
	if len(list) > 0 {
		today = list[len(list)-1].Day + garden.Day(rapid.IntRange(0, 3).Draw(t, "days since"))
	}
	return lat, list, drawnPlant(t, today)
}

func mustReckon(t *rapid.T, lat float64, list []Day, p Plant) Output {
	out, err := Reckon(Input{Plant: p, Lat: lat, Days: list})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// slack is what rounding to 7 figures can move.
func slack(out Output) float64 { return 1e-5 * (1 + *out.TAWMm) }

func TestDepletionLiesBetweenNothingAndAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, list, p := drawnGarden(t)
		out := mustReckon(t, lat, list, p)
		if out.Unknown != "" {
			return
		}
		if !(*out.DepletionMm >= 0 && *out.DepletionMm <= *out.TAWMm+slack(out)) || !(*out.RAWMm < *out.TAWMm) {
			t.Fatal(shown(out))
		}
		if !(*out.Stress >= 0 && *out.Stress <= 1) || math.IsInf(*out.TAWMm, 0) || out.Asks != (out.Litres > 0) || out.Asks != (out.Quiet == "") {
			t.Fatal(shown(out))
		}
	})
}

func TestMoreRainIsNeverDrier(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		lat, list, p := drawnGarden(t)
		before := mustReckon(t, lat, list, p)
		for i := range list {
			if list[i].RainMm != nil && rapid.IntRange(0, 5).Draw(t, "wetter") == 0 {
				list[i].RainMm = number(*list[i].RainMm + rapid.Float64Range(0, 30).Draw(t, "more rain"))
			}
		}
		after := mustReckon(t, lat, list, p)
		if before.Unknown != "" || after.Unknown != "" {
			return
		}
		compared++
		if *after.DepletionMm > *before.DepletionMm+slack(before) || *after.DryDays > *before.DryDays {
			t.Fatalf("before %s, after more rain %s", shown(before), shown(after))
		}
	})
	if compared < 20 {
		t.Errorf("only %d gardens could be compared", compared)
	}
}

func TestMulchNeverMakesDrier(t *testing.T) {
	helped := 0
	rapid.Check(t, func(t *rapid.T) {
		lat, list, p := drawnGarden(t)
		bare := mustReckon(t, lat, list, p)
		p.Mulch = []Mulch{{p.On - garden.Day(rapid.IntRange(0, 300).Draw(t, "mulched so long ago")), rapid.Ptr(rapid.Float64Range(0, 10), true).Draw(t, "depth")}}
		mulched := mustReckon(t, lat, list, p)
		if bare.Unknown != "" || mulched.Unknown != "" {
			return
		}
		if *mulched.DepletionMm > *bare.DepletionMm+slack(bare) || *mulched.DryDays > *bare.DryDays {
			t.Fatalf("bare %s, mulched %s", shown(bare), shown(mulched))
		}
		if *mulched.DepletionMm < *bare.DepletionMm-slack(bare) {
			helped++
		}
	})
	if helped == 0 {
		t.Error("mulch never helped")
	}
}

func TestTheRefillFills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, list, p := drawnGarden(t)
		out := mustReckon(t, lat, list, p)
		if out.Unknown != "" || p.Planted != nil && p.Planted.First > p.On {
			return
		}
		litres := *out.RefillL + *out.ErrorMm*1e4 + 1e-6 // past any error
		p.Given = append(p.Given, Given{p.On, &litres})
		after := mustReckon(t, lat, list, p)
		if p.On > *out.AsOf && (after.Unknown != "" || *after.DepletionMm > slack(out) || after.Asks) {
			t.Fatalf("before %s, after %v l %s", shown(out), litres, shown(after))
		}
		if after.Asks && !out.EveryDay {
			t.Fatalf("asked again on the day of watering: %s", shown(after))
		}
	})
}

// What is asked for and given is not asked for again the day after, unless the
// answer said that the store does not last a warm day, or the day was hotter.
func TestWhatIsGivenIsNotAskedForAgainTheNextDay(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-60, 60).Draw(t, "latitude")
		var list []Day
		today := on("2015-07-15")
		if lat < 0 {
			today = on("2015-01-15")
		}
		for day := today - 300; day <= today+1; day++ {
			list = append(list, Day{Day: day, MinC: number(12), MaxC: number(24), RainMm: number(0)})
		}
		p := drawnPlant(t, today)
		out := mustReckon(t, lat, list[:len(list)-1], p)
		if !out.Asks || out.EveryDay || *out.ErrorMm > 0 {
			return
		}
		tried++
		p.Given = append(p.Given, Given{p.On, number(out.LitresAll)})
		p.On++
		if after := mustReckon(t, lat, list, p); after.Asks {
			t.Fatalf("asked %s, and after it %s", shown(out), shown(after))
		}
	})
	if tried < 5 {
		t.Errorf("only %d plants asked for water", tried)
	}
}

func BenchmarkReckon500Plantings(b *testing.B) {
	var list []Day
	for day := on("2011-01-01"); day <= on("2015-12-31"); day++ {
		season := math.Sin(float64(day) / 365 * 2 * math.Pi)
		list = append(list, Day{Day: day, MinC: number(6 + 6*season), MaxC: number(14 + 9*season), RainMm: number(float64(day % 5))})
	}
	p := Plant{Kind: garden.Kind{Habit: "shrub", Foliage: "deciduous", SpreadCm: garden.Range{100, 200}, YearsToSize: 6}, Soil: "loam", Planted: date("2014-11-01"), On: on("2015-08-01")}
	for b.Loop() {
		w, err := NewWeather(50, nil, list)
		if err != nil {
			b.Fatal(err)
		}
		for range 500 {
			if _, err := w.Reckon(p); err != nil {
				b.Fatal(err)
			}
		}
	}
}
