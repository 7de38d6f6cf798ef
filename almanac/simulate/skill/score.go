package skill

import (
	"math"

	"haulm/almanac/bloom"
	"haulm/almanac/stats"
)

// inTime is how long after a late plant flowers naming it still counts.
const inTime = 30.0

// A Score counts what came of many walks.
type Score struct {
	Gardens, Days           int
	Haulm, Notebook, Oracle Record
	Blind                   Share // blind plants that Haulm named
	Before, After           Share // truth within the 80 % band, of healthy plants
	HowLate                 Share // true lateness within the days stated, of late plants seen open
	AtLeast                 Share // true lateness no less than the least stated when first named, of late plants
	Season, SeasonTwice     Share // truth within one and two of the sds stated
}

// A Share counts how often something held.
type Share struct{ Held, Of int }

func (s *Share) count(held bool) {
	s.Of++
	if held {
		s.Held++
	}
}

// Percent is the share in hundredths; NaN of nothing.
func (s Share) Percent() float64 { return 100 * float64(s.Held) / float64(s.Of) }

// A Record is one judge's.
type Record struct {
	Named Share     // of truly late plants, in time
	Days  []float64 // from their own expected day to being named, of those
	False Share     // of healthy plant-seasons, called late on any day
}

// MedianDays is the median over the late plants that were named in time; those that
// were not do not count in it, and it is NaN of none.
func (r Record) MedianDays() float64 { return stats.Median(r.Days) }

func (r *Record) count(c *Case, named *Naming) {
	switch {
	case c.Healthy():
		r.False.count(named != nil)
	case c.TrulyLate():
		in := named != nil && named.Day <= *c.OpensDay+inTime
		r.Named.count(in)
		if in {
			r.Days = append(r.Days, named.Day-c.ExpectedDay)
		}
	}
}

// TrulyLate says whether a plant flowered, and late for a cause of its own.
func (c *Case) TrulyLate() bool { return c.OpensDay != nil && c.LateDays > 0 }

// Healthy says whether a plant flowered, and was late by luck at most.
func (c *Case) Healthy() bool { return c.OpensDay != nil && c.LateDays == 0 }

// Count adds a walk.
func (s *Score) Count(w Walk) {
	s.Gardens++
	s.Days += w.Days
	for i := range w.Cases {
		s.flush(&w.Cases[i])
	}
	for _, p := range w.Parts {
		off := math.Abs(p.Told.Days - p.True)
		s.Season.count(off <= p.Told.SD)
		s.SeasonTwice.count(off <= 2*p.Told.SD)
	}
}

func (s *Score) flush(c *Case) {
	s.Haulm.count(c, c.Haulm)
	s.Notebook.count(c, c.Notebook)
	s.Oracle.count(c, c.Oracle)
	switch {
	case c.OpensDay == nil:
		s.Blind.count(c.Haulm != nil)
	case c.Healthy():
		s.Before.band(c.Before, *c.OpensDay)
		s.After.band(c.After, *c.OpensDay)
	default:
		s.late(c)
	}
}

// late counts what was stated of how late a late plant is.
func (s *Score) late(c *Case) {
	late := *c.OpensDay - c.UsualDay
	if days := c.Last.Days; days[0] != nil && days[1] != nil {
		s.HowLate.count(*days[0] <= late && late <= *days[1])
	}
	if least := c.First.Days[0]; least != nil {
		s.AtLeast.count(*least <= late)
	}
}

// band counts a stated 80 % band.
func (s *Share) band(b *bloom.Band, opens float64) {
	if b != nil {
		s.count(opens >= b.P10 && opens <= b.P90)
	}
}

// Add adds another score's counts.
func (s *Score) Add(o Score) {
	s.Gardens, s.Days = s.Gardens+o.Gardens, s.Days+o.Days
	s.Haulm.add(o.Haulm)
	s.Notebook.add(o.Notebook)
	s.Oracle.add(o.Oracle)
	for _, pair := range [][2]*Share{{&s.Blind, &o.Blind}, {&s.Before, &o.Before}, {&s.After, &o.After}, {&s.HowLate, &o.HowLate}, {&s.AtLeast, &o.AtLeast},
		{&s.Season, &o.Season}, {&s.SeasonTwice, &o.SeasonTwice}} {
		pair[0].add(*pair[1])
	}
}

func (s *Share) add(o Share) { s.Held, s.Of = s.Held+o.Held, s.Of+o.Of }

func (r *Record) add(o Record) {
	r.Named.add(o.Named)
	r.False.add(o.False)
	r.Days = append(r.Days, o.Days...)
}
