// Package assesstest invents gardens for tests and benchmarks of the
// assessment: seasons that run late or early, plantings with habits of their
// own, some failing, and people who look now and then. The same seed gives the
// same garden. Nothing here is anybody's data.
package assesstest

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"

	"haulm/garden"
)

// A Shape says how large an invented garden is.
type Shape struct {
	Seed      uint64
	Plantings int
	Years     int // up to and with LastYear
	LastYear  int
	LookEvery int // mean days between looks at one planting; 0 is 8
}

// Invent makes the records of a garden, seen up to 10 July of its last year.
func Invent(shape Shape) ([]garden.Record, error) {
	kinds, _, err := garden.Catalogue()
	if err != nil {
		return nil, err
	}
	i := &inventor{Shape: shape, chance: rand.New(rand.NewPCG(shape.Seed, 1)), kinds: kinds}
	if i.LookEvery == 0 {
		i.LookEvery = 8
	}
	i.garden()
	for n := range shape.Plantings {
		i.planting(n)
	}
	return i.records, nil
}

// Today is the day that an invented garden stands at.
func (s Shape) Today() garden.Day { return garden.DayOf(s.LastYear, 7, 10) }

type inventor struct {
	Shape
	chance  *rand.Rand
	kinds   []garden.Kind
	seasons map[int]float64 // days late, by year
	records []garden.Record
}

func (i *inventor) put(ref string, fields map[string]any) {
	parsed, err := garden.ParseRef(ref)
	if err != nil {
		panic(err) // the references are made here
	}
	raw := garden.Fields{}
	for name, value := range fields {
		text, err := json.Marshal(value)
		if err != nil {
			panic(err) // so are the values
		}
		raw[name] = text
	}
	i.records = append(i.records, garden.Record{Ref: parsed, Fields: raw})
}

func (i *inventor) garden() {
	i.seasons = map[int]float64{}
	for year := i.LastYear - i.Years; year <= i.LastYear; year++ {
		i.seasons[year] = i.normal(7)
	}
	i.put("garden/g", map[string]any{"name": "Invented", "lat": math.Round(100*(42+12*i.chance.Float64())) / 100,
		"lon": -2.5, "altitudeM": math.Round(200 * i.chance.Float64()), "timeZone": "Europe/London"})
	for bed := range i.beds() {
		i.bed(bed)
	}
	i.put("structure/house", map[string]any{"name": "House", "form": "building", "outline": [][2]float64{{0, 60}, {14, 60}, {14, 70}, {0, 70}}, "heightM": 7})
	i.put("structure/hedge", map[string]any{"name": "Hedge", "form": "hedge", "outline": [][2]float64{{-2, -2}, {-1, -2}, {-1, 58}, {-2, 58}}, "heightM": 2, "leaf": "evergreen"})
	i.weather()
}

func (i *inventor) beds() int { return 1 + i.Plantings/12 }

// bedsAcross beds lie side by side, bedM by bedM metres with a path between.
const bedsAcross, bedM, pathM = 6, 6, 1.5

// corner is the south-west corner of a bed.
func corner(bed int) (x, y float64) {
	return float64(bed%bedsAcross) * (bedM + pathM), float64(bed/bedsAcross) * (bedM + pathM)
}

func (i *inventor) bed(bed int) {
	x, y := corner(bed)
	soils := []string{"loam", "sandy loam", "clay loam", "loamy sand"}
	i.put(fmt.Sprintf("bed/b%d", bed), map[string]any{"name": fmt.Sprintf("Bed %d", bed+1), "order": bed, "soil": soils[bed%len(soils)],
		"outline": [][2]float64{{x, y}, {x + bedM, y}, {x + bedM, y + bedM}, {x, y + bedM}}, "viewedFrom": [2]float64{x + bedM/2, y - 1}})
}

