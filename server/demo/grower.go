package demo

import (
	"encoding/json"
	"fmt"
	"math"
	"time"

	"haulm/garden"
)

// A grower grows the entries from the story and the weather.
type grower struct {
	story
	sky     []sky
	seasons seasons
	zone    *time.Location
	rounds  []round
	plants  []plant
	done    []deed
	words   words
}

// A plant is a planting with its kind and its record read back.
type plant struct {
	sown
	garden.Planting
	kind garden.Kind
}

func newGrower() (*grower, error) {
	s, err := readStory()
	if err != nil {
		return nil, err
	}
	g := &grower{story: s}
	if g.words, err = readWords(); err != nil {
		return nil, err
	}
	if g.sky, err = readWeather(); err != nil {
		return nil, err
	}
	if g.seasons, err = newSeasons(g.sky); err != nil {
		return nil, err
	}
	if g.zone, err = time.LoadLocation(fmt.Sprint(s.Garden["timeZone"])); err != nil {
		return nil, fmt.Errorf("garden.json: %w", err)
	}
	if err := g.readPlants(); err != nil {
		return nil, err
	}
	g.rounds = g.walk()
	g.done = g.work()
	return g, nil
}

// readPlants reads the plantings back as the almanac would.
func (g *grower) readPlants() error {
	catalogue, _, err := garden.Catalogue()
	if err != nil {
		return err
	}
	kinds := map[string]garden.Kind{}
	for _, kind := range catalogue {
		kinds[kind.ID] = kind
	}
	for _, s := range g.Plantings {
		p := plant{sown: s}
		text, err := json.Marshal(s.Fields)
		if err == nil {
			err = json.Unmarshal(text, &p.Planting)
		}
		if err != nil {
			return fmt.Errorf("garden.json: planting %s: %w", s.ID, err)
		}
		kind, known := kinds[p.Kind]
		if !known {
			return fmt.Errorf("garden.json: planting %s: the catalogue has no kind %q", s.ID, p.Kind)
		}
		p.kind = kind
		g.plants = append(g.plants, p)
	}
	return nil
}

// since is the first day on which it can have been there.
func (p plant) since() garden.Day {
	if p.Planted == nil {
		return math.MinInt32
	}
	return p.Planted.Last
}

// there says whether it stands in the garden on a day; on the day of its end
// somebody still sees it.
func (p plant) there(day garden.Day) bool {
	return day >= p.since() && (p.Ended == nil || day <= *p.Ended)
}

// season counts its growing seasons from 1; what was there before has many.
func (p plant) season(year int) int {
	if p.Planted == nil {
		return longEstablished
	}
	planted := p.Planted.Middle()
	first := planted.Year()
	if planted > garden.DayOf(first, midsummer, 1) {
		first++
	}
	return year - first + 1
}

// longEstablished seasons are more than any kind takes to its size, and after
// midsummer a new plant only makes roots.
const (
	longEstablished = 30
	midsummer       = time.July
)

func (g *grower) writePlaces(w *writer) {
	fields := map[string]any{"normals": normalsOf(g.sky), "clock": Today()}
	for name, value := range g.Garden {
		fields[name] = value
	}
	w.put(garden.GardenRecord, gardenID, fields)
	for _, bed := range g.Beds {
		w.put(garden.BedRecord, bed.ID, bed.Fields)
	}
	for _, structure := range g.Structures {
		w.put(garden.StructureRecord, structure.ID, structure.Fields)
	}
}

func (g *grower) writePlantings(w *writer) {
	for _, p := range g.plants {
		w.put(garden.PlantingRecord, p.ID, p.sown.Fields)
	}
}

func tenths(x float64) float64 { return math.Round(10*x) / 10 }
