package sun

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haulm/garden"
)

// A Place is where a plan lies on the earth: degrees, north and east positive,
// and the bearing of the plan's y axis, clockwise from north.
type Place struct {
	Lat, Lon       float64
	PlanBearingDeg float64
}

func (p Place) check() error {
	if err := checkPlace(p.Lat, p.Lon); err != nil {
		return err
	}
	if !(math.Abs(p.PlanBearingDeg) <= 360) {
		return fmt.Errorf("planBearingDeg %g is outside -360 to 360", p.PlanBearingDeg)
	}
	return nil
}

// A Site is a garden with all that casts shade in it. It keeps the sun's path of
// the last year that it was asked about, so neither it nor its Points are safe
// for several goroutines at once.
type Site struct {
	here   Place
	prisms []Prism
	year   int
	paths  []*path // of the days of year, nil until asked for
}

// NewSite takes a place and its prisms. It fails, naming the field, on a place
// off the earth, on a prism that makes no sense ("structures[2]: …") and on more
// prisms or corners than any garden has.
func NewSite(here Place, prisms []Prism) (*Site, error) {
	if err := here.check(); err != nil {
		return nil, err
	}
	if len(prisms) > mostPrisms {
		return nil, fmt.Errorf("structures has %d entries: at most %d can be reckoned", len(prisms), mostPrisms)
	}
	corners := 0
	for i, p := range prisms {
		if err := p.check(); err != nil {
			return nil, fmt.Errorf("structures[%d]: %w", i, err)
		}
		if corners += len(p.Outline); corners > mostAllCorners {
			return nil, fmt.Errorf("structures[%d]: the outlines so far have %d points, at most %d can be reckoned", i, corners, mostAllCorners)
		}
	}
	return &Site{here: here, prisms: ready(here.Lat, prisms)}, nil
}

// ready copies the prisms, with the latitude's leaf dates where they have none,
// the densest first: where they hide the sun the others need not be looked at.
func ready(lat float64, prisms []Prism) []Prism {
	out, fall := LeafDates(lat, nil)
	own := append([]Prism(nil), prisms...)
	for i := range own {
		if own[i].LeafOut == nil {
			own[i].LeafOut = &out
		}
		if own[i].LeafFall == nil {
			own[i].LeafFall = &fall
		}
	}
	slices.SortStableFunc(own, func(a, b Prism) int { return cmp.Compare(b.Density, a.Density) })
	return own
}

// passes gives for each prism the share of the sun that passes it on a day.
func (s *Site) passes(day garden.Day) []float64 {
	passes := make([]float64, len(s.prisms))
	for i, p := range s.prisms {
		passes[i] = 1 - p.takes(day)
	}
	return passes
}

// takes is the share of the sun that a prism takes on a day.
func (p Prism) takes(day garden.Day) float64 {
	if p.Leaf == Deciduous && !within(day, *p.LeafOut, *p.LeafFall) {
		return p.Density * bareShare
	}
	return p.Density
}

// within says whether a day lies from one day of the year up to, not on, another;
// the span may run over the new year, and is the whole year when both are equal.
func within(day garden.Day, from, to garden.MonthDay) bool {
	year := day.Year()
	after, before := day >= from.In(year), day < to.In(year)
	if from.In(year) < to.In(year) {
		return after && before
	}
	return after || before
}
