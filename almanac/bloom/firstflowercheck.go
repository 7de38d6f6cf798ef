package bloom

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
)

// What the verb takes: days of a year with a year to either side, and spreads
// within which the model means anything.
const (
	leastDay, greatestDay   = -366.0, 732.0
	leastSD, greatestSD     = 0.1, 120.0
	greatestMean            = 120.0
	leastYear, greatestYear = 1, 9999
	greatestAge             = 1000.0
)

// check turns the input into flushes, in the order given.
func (in Input) check() ([]Flush, error) {
	if err := in.checkKinds(); err != nil {
		return nil, err
	}
	if err := in.checkSeasons(); err != nil {
		return nil, err
	}
	flushes := make([]Flush, len(in.Flushes))
	kindOf, seen := map[string]string{}, map[string]bool{}
	for i, f := range in.Flushes {
		flush, err := in.checkFlush(f)
		if err != nil {
			return nil, fmt.Errorf("flushes[%d]: %w", i, err)
		}
		if kind, known := kindOf[f.Planting]; known && kind != f.Kind {
			return nil, fmt.Errorf("flushes[%d]: planting %q is of kind %q here and of %q before: one planting has one kind", i, f.Planting, f.Kind, kind)
		}
		key := f.Planting + "\x00" + strconv.Itoa(f.Year)
		if seen[key] {
			return nil, fmt.Errorf("flushes[%d]: planting %q has a second flush in %d: give one a year", i, f.Planting, f.Year)
		}
		kindOf[f.Planting], seen[key], flushes[i] = f.Kind, true, flush
	}
	return flushes, nil
}

func (in Input) checkKinds() error {
	for _, name := range slices.Sorted(maps.Keys(in.Kinds)) {
		k := in.Kinds[name]
		if err := checkWithin("expectedDay", k.ExpectedDay, leastDay, greatestDay); err != nil {
			return fmt.Errorf("kinds[%q]: %w", name, err)
		}
		if k.SDDays == nil {
			continue
		}
		if err := checkWithin("sdDays", *k.SDDays, leastSD, greatestSD); err != nil {
			return fmt.Errorf("kinds[%q]: %w", name, err)
		}
	}
	return nil
}

func (in Input) checkSeasons() error {
	for _, year := range slices.Sorted(maps.Keys(in.Seasons)) {
		y, err := strconv.Atoi(year)
		if err != nil || strconv.Itoa(y) != year || y < leastYear || y > greatestYear {
			return fmt.Errorf("seasons: %q is not a year from %d to %d", year, leastYear, greatestYear)
		}
		if err := checkWithin("meanDays", in.Seasons[year].MeanDays, -greatestMean, greatestMean); err != nil {
			return fmt.Errorf("seasons[%q]: %w", year, err)
		}
	}
	return nil
}

func (in Input) checkFlush(f FlushInput) (Flush, error) {
	kind, known := in.Kinds[f.Kind]
	switch {
	case f.Planting == "":
		return Flush{}, fmt.Errorf("planting is missing: name the plant")
	case !known:
		return Flush{}, fmt.Errorf("kind %q is not among kinds: add it there with its expectedDay", f.Kind)
	case f.Year < leastYear || f.Year > greatestYear:
		return Flush{}, fmt.Errorf("year %d is outside %d to %d", f.Year, leastYear, greatestYear)
	}
	if err := f.checkDays(); err != nil {
		return Flush{}, err
	}
	return f.flush(kind), nil
}

func (f FlushInput) checkDays() error {
	for _, d := range []struct {
		name      string
		value     *float64
		low, high float64
	}{{"after", f.After, leastDay, greatestDay}, {"by", f.By, leastDay, greatestDay}, {"yearsSincePlanting", f.YearsSincePlanting, 0, greatestAge}} {
		if d.value == nil {
			continue
		}
		if err := checkWithin(d.name, *d.value, d.low, d.high); err != nil {
			return err
		}
	}
	if f.After != nil && f.By != nil && *f.After > *f.By {
		return fmt.Errorf("after %g is later than by %g: the look before flower comes first", *f.After, *f.By)
	}
	return nil
}

// flush is the checked flush. When it was seen to open on one day, it opened
// within that day.
func (f FlushInput) flush(kind KindInput) Flush {
	flush := Flush{Plant: f.Planting, Kind: f.Kind, Year: f.Year, Expected: kind.ExpectedDay, SD: sdKind,
		SeasonSD: SeasonSD(kind.ExpectedDay, false), After: f.After, By: f.By}
	if kind.SDDays != nil {
		flush.SD = *kind.SDDays
	}
	if f.After != nil && f.By != nil && *f.After == *f.By {
		dayBefore := *f.By - 1
		flush.After = &dayBefore
	}
	if f.YearsSincePlanting != nil && *f.YearsSincePlanting < 1 {
		flush.FirstSeason = true
		flush.LaterDays = laterInFirstSeason(f.Form)
	}
	return flush
}

func laterInFirstSeason(form string) float64 {
	if form == "bare-root" {
		return bareRootLaterDays
	}
	return 0
}

func checkWithin(name string, value, low, high float64) error {
	if math.IsNaN(value) || value < low || value > high {
		return fmt.Errorf("%s %g is outside %g to %g", name, value, low, high)
	}
	return nil
}