// weather makes a plain year of weather over and over, with dry and wet spells.
func (i *inventor) weather() {
	for day := garden.DayOf(i.LastYear-i.Years+1, 1, 1); day <= i.Today(); day++ {
		mean := 10 - 7*math.Cos(2*math.Pi*float64(day.OfYear()-20)/365) + i.normal(3)
		rain := 0.0
		if int(day)/12%2 == 0 && i.chance.Float64() < 0.5 {
			rain = math.Round(80*i.chance.Float64()) / 10
		}
		i.put("weather/"+day.String()+".invented", map[string]any{"day": day, "minC": math.Round(10*mean-45) / 10,
			"maxC": math.Round(10*mean+45) / 10, "rainMm": rain, "source": "invented"})
	}
}

func (i *inventor) normal(sd float64) float64 { return sd * i.chance.NormFloat64() }

func (i *inventor) planting(n int) {
	kind := i.kinds[i.chance.IntN(len(i.kinds))]
	since := i.LastYear - i.chance.IntN(i.Years+3)
	id := fmt.Sprintf("p%03d", n)
	bed, nth := n%i.beds(), n/i.beds()
	x, y := corner(bed)
	i.put("planting/"+id, map[string]any{"kind": kind.ID, "bed": fmt.Sprintf("b%d", bed),
		"planted": fmt.Sprintf("%04d-03", since), "form": "pot", "potL": 3, "heightCm": math.Round(kind.HeightCm[0] / 3),
		"at": []float64{x + 1 + 1.5*float64(nth%4), y + 1 + 1.7*float64(nth/4)}})
	habit, pace := i.normal(4), math.Exp(i.normal(0.3))
	for year := max(since, i.LastYear-i.Years+1); year <= i.LastYear; year++ {
		i.year(id, kind, habit, pace, since, year)
	}
}

// year makes one planting's looks in one year.
func (i *inventor) year(id string, kind garden.Kind, habit, pace float64, since, year int) {
	late := i.seasons[year] + habit + i.normal(4.5)
	if i.chance.Float64() < 0.05 {
		late += 20 + 15*i.chance.Float64()
	}
	blind := i.chance.Float64() < 0.05 // flowers not at all
	for day := garden.DayOf(year, 2, 1); day <= min(i.Today(), garden.DayOf(year, 11, 15)); day += garden.Day(1 + i.chance.IntN(2*i.LookEvery)) {
		fields := map[string]any{"planting": id, "seen": day.String() + "T10:30:00+01:00"}
		i.flower(fields, kind, late, blind, day)
		if i.chance.Float64() < 0.25 {
			fields["heightCm"] = math.Round(i.height(kind, pace, since, day))
		}
		i.put(fmt.Sprintf("observation/%s-%s", id, day), fields)
	}
}

func (i *inventor) flower(fields map[string]any, kind garden.Kind, late float64, blind bool, day garden.Day) {
	stage := -1
	for _, window := range kind.Bloom {
		opens := float64(window.From.In(day.Year())) + late
		closes := opens + float64(window.To.In(day.Year())-window.From.In(day.Year()))
		switch at := float64(day); {
		case blind || closes < opens:
		case at >= opens-12 && at < opens:
			stage = 55
		case at >= opens && at <= closes:
			stage = 61 + int(7*(at-opens)/(closes-opens+1))
		case at > closes && at < closes+14:
			stage = 71
		}
	}
	if stage < 0 {
		fields["notInFlower"] = true
		return
	}
	fields["stage"] = stage
}

func (i *inventor) height(kind garden.Kind, pace float64, since int, day garden.Day) float64 {
	season := 1 / (1 + math.Exp(-(float64(day.OfYear())-130)/15))
	eventual := (kind.HeightCm[0] + kind.HeightCm[1]) / 2
	age := float64(day-garden.DayOf(since, 3, 15))/365.25 + 0.3
	grown := 1 - math.Exp(-3*pace*age/math.Max(1, kind.YearsToSize))
	if kind.Foliage == "dies-down" {
		grown *= season
	}
	return math.Max(2, eventual*grown+i.normal(2))
}
