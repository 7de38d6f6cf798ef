package water

import "haulm/garden"

// A Plant is one planting and what is known of the water it gets. Its fields are
// those of the records, and as in records any may be missing.
type Plant struct {
	Kind garden.Kind `json:"kind"` // the fields of a kind record that water uses

	Planted *garden.PartialDate `json:"planted"` // null: it was there before
	Form    string              `json:"form,omitempty"`
	PotL    *float64            `json:"potL"`    // litres of the pot it came in, or stands in
	DepthCm *float64            `json:"depthCm"` // how deep it was planted
	Count   *int                `json:"count"`   // plants of the planting; null is one
	AreaM2  *float64            `json:"areaM2"`  // ground of the whole planting, where it covers one

	Soil      string `json:"soil,omitempty"` // of its bed, a USDA texture class; "" not known
	Irrigated bool   `json:"irrigated,omitempty"`
	Container bool   `json:"container,omitempty"`

	// RainShare is how much of the rain reaches the ground there, 0 to 1: less at
	// the foot of a wall or under a roof. Null is all of it.
	RainShare *float64 `json:"rainShare"`

	Given []Given `json:"given,omitempty"` // in any order; those after On are not looked at
	Mulch []Mulch `json:"mulch,omitempty"` // likewise

	// LatenessDays says how many days later than the catalogue's reference site
	// this garden's seasons run, negative for earlier.
	LatenessDays float64 `json:"latenessDays,omitempty"`

	On garden.Day `json:"on"` // today
}

// A Given is water that somebody gave to a planting on one day: litres for all of
// its plants together, null where nobody wrote how much.
type Given struct {
	Day    garden.Day `json:"day"`
	Litres *float64   `json:"litres"`
}

// A Mulch is a layer of organic mulch laid round a planting; null is the usual
// depth.
type Mulch struct {
	Day     garden.Day `json:"day"`
	DepthCm *float64   `json:"depthCm"`
}

// A Day is one day's weather at a garden; any value may be null.
type Day struct {
	Day      garden.Day `json:"day"`
	MinC     *float64   `json:"minC"`
	MaxC     *float64   `json:"maxC"`
	RainMm   *float64   `json:"rainMm"`
	SunHours *float64   `json:"sunHours"`
	WindMs   *float64   `json:"windMs"` // at 10 m, as weather services give it
}

// An Input is what the verb "water" takes: a plant, and the place and weather of
// its garden.
type Input struct {
	Plant
	Lat       float64  `json:"lat"`
	AltitudeM *float64 `json:"altitudeM"`
	Days      []Day    `json:"days"` // in any order, each day once
}
