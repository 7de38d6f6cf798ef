package simulate

import (
	"encoding/json"
	"fmt"

	"haulm/garden"
)

// Garden answers the verb "simulate". It fails, naming field, value and bound, on
// a number out of range, an unknown break, and more looks than an answer should
// carry.
func Garden(in Input) (Output, error) {
	if err := in.check(); err != nil {
		return Output{}, err
	}
	season, err := newSeasons(in, garden.DayOf(in.firstYear()-1, 1, 1), garden.DayOf(LastYear+1, 12, 31))
	if err != nil {
		return Output{}, err
	}
	of := kinds(in)
	list := plants(in, of, season)
	w := &writer{}
	w.place(in)
	for _, k := range of {
		w.put("kind/"+k.id, k.fields())
	}
	for _, p := range list {
		w.planting(p)
	}
	for _, l := range looks(in, list, visits(in)) {
		w.look(l)
	}
	w.weather(season.sky)
	return Output{On: lastDay(), Records: w.records, Truth: truthOf(in, list, season)}, w.err
}

// A writer writes records.
type writer struct {
	records []garden.Record
	err     error // the first
}

func (w *writer) put(ref string, fields map[string]any) {
	parsed, err := garden.ParseRef(ref)
	raw := garden.Fields{}
	for name, value := range fields {
		text, failed := json.Marshal(value)
		if failed != nil && err == nil {
			err = failed
		}
		raw[name] = text
	}
	if err != nil && w.err == nil {
		w.err = err
	}
	w.records = append(w.records, garden.Record{Ref: parsed, Fields: raw})
}

// place writes the garden, at the catalogue's reference site, and its beds.
func (w *writer) place(in Input) {
	fields := map[string]any{"name": "Simulated", "lat": 51.5, "lon": 0, "altitudeM": 50, "timeZone": "Europe/London"}
	if in.Weather {
		fields["normals"] = normals()
	}
	w.put("garden/g", fields)
	for bed := range (in.Plantings + plantingsPerBed - 1) / plantingsPerBed {
		w.put("bed/"+bedID(bed), map[string]any{"name": fmt.Sprintf("Bed %d", bed+1), "order": bed})
	}
}

func (w *writer) planting(p *plant) {
	w.put("planting/"+p.id, map[string]any{"kind": p.kind.id, "bed": p.bed, "at": p.at,
		"planted": fmt.Sprintf("%04d-03", p.planted), "form": "pot", "potL": 3, "heightCm": plantedCm})
}

func (w *writer) look(l look) {
	fields := map[string]any{"planting": l.plant.id, "seen": l.day.String() + "T10:00:00Z"}
	if l.stage == 0 {
		fields["notInFlower"] = true
	} else {
		fields["stage"] = l.stage
	}
	if m := l.measure; m != nil {
		fields["heightCm"], fields["vigour"] = m.cm, m.vigour
	}
	w.put(fmt.Sprintf("observation/%s-%s", l.plant.id, l.day), fields)
}

// weather writes what was measured by the last day, where anything was.
func (w *writer) weather(s *sky) {
	if s == nil {
		return
	}
	for _, d := range s.days {
		if d.Day <= lastDay() {
			w.put(fmt.Sprintf("weather/%s.simulated", d.Day), map[string]any{"day": d.Day, "minC": d.MinC, "maxC": d.MaxC, "source": "simulated"})
		}
	}
}
