package water

import (
	"fmt"

	"haulm/garden"
)

// A bounded is a value that may be missing, with what it may be.
type bounded struct {
	field  string
	value  *float64
	lo, hi float64
}

// check fails on a value that is outside its bounds or no number.
func (b bounded) check() error {
	if b.value != nil && !(*b.value >= b.lo && *b.value <= b.hi) {
		return fmt.Errorf("%s %v is outside %v to %v", b.field, *b.value, b.lo, b.hi)
	}
	return nil
}

// checkEach names the day of the first value out of bounds.
func checkEach(day garden.Day, list []bounded) error {
	for _, one := range list {
		if err := one.check(); err != nil {
			return fmt.Errorf("%w on %s", err, day)
		}
	}
	return nil
}

func checkPlace(lat float64, altitudeM *float64) error {
	if err := (bounded{"lat", &lat, -90, 90}).check(); err != nil {
		return err
	}
	return bounded{"altitudeM", altitudeM, lowestM, highestM}.check()
}

func checkTemperatures(day garden.Day, minC, maxC *float64) error {
	if err := checkEach(day, []bounded{{"minC", minC, coldestC, hottestC}, {"maxC", maxC, coldestC, hottestC}}); err != nil {
		return err
	}
	if minC != nil && maxC != nil && *minC > *maxC {
		return fmt.Errorf("minC %v is above maxC %v on %s", *minC, *maxC, day)
	}
	return nil
}

func (p *Plant) check() error {
	list := []bounded{
		{"potL", p.PotL, 0, biggestPotL}, {"depthCm", p.DepthCm, -deepestCm, deepestCm}, {"areaM2", p.AreaM2, 0.0001, largestM2},
		{"rainShare", p.RainShare, 0, 1}, {"latenessDays", &p.LatenessDays, -furthestDays, furthestDays},
		{"kind.spreadCm", &p.Kind.SpreadCm[0], 0, tallestCm}, {"kind.spreadCm", &p.Kind.SpreadCm[1], 0, tallestCm},
		{"kind.yearsToSize", &p.Kind.YearsToSize, 0, 100},
	}
	for _, one := range list {
		if err := one.check(); err != nil {
			return err
		}
	}
	if p.Count != nil && (*p.Count < 0 || *p.Count > mostPlants) {
		return fmt.Errorf("count %d is outside 0 to %d", *p.Count, mostPlants)
	}
	for _, g := range p.Given {
		if err := checkEach(g.Day, []bounded{{"given.litres", g.Litres, 0, mostGivenL}}); err != nil {
			return err
		}
	}
	for _, m := range p.Mulch {
		if err := checkEach(m.Day, []bounded{{"mulch.depthCm", m.DepthCm, 0, deepestMulchCm}}); err != nil {
			return err
		}
	}
	return nil
}
