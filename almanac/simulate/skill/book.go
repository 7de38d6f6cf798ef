package skill

import (
	"fmt"
	"slices"
	"sort"

	"haulm/almanac/bloom"
	"haulm/almanac/heat"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// A book is a garden's records as the judges read them.
type book struct {
	here   bloom.Here
	kinds  []garden.Kind
	plants []bloom.Plant // by id, looks in order of day
	index  map[string]int
}

func read(records []garden.Record) (*book, error) {
	b := &book{index: map[string]int{}}
	for _, record := range records {
		if err := b.take(record); err != nil {
			return nil, fmt.Errorf("%s: %w", record.Ref, err)
		}
	}
	for i := range b.plants {
		looks := b.plants[i].Looks
		sort.SliceStable(looks, func(i, j int) bool { return looks[i].Day < looks[j].Day })
	}
	return b, nil
}

func (b *book) take(record garden.Record) (err error) {
	switch record.Ref.Kind {
	case garden.GardenRecord:
		return garden.Decode(record, &b.here.Garden)
	case garden.KindRecord:
		var kind garden.Kind
		err = garden.Decode(record, &kind)
		b.kinds = append(b.kinds, kind)
	case garden.PlantingRecord:
		var planting garden.Planting
		err = garden.Decode(record, &planting)
		b.index[planting.ID] = len(b.plants)
		b.plants = append(b.plants, bloom.Plant{Planting: planting})
	case garden.WeatherRecord:
		var w garden.Weather
		if err = garden.Decode(record, &w); err == nil && w.Day != nil {
			b.here.Weather = append(b.here.Weather, heat.Day{Day: *w.Day, MinC: w.MinC, MaxC: w.MaxC})
		}
	case garden.ObservationRecord:
		return b.look(record)
	}
	return err
}

// look adds a look to its planting, whose record comes before.
func (b *book) look(record garden.Record) error {
	var o garden.Observation
	if err := garden.Decode(record, &o); err != nil {
		return err
	}
	day, err := o.Day()
	if err != nil {
		return err
	}
	i, known := b.index[o.Planting]
	if !known {
		return fmt.Errorf("planting %q is not among the records before it", o.Planting)
	}
	b.plants[i].Looks = append(b.plants[i].Looks, bloom.Look{Day: day, Stage: o.Stage, NotInFlower: o.NotInFlower, Up: o.Up, Flush: o.Flush, Signs: o.Signs})
	return nil
}

// until gives a planting's looks up to a day.
func until(looks []bloom.Look, on garden.Day) []bloom.Look {
	return looks[:sort.Search(len(looks), func(i int) bool { return looks[i].Day > on })]
}

// days lists the days of the walk: those with a look in the last year or after,
// and every seventh.
func (b *book) days(last garden.Day) []garden.Day {
	first := garden.DayOf(simulate.LastYear, 1, 1)
	var days []garden.Day
	for _, p := range b.plants {
		for _, l := range p.Looks {
			if l.Day >= first && l.Day <= last {
				days = append(days, l.Day)
			}
		}
	}
	for day := first; day <= last; day += 7 {
		days = append(days, day)
	}
	slices.Sort(days)
	return slices.Compact(days)
}

// inFlower says whether a look noted flower: BBCH 60 to 69 (Meier 2001).
func inFlower(l bloom.Look) bool { return l.Stage != nil && *l.Stage >= 60 && *l.Stage <= 69 }

// notInFlower says whether a look noted that there was none yet.
func notInFlower(l bloom.Look) bool {
	return l.Stage == nil && l.NotInFlower || l.Stage != nil && *l.Stage < 60
}
