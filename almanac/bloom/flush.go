package bloom

import (
	"math"

	"haulm/garden"
)

// A Flush is one flowering, seen or not, of one planting in one year: what the
// catalogue expects and what the looks allow. Days are days of the Year as real
// numbers, 1 being 1 January; they may be below 1 or above 366, so that winter
// flower is not cut at New Year.
type Flush struct {
	Plant, Kind string
	Bed         string // "" where none is told
	Index       int    // which window of the kind, from 0
	Year        int    // the year of Expected

	Expected   float64 // start of the kind's window, moved to this garden
	SD         float64 // how far that may be off, days
	SeasonSD   float64 // how far seasons move flower at that time of year, days
	LengthDays float64 // how long the kind's window is
	HeatDays   float64 // how much later its year's heat came than usual, where it counts and is known

	LastsDays  float64 // how long it should last: the window's length as the garden's other flushes have it
	LastsLogSD float64 // how far the log of that may be off
	Flowers    float64 // the chance that it flowers this year at all, before any look of this year

	After, By       *float64 // opened after After and by By; nil is not known
	EndAfter, EndBy *float64 // ended after EndAfter and by EndBy
	FirstSeason     bool     // the first flowering season after planting
	LaterDays       float64  // how much later the first season makes it, days

	Standing Standing
	Seen     Seen

	seen        []sight // what the looks at it said, in order
	atLeastDays float64 // it lasts, where that is certain
}

// Seen is what the looks at one flush were, for evidence; nil is none.
type Seen struct {
	LastLook    *garden.Day // the last that said anything about flower
	LastWas     string      // "bud", "not-in-flower", "flower" or "over"; "" with no look
	LastStage   *int
	LastBud     *garden.Day
	FirstFlower *garden.Day
	LastFlower  *garden.Day
	Over        *garden.Day
	Days        []garden.Day // every look that bounds the flush, in order
}

// Standing says whether a flush can be judged and learnt from.
type Standing struct {
	Kind StandingKind
	Day  *garden.Day // of what caused it, where there is a day
	What string      // what caused it: the work, the sign, or the care it waits for
}

// A StandingKind is why a flush is or is not judged.
type StandingKind int

// The standings of a flush.
const (
	Open          StandingKind = iota // judged and learnt from
	Closed                            // past its time without flower: not learnt from
	Suspended                         // work or harm moved it
	Establishing                      // too young to be expected to flower
	Waiting                           // a later flush whose conditions are not met
	Outside                           // under cover: has no part in the garden's season
	NoExpectation                     // nothing is expected here: no window, or beyond the catalogue's latitudes
)

// newYear is 1 January of the flush's year, counted from 1 January 1970.
func (f Flush) newYear() float64 { return float64(garden.DayOf(f.Year, 1, 1)) }

// dayOf is the civil date of a day of the flush's year.
func (f Flush) dayOf(day float64) garden.Day { return garden.Day(math.Floor(f.newYear() + day - 1)) }

// ofYear is a civil date as a day of the flush's year.
func (f Flush) ofYear(day garden.Day) float64 { return float64(day) - f.newYear() + 1 }
