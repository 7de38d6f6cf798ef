package suit

import (
	"encoding/json"
	"fmt"

	"haulm/garden"
)

// Bounds of what a garden can have; beyond them is a slip of the finger.
const (
	longestLateness = 183
	coldestC        = -60
	warmestC        = 25
	widestCm        = 5000
	largestM2       = 10_000
	mostInAWeek     = 100_000
)

func (in Input) check() error {
	if err := in.Spot.check(); err != nil {
		return err
	}
	switch {
	case in.Choose != nil && (*in.Choose < 0 || *in.Choose > mostChosen):
		return fmt.Errorf("choose %d is outside 0 to %d kinds", *in.Choose, mostChosen)
	case len(in.Kinds) > mostKinds:
		return fmt.Errorf("kinds has %d, more than the %d that are ranked at once", len(in.Kinds), mostKinds)
	}
	if err := within("areaM2", in.AreaM2, 0, largestM2); err != nil {
		return err
	}
	return in.Have.check()
}

func (s Spot) check() error {
	for _, one := range []struct {
		field  string
		value  *float64
		lo, hi float64
	}{
		{"lat", s.Lat, -90, 90}, {"latenessDays", &s.LatenessDays, -longestLateness, longestLateness},
		{"sunHours", s.SunHours, 0, 24}, {"sunMorning", s.SunMorning, 0, 24}, {"ph", s.PH, 2, 11},
		{"minWinterC", s.MinWinterC, coldestC, warmestC}, {"roomCm", s.RoomCm, 0, widestCm},
	} {
		if err := within("spot."+one.field, one.value, one.lo, one.hi); err != nil {
			return err
		}
	}
	if s.SunMorning != nil && (s.SunHours == nil || *s.SunMorning > *s.SunHours) {
		return fmt.Errorf("spot.sunMorning %v is a part of sunHours: give both, sunMorning the less", *s.SunMorning)
	}
	if h := s.HeightCm; h != nil && !(h[0] >= 0 && h[0] <= h[1] && h[1] <= widestCm) {
		return fmt.Errorf("spot.heightCm %v must be two heights in order, within 0 to %d cm", *h, widestCm)
	}
	if _, err := parseColours("spot.colours", s.Colours); err != nil {
		return err
	}
	return s.checkWords()
}

// checkWords judges soil and drainage by the rules of a bed, and moisture by
// those of a kind.
func (s Spot) checkWords() error {
	for _, one := range []struct {
		of          garden.RecordKind
		field, word string
	}{{garden.BedRecord, "soil", s.Soil}, {garden.BedRecord, "drainage", s.Drainage}, {garden.KindRecord, "moisture", s.Moisture}} {
		text, err := json.Marshal(one.word)
		if err == nil {
			err = garden.Check(one.of, one.field, text)
		}
		if err != nil {
			return fmt.Errorf("spot: %w", err)
		}
	}
	return nil
}

func (h *Have) check() error {
	switch {
	case h == nil:
		return nil
	case len(h.Kinds) > mostHave:
		return fmt.Errorf("have.kinds has %d, more than %d", len(h.Kinds), mostHave)
	case len(h.Windows) > mostHave:
		return fmt.Errorf("have.windows has %d, more than %d", len(h.Windows), mostHave)
	case h.Weeks != nil && len(h.Weeks) != weeksOfYear:
		return fmt.Errorf("have.weeks has %d values where %d are wanted, one a week from 1 January", len(h.Weeks), weeksOfYear)
	}
	for i, n := range h.Weeks {
		if err := within(fmt.Sprintf("have.weeks[%d]", i), &n, 0, mostInAWeek); err != nil {
			return err
		}
	}
	return nil
}

func within(field string, value *float64, lo, hi float64) error {
	if value != nil && !(*value >= lo && *value <= hi) {
		return fmt.Errorf("%s %v is outside %g to %g", field, *value, lo, hi)
	}
	return nil
}
