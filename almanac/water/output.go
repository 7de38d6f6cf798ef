package water

import "haulm/garden"

// An Output says how a planting stands for water at the end of a day. Millimetres
// and litres have at most 7 significant figures, stress is rounded to 0.001.
type Output struct {
	// Unknown says why there is no answer, and then all numbers are null:
	// "weather-missing" without any, "weather-stale" when it ends more than three
	// days before On, "weather-gap" when a longer gap leaves both wet and dry
	// possible, "weather-short" when it starts too late to tell, "not-planted"
	// before its day. "" when there is one.
	Unknown string `json:"unknown,omitempty"`

	AsOf        *garden.Day `json:"asOf"`        // the last day of weather that counts
	DepletionMm *float64    `json:"depletionMm"` // missing from the root zone, on the root zone's ground
	ErrorMm     *float64    `json:"errorMm"`     // it lies within so much either side, as far as gaps go
	TAWMm       *float64    `json:"tawMm"`       // what the root zone can give in all
	RAWMm       *float64    `json:"rawMm"`       // what it gives without stress
	Stress      *float64    `json:"stress"`      // Ks of FAO-56: 1 none, 0 all water gone
	DryDays     *int        `json:"dryDays"`     // days running, up to AsOf, with the readily available water gone

	Asks      bool     `json:"asks"`            // water now
	Quiet     string   `json:"quiet,omitempty"` // why it is not asked for: "irrigated", "established", "dormant", "moist"
	EveryDay  bool     `json:"everyDay"`        // the store holds less than a warm day takes: water asked for can be due again tomorrow
	Litres    float64  `json:"litres"`          // to give each plant now, rounded up to what a can shows; 0 when not asked
	LitresAll float64  `json:"litresAll"`       // the same for all plants of the planting
	RefillL   *float64 `json:"refillL"`         // what would fill each plant's root zone, not rounded up

	Assumed []string     `json:"assumed"` // codes of what was taken for granted, in a fixed order; see assumptions.go
	Filled  []garden.Day `json:"filled"`  // days whose weather was filled from their neighbours, of those that matter
}
