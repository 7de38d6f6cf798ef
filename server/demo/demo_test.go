package demo

import (
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"testing"

	"haulm/garden"
)

// all decodes the demo garden's records.
type all struct {
	records      []garden.Record
	garden       garden.Garden
	beds         map[string]garden.Bed
	plantings    map[string]garden.Planting
	observations []garden.Observation
	works        []garden.Work
	weather      []garden.Weather
}

func everything(t *testing.T) all {
	t.Helper()
	records, err := Records()
	if err != nil {
		t.Fatal(err)
	}
	a := all{records: records, beds: map[string]garden.Bed{}, plantings: map[string]garden.Planting{}}
	for _, record := range records {
		a.decode(t, record)
	}
	return a
}

func (a *all) decode(t *testing.T, record garden.Record) {
	t.Helper()
	switch record.Ref.Kind {
	case garden.GardenRecord:
		decode(t, record, &a.garden)
	case garden.BedRecord:
		a.beds[record.Ref.ID] = *decode(t, record, &garden.Bed{})
	case garden.StructureRecord:
		decode(t, record, &garden.Structure{})
	case garden.PlantingRecord:
		a.plantings[record.Ref.ID] = *decode(t, record, &garden.Planting{})
	case garden.ObservationRecord:
		a.observations = append(a.observations, *decode(t, record, &garden.Observation{}))
	case garden.WorkRecord:
		a.works = append(a.works, *decode(t, record, &garden.Work{}))
	case garden.WeatherRecord:
		a.weather = append(a.weather, *decode(t, record, &garden.Weather{}))
	case garden.DismissalRecord:
		decode(t, record, &garden.Dismissal{})
	default:
		t.Errorf("%s: the demo garden has no such records", record.Ref)
	}
}

func decode[T garden.Decodable](t *testing.T, record garden.Record, into T) T {
	t.Helper()
	if err := garden.Decode(record, into); err != nil {
		t.Errorf("%s: %v", record.Ref, err)
	}
	return into
}

func TestRecordsAreTheSameEachTimeAndOnceEach(t *testing.T) {
	first := everything(t).records
	again, err := Records()
	if err != nil || !reflect.DeepEqual(first, again) {
		t.Errorf("a second call gives other records (%v)", err)
	}
	seen := map[garden.Ref]bool{}
	for _, record := range first {
		if seen[record.Ref] {
			t.Errorf("%s is written twice", record.Ref)
		}
		seen[record.Ref] = true
	}
}

func TestSizeIsThatOfAKeptGarden(t *testing.T) {
	a := everything(t)
	for _, size := range []struct {
		what     string
		got      int
		min, max int
	}{
		{"beds", len(a.beds), 6, 8},
		{"plantings", len(a.plantings), 55, 65},
		{"observations", len(a.observations), 1000, 4000},
		{"works", len(a.works), 100, 1000},
		{"days of weather", len(a.weather), 1287, 1287}, // 1 January 2012 to 10 July 2015
	} {
		if size.got < size.min || size.got > size.max {
			t.Errorf("%d %s, want %d to %d", size.got, size.what, size.min, size.max)
		}
	}
	if a.garden.ID != gardenID || a.garden.Clock == nil || *a.garden.Clock != Today() {
		t.Errorf("the garden is %q with the clock at %v, want %q at %s", a.garden.ID, a.garden.Clock, gardenID, Today())
	}
}

func TestEveryReferenceResolves(t *testing.T) {
	a := everything(t)
	kinds := map[string]bool{}
	catalogue, _, err := garden.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range catalogue {
		kinds[kind.ID] = true
	}
	for id, p := range a.plantings {
		if _, there := a.beds[p.Bed]; !there || !kinds[p.Kind] {
			t.Errorf("planting %s: bed %q or kind %q is not there", id, p.Bed, p.Kind)
		}
		if p.From != nil && a.plantings[p.From.Planting].ID == "" {
			t.Errorf("planting %s comes from %q, which is not there", id, p.From.Planting)
		}
	}
	for _, o := range a.observations {
		if a.plantings[o.Planting].ID == "" {
			t.Errorf("observation %s: planting %q is not there", o.ID, o.Planting)
		}
	}
	for _, w := range a.works {
		_, bed := a.beds[w.Bed]
		if a.plantings[w.Planting].ID == "" && !bed {
			t.Errorf("work %s: neither planting %q nor bed %q is there", w.ID, w.Planting, w.Bed)
		}
	}
}

func TestPeopleLookOnlyAtWhatIsThereAndNotAfterToday(t *testing.T) {
	a := everything(t)
	people := []string{"Maren", "Tobias"}
	for _, o := range a.observations {
		day, err := o.Day()
		p := a.plantings[o.Planting]
		planted := p.Planted == nil || day >= p.Planted.First
		if err != nil || day > Today() || !planted || p.Ended != nil && day > *p.Ended || !slices.Contains(people, o.By) {
			t.Errorf("observation %s: by %s on %s (%v); planted %v, ended %v", o.ID, o.By, day, err, p.Planted, p.Ended)
		}
		if o.Up == "not-up" && (o.Stage != nil || o.NotInFlower || o.HeightCm != nil) {
			t.Errorf("observation %s: what is not up has neither flower nor height", o.ID)
		}
	}
	for _, w := range a.works {
		if *w.Day > Today() || !slices.Contains(people, w.By) {
			t.Errorf("work %s: by %s on %s", w.ID, w.By, w.Day)
		}
	}
}

func TestPlantingsStandInTheirBeds(t *testing.T) {
	a := everything(t)
	for id, p := range a.plantings {
		outline := a.beds[p.Bed].Outline
		low, high := outline[0], outline[2] // the beds are rectangles, written from a corner round
		if p.At == nil || p.At[0] < low[0] || p.At[1] < low[1] || p.At[0] > high[0] || p.At[1] > high[1] {
			t.Errorf("planting %s at %v is outside %s", id, p.At, a.beds[p.Bed].Name)
		}
	}
}

// A gardener would not keep for four years what the second winter kills.
func TestNothingIsTooTenderForTheseWinters(t *testing.T) {
	a := everything(t)
	coldest := 0.0
	for _, day := range a.weather {
		coldest = min(coldest, *day.MinC)
	}
	catalogue, _, err := garden.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range catalogue {
		for id, p := range a.plantings {
			if p.Kind == kind.ID && kind.MinWinterC > coldest {
				t.Errorf("planting %s stands %g °C; the series has %g °C", id, kind.MinWinterC, coldest)
			}
		}
	}
}

// The series is the one that the degree-day tests use: NOAA National Climatic
// Data Center, daily summaries, by way of npm vega-datasets 3.2.1.
func TestWeatherIsTheOpenSeries(t *testing.T) {
	reference, err := os.ReadFile(filepath.Join("..", "..", "testdata", "reference", "seattle-weather.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if string(reference) != weatherText {
		t.Error("weather.csv differs from testdata/reference/seattle-weather.csv")
	}
}
