package suit

import (
	"encoding/json"

	"haulm/garden"
)

// An Input is what the verb "suit" is asked.
type Input struct {
	Spot Spot `json:"spot"`

	// Kinds are those to choose from: slugs of the catalogue, or whole kinds, the
	// fields of a kind record with an "id". Left out is the whole catalogue.
	Kinds []json.RawMessage `json:"kinds,omitempty"`

	// Have is what is in flower there already; null is not known, which leaves
	// the weeks out of the ranking.
	Have *Have `json:"have"`

	// Choose is how many kinds the set shall have; null is setSize.
	Choose *int `json:"choose"`
	// AreaM2 is the ground for the set, of which each kind gets an equal share;
	// null is not said: one plant of each.
	AreaM2 *float64 `json:"areaM2"`
}

// A Spot is a place to plant. Null, or an empty text, is not known or not asked.
type Spot struct {
	Lat *float64 `json:"lat"` // degrees north; below 0 the year is turned by half
	// LatenessDays says how many days later than at the catalogue's reference
	// site spring comes here, negative for earlier; autumn does not move with it.
	LatenessDays float64 `json:"latenessDays,omitempty"`

	SunHours   *float64 `json:"sunHours"`   // of direct sun a day, mean over the growing season
	SunMorning *float64 `json:"sunMorning"` // of these before solar noon

	Soil      string   `json:"soil,omitempty"`     // USDA texture class, as bed.soil
	Drainage  string   `json:"drainage,omitempty"` // quick, good, slow or wet
	Moisture  string   `json:"moisture,omitempty"` // dry, drained, moist or wet: overrides soil, drainage and irrigated
	Irrigated bool     `json:"irrigated,omitempty"`
	PH        *float64 `json:"ph"`

	MinWinterC *float64 `json:"minWinterC"` // the coldest of an ordinary winter, °C
	Container  bool     `json:"container,omitempty"`

	RoomCm   *float64      `json:"roomCm"`   // free across, from neighbour to neighbour
	HeightCm *garden.Range `json:"heightCm"` // wanted
	Support  *bool         `json:"support"`  // whether there is something to climb
	Colours  []string      `json:"colours,omitempty"`
}

// A Have is what flowers there already. All three add up.
type Have struct {
	Kinds   []string    `json:"kinds,omitempty"`   // by slug or id, once for each planting
	Windows []Flowering `json:"windows,omitempty"` // in the garden's own dates
	Weeks   []float64   `json:"weeks,omitempty"`   // plantings in flower in each of the 52 weeks
}

// A Flowering is one planting's flower in the garden's own dates; a window may
// run over New Year.
type Flowering struct {
	From    garden.MonthDay `json:"from"`
	To      garden.MonthDay `json:"to"`
	Colours []string        `json:"colours,omitempty"` // "#rrggbb"
}
