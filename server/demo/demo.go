// Package demo holds the demo garden: an invented garden on a slope above an
// inlet at 47.6° N, with four seasons of entries by two invented people, under
// weather that was real.
//
// Start in garden.json: its beds, structures and plantings, what really is the
// matter with some of them, and what people wrote. The rest is grown from it by
// the package. weather.go reads the open daily series; season.go makes early and
// late years of it; truth.go and size.go say what each plant does in them;
// rounds.go sends people into the garden, looks.go writes down what they see and
// works.go what they do. Nothing is left to chance from one run to the next:
// chance.go draws the same lots each time.
//
// The truth is kept apart from the reckoning on purpose. The dates that plants
// keep here are ours; the almanac sees only records, and the tests ask whether it
// finds the stories that garden.json tells.
package demo

import (
	"cmp"
	"slices"

	"haulm/garden"
)

// gardenID is the demo garden's id.
const gardenID = "demo"

// Today is the date at which the demo garden's clock stands: high summer of its
// last year, with most borders in flower.
func Today() garden.Day { return garden.DayOf(lastYear, 7, 10) }

// The years of the weather series, which are those of the entries.
const firstYear, lastYear = 2012, 2015

// Records gives every record of the demo garden, the same at each call, in a
// reader's order and then by id: the garden with its clock, beds, structures,
// plantings, observations, work, daily weather and dismissals. No record is
// dated after Today. The error is for an embedded file that does not hold together.
func Records() ([]garden.Record, error) {
	g, err := newGrower()
	if err != nil {
		return nil, err
	}
	w := &writer{}
	g.writePlaces(w)
	g.writeWeather(w)
	g.writePlantings(w)
	g.writeWorks(w)
	g.writeLooks(w)
	g.writePutAside(w)
	slices.SortFunc(w.records, func(a, b garden.Record) int {
		return cmp.Or(cmp.Compare(turn(a), turn(b)), cmp.Compare(a.Ref.ID, b.Ref.ID))
	})
	return w.records, w.err
}

// turn is where a kind of record stands in a reader's order, so that a phone
// that takes them in turn shows beds and plantings first and weather last.
func turn(record garden.Record) int { return slices.Index(garden.RecordKinds(), record.Ref.Kind) }
