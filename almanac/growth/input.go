package growth

import "haulm/garden"

// An Input is one planting and what is known of it. It is the JSON of the verb
// "growth" and of no record; lengths are in centimetres.
type Input struct {
	Kind garden.Kind `json:"kind"` // the fields of a kind record that growth uses

	Planted  *garden.PartialDate `json:"planted"`        // null: it was there before
	Form     string              `json:"form,omitempty"` // as planting.form; "" not said
	PotL     *float64            `json:"potL"`           // litres, for a pot
	HeightCm *float64            `json:"heightCm"`       // when planted
	Count    *int                `json:"count"`          // plants, or bulbs, as planted

	// Moves are the days on which it was dug up and planted again, in any order.
	Moves    []garden.Day `json:"moves,omitempty"`
	Measures []Measure    `json:"measures,omitempty"` // in any order; those after On are not looked at
	Work     []Work       `json:"work,omitempty"`     // in any order, likewise

	On garden.Day `json:"on"` // today

	// LatenessDays says how many days later than the catalogue's reference site
	// this garden's seasons run (bloom reckons it), negative for earlier.
	LatenessDays float64 `json:"latenessDays,omitempty"`
	// Southern turns the catalogue's windows by half a year.
	Southern bool `json:"southern,omitempty"`

	// From and To bound the bands; null is the four years before On and the
	// year after it.
	From *garden.Day `json:"from"`
	To   *garden.Day `json:"to"`
}

// A Measure is what was measured at the planting on one day. Null is not measured.
type Measure struct {
	Day      garden.Day `json:"day"`
	HeightCm *float64   `json:"heightCm"`
	SpreadCm *float64   `json:"spreadCm"`
	Alive    *int       `json:"alive"` // plants, or shoots of bulbs, alive
	Stems    *int       `json:"stems"` // flower stems at once
}

// A Work is what was done to the planting on one day: "pruned", "cut back",
// "divided" and the catalogue's words for the same; other work is not growth's
// affair, unless it says what height was left.
type Work struct {
	Day          garden.Day `json:"day"`
	What         string     `json:"what"`
	HeightLeftCm *float64   `json:"heightLeftCm"`
}
