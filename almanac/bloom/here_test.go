package bloom

import (
	"math"
	"testing"

	"haulm/almanac/heat"
	"haulm/garden"
)

// usualYear are the monthly normals of a cool temperate garden, invented.
func usualYear() []garden.Normal {
	normals := make([]garden.Normal, 12)
	for month := range normals {
		mean := 11 - 7*math.Cos(2*math.Pi*(float64(month)-0.5)/12)
		normals[month] = garden.Normal{MinC: mean - 4, MaxC: mean + 4}
	}
	return normals
}

// weatherOf is a year's days, each some degrees off its normal.
func weatherOf(year int, off func(garden.Day) float64) []heat.Day {
	normals, err := heat.NewNormals(usualYear())
	if err != nil {
		panic(err)
	}
	var days []heat.Day
	for d := day(year, 1, 1); d <= day(year, 12, 31); d++ {
		low, high := normals.On(d)
		low, high = low+off(d), high+off(d)
		days = append(days, heat.Day{Day: d, MinC: &low, MaxC: &high})
	}
	return days
}

func colder(by float64) func(garden.Day) float64 { return func(garden.Day) float64 { return -by } }

func withWeather(days []heat.Day) Here {
	here := referenceGarden()
	here.Normals, here.Weather = usualYear(), days
	return here
}

// heatKind is a kind cued by heat that opens in mid-April.
func heatKind() garden.Kind {
	kind := kindOf("k", window("04-15", "05-15", ""))
	kind.Cue = "heat"
	return kind
}

func medianOf(t *testing.T, here Here, kind garden.Kind, on garden.Day) float64 {
	t.Helper()
	p := plantOf("p", "k", notYet(day(2025, 1, 10)))
	expect, known := Reckon(here, []garden.Kind{kind}, []Plant{p}, on).Expect("p", 2025, 0)
	if !known {
		t.Fatal("nothing is expected")
	}
	return expect.Open.P50
}

// TestWeatherMovesTheSeason: a degree below the normals brings usual heat some
// three weeks later by late April, and half of that is expected to show in what
// heat brings into flower; nothing of it in what day length or autumn rain does,
// nor without normals.
func TestWeatherMovesTheSeason(t *testing.T) {
	on, kind := day(2025, 5, 1), heatKind()
	cold := weatherOf(2025, colder(1))
	usual := medianOf(t, withWeather(nil), kind, on)
	at := day(2024, 12, 31) + garden.Day(usual)
	offset := warmthOf(withWeather(cold), on).season(at).At(at).Days
	if offset < 14 || offset > 26 {
		t.Fatalf("the heat is %g days behind", offset)
	}
	if moved := medianOf(t, withWeather(cold), kind, on) - usual; math.Abs(moved-heatResponse*offset) > 0.2 {
		t.Errorf("moved by %g days for heat %g days behind", moved, offset)
	}
	for _, cue := range []string{"day-length", "autumn-rain", "chill"} {
		kind.Cue = cue
		if moved := medianOf(t, withWeather(cold), kind, on) - usual; moved != 0 {
			t.Errorf("%s: moved by %g days", cue, moved)
		}
	}
	bare, still := withWeather(cold), withWeather(nil)
	bare.Normals, still.Normals = nil, nil
	if moved := medianOf(t, bare, heatKind(), on) - medianOf(t, still, heatKind(), on); moved != 0 {
		t.Errorf("moved by %g days without normals", moved)
	}
}

// TestWeatherIsNotLookedAhead: weather after the day that is reckoned for
// changes nothing, and half a cold spring moves less than the whole.
func TestWeatherIsNotLookedAhead(t *testing.T) {
	on := day(2025, 3, 1)
	cold := weatherOf(2025, colder(2))
	usual := medianOf(t, withWeather(nil), heatKind(), on)
	whole, soFar := medianOf(t, withWeather(cold), heatKind(), on), medianOf(t, withWeather(cold[:60]), heatKind(), on)
	if whole != soFar {
		t.Errorf("%g with weather to come, %g without", whole, soFar)
	}
	if later := medianOf(t, withWeather(cold), heatKind(), day(2025, 4, 20)); soFar <= usual || later <= soFar {
		t.Errorf("usual %g, by March %g, by the end %g", usual, soFar, later)
	}
}

// TestWeatherHasBounds: a winter of no usual heat at all, with a summer's days in
// it, moves a season by no more than seasonReach of its spreads.
func TestWeatherHasBounds(t *testing.T) {
	kind := heatKind()
	kind.Bloom[0] = window("02-01", "03-01", "")
	on := day(2025, 3, 1)
	usual := medianOf(t, withWeather(nil), kind, on)
	for _, off := range []float64{-25, 25} {
		moved := medianOf(t, withWeather(weatherOf(2025, colder(off))), kind, on) - usual
		if reach := seasonReach*SeasonSD(usual, false) + 0.11; math.Abs(moved) > reach || math.Abs(moved) < 5 {
			t.Errorf("%g °C colder moves by %g days", off, moved)
		}
	}
}

// TestTheGardensOwnResponse: where four springs' flower followed the heat whole,
// not by half, the fifth is expected to follow it by more than half.
func TestTheGardensOwnResponse(t *testing.T) {
	var weather []heat.Day
	kind := heatKind()
	plants := []Plant{plantOf("a", "k"), plantOf("b", "k"), plantOf("c", "k")}
	for i, off := range []float64{-1.5, 1.5, -2, 2} {
		weather = append(weather, weatherOf(2021+i, colder(off))...)
	}
	weather = append(weather, weatherOf(2025, colder(2))...)
	for year := 2021; year <= 2024; year++ {
		open := day(year, 4, 15)
		behind := warmthOf(withWeather(weather), day(2025, 12, 31)).season(open).At(open).Days
		for i := range plants {
			plants[i].Looks = append(plants[i].Looks, notYet(open+garden.Day(behind)-3), staged(open+garden.Day(behind)+3, 62))
		}
	}
	at := day(2025, 4, 15)
	behind := warmthOf(withWeather(weather), at).season(at).At(at).Days
	m := Reckon(withWeather(weather), []garden.Kind{kind}, plants, at)
	expect, _ := m.Expect("a", 2025, 0)
	if share := (expect.Open.P50 - 105) / behind; share < 0.6 || share > 1 {
		t.Errorf("expected to follow by %.2f of %g days", share, behind)
	}
}

// TestSouthernWarmth: half a year later everything is the same.
func TestSouthernWarmth(t *testing.T) {
	south := withWeather(nil)
	lat := -referenceLat
	south.Lat = &lat
	normals := usualYear()
	south.Normals = append(append([]garden.Normal{}, normals[6:]...), normals[:6]...)
	kind := heatKind()
	p := plantOf("p", "k", notYet(day(2025, 7, 20)))
	median := func() float64 {
		expect, known := Reckon(south, []garden.Kind{kind}, []Plant{p}, day(2025, 11, 1)).Expect("p", 2025, 0)
		if !known {
			t.Fatal("nothing is expected")
		}
		return expect.Open.P50
	}
	usual := median()
	own, err := heat.NewNormals(south.Normals)
	if err != nil {
		t.Fatal(err)
	}
	for d := day(2025, 7, 1); d <= day(2025, 11, 1); d++ {
		low, high := own.On(d)
		low, high = low-2, high-2
		south.Weather = append(south.Weather, heat.Day{Day: d, MinC: &low, MaxC: &high})
	}
	if moved := median() - usual; moved < 6 || moved > 16 {
		t.Errorf("a cold southern spring moves flower by %g days", moved)
	}
}
