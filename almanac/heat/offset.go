package heat

import (
	"math"

	"haulm/garden"
)

const (
	// seasonDays is how far a season is reckoned: a year and the longest delay.
	seasonDays = 366 + longestDelay

	// longestDelay is where a search for the same heat stops. A season that far
	// behind at one place is beyond any on record, so it is a data error.
	longestDelay = 120

	// slowestHeat, °C·day a day, is the least usual rate that an error of the sum
	// is divided by: below it, in the depth of winter, dates mean nothing anyway.
	slowestHeat = 0.5
)

// A Season is the thermal time of one season beside that of a usual one, both
// counted from the same day: measured temperatures where known, the normals
// elsewhere and for days to come.
type Season struct {
	since   garden.Day
	sum     []float64 // at the end of day i
	usual   []float64
	sd      []float64 // of day i's heat in a usual year
	unknown []int     // days not measured up to and with day i
}

// NewSeason counts from a day, such as 1 January (1 July in the southern
// hemisphere), for a year and a third. The scale must have passed Check. Leave
// later days out of the series to reckon without looking ahead.
func NewSeason(scale Scale, normals Normals, series Series, since garden.Day) Season {
	s := Season{since: since, sum: make([]float64, seasonDays), usual: make([]float64, seasonDays),
		sd: make([]float64, seasonDays), unknown: make([]int, seasonDays)}
	var sum, usual float64
	unknown := 0
	for i := range seasonDays {
		day := since + garden.Day(i)
		mean, sd := scale.usual(normals, day)
		usual += mean
		if t := series.at(day); t.known {
			sum += scale.Of(t.minC, t.maxC)
		} else {
			sum += mean
			unknown++
		}
		s.sum[i], s.usual[i], s.sd[i], s.unknown[i] = sum, usual, sd, unknown
	}
	return s
}

// Sum is the season's degree-days from its first day to the end of a day, those
// not measured at their usual value; outside the season it is held to its ends.
func (s Season) Sum(day garden.Day) float64 { return s.sum[s.index(day)] }

func (s Season) index(day garden.Day) int {
	return max(0, min(len(s.sum)-1, int(day-s.since)))
}

// An Offset is how many days later than usual a season has the heat that is
// usual by a date, negative for earlier, and the standard deviation that comes
// from days not measured.
type Offset struct {
	Days float64
	SD   float64
}

// At gives the offset at a date: the day on which this season's sum reaches the
// usual sum of that date, less the date. Where winter has brought no heat yet
// there is nothing to compare and it is 0.
func (s Season) At(day garden.Day) Offset {
	i := s.index(day)
	level := s.usual[i]
	if level <= 0 {
		return Offset{}
	}
	reached := s.reaches(level, i)
	end := min(len(s.sum)-1, max(i, int(math.Ceil(reached))))
	return Offset{Days: reached - float64(i), SD: s.error(end)}
}

// reaches is the fractional index at whose end the season has a level, not
// looked for further than longestDelay after index i.
func (s Season) reaches(level float64, i int) float64 {
	last := min(len(s.sum)-1, i+longestDelay)
	before := 0.0
	for j := 0; j <= last; j++ {
		if s.sum[j] >= level {
			return float64(j) - 1 + (level-before)/(s.sum[j]-before)
		}
		before = s.sum[j]
	}
	return float64(last)
}

// Reaches is on which day of the season, 1 being its first and fractions of a day
// allowed, its sum comes to a level; where it never does, its last.
func (s Season) Reaches(level float64) float64 { return s.reaches(level, len(s.sum)) + 1 }

// error turns the chance in the days not measured, up to an index, into days.
func (s Season) error(end int) float64 {
	if s.unknown[end] == 0 {
		return 0
	}
	chance, counted := 0.0, 0
	for j := 0; j <= end; j++ {
		if j == 0 && s.unknown[0] == 1 || j > 0 && s.unknown[j] > s.unknown[j-1] {
			chance += s.sd[j]
			counted++
		}
	}
	usualRate := s.usual[end] - s.usual[max(0, end-7)]
	perDay := math.Max(slowestHeat, usualRate/float64(max(1, min(7, end))))
	return chance / float64(counted) * strayOfSum(float64(counted)) / perDay
}
