package bloom

import (
	"math"

	"haulm/almanac/heat"
	"haulm/garden"
)

// A thermal moves the catalogue by heat: what opens at the reference site on a
// day opens in a garden when the heat of its usual year has come to as much.
type thermal struct{ reference, here heat.Season }

// referenceNormals are the reference site's: a lowland garden at 51.5° N in the
// maritime climate of south-east England, as means of 1991 to 2020 are published
// for stations there, from memory and to half a degree.
func referenceNormals() heat.Normals {
	return heat.Normals{{MinC: 2.5, MaxC: 8}, {MinC: 2.5, MaxC: 8.5}, {MinC: 4, MaxC: 11.5}, {MinC: 5.5, MaxC: 14.5},
		{MinC: 8.5, MaxC: 18}, {MinC: 11.5, MaxC: 21}, {MinC: 13.5, MaxC: 23.5}, {MinC: 13.5, MaxC: 23},
		{MinC: 11, MaxC: 20}, {MinC: 8.5, MaxC: 15.5}, {MinC: 5, MaxC: 11.5}, {MinC: 3, MaxC: 8.5}}
}

// thermalOf is a garden's; nil where its normals are not known.
func thermalOf(g garden.Garden) *thermal {
	normals, err := heat.NewNormals(g.Normals)
	if err != nil {
		return nil
	}
	since, from := garden.DayOf(anyYear, 1, 1), garden.DayOf(anyYear, 1, 1)
	if g.Lat != nil && *g.Lat < 0 {
		since = garden.DayOf(anyYear, 7, 1)
	}
	return &thermal{reference: heat.NewSeason(flowerHeat(), referenceNormals(), heat.Series{}, from),
		here: heat.NewSeason(flowerHeat(), normals, heat.Series{}, since)}
}

// later is how many days later than at the reference site what opens there on a
// day of a northern year is. What opens in winter goes with what opens once spring's
// move is whole again: on its own days too little heat has been counted to tell.
func (t *thermal) later(dayOfYear float64) float64 {
	if dayOfYear > springReturnsFrom || dayOfYear < springReturnsTo-yearDays {
		dayOfYear = springReturnsTo - yearDays
	}
	days := t.here.Reaches(t.reference.Sum(garden.DayOf(anyYear, 1, 0)+garden.Day(dayOfYear))) - dayOfYear
	return math.Max(-greatestMove, math.Min(greatestMove, days))
}
