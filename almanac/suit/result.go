package suit

import "haulm/garden"

// A Result is the answer of the verb "suit". Scores are rounded to 0.001 and
// gains to 7 significant figures.
type Result struct {
	Ranked   []Ranked   `json:"ranked"`   // best first; equals by id
	Excluded []Excluded `json:"excluded"` // by id
	Set      Set        `json:"set"`
	// Unknown are the factors of which nothing is known at the spot, or nothing
	// was asked; they count neither way.
	Unknown []string `json:"unknown"`
}

// A Ranked is one kind as it suits the spot.
type Ranked struct {
	Kind    string   `json:"kind"`
	Name    string   `json:"name"`
	Score   float64  `json:"score"` // 0 to 1: the fit, and the weeks without flower that it fills
	Fit     float64  `json:"fit"`   // 0 to 1: how the spot suits it
	Factors []Factor `json:"factors"`
	// Cautions are the codes of the kind's cautions; the words stand with the
	// kind. None recorded does not mean safe.
	Cautions []string `json:"cautions"`
}

// A Factor is one thing that a kind is judged by.
type Factor struct {
	Factor string        `json:"factor"`
	Say    string        `json:"say"`             // the reason, by its code
	Score  *float64      `json:"score"`           // 0 to 1; null where nothing is known
	Here   *float64      `json:"here,omitempty"`  // what the spot has
	Wants  *garden.Range `json:"wants,omitempty"` // what the kind wants, in the same unit
}

// An Excluded is a kind that the spot rules out, with every factor that does so.
type Excluded struct {
	Kind     string   `json:"kind"`
	Name     string   `json:"name"`
	Factors  []Factor `json:"factors"`
	Cautions []string `json:"cautions"`
}

// A Set is the kinds that together fill the weeks without flower best.
type Set struct {
	Chosen []Chosen `json:"chosen"` // in the order in which they gain most
	Gain   float64  `json:"gain"`
	// AtLeast is the share of the best possible gain that this set has for sure:
	// 1 − 1/e or more (Nemhauser, Wolsey & Fisher 1978).
	AtLeast float64 `json:"atLeast"`
	// Before and After are the weeks, 1 to 52, in which nothing is in flower
	// without the set and with it.
	Before []int `json:"before"`
	After  []int `json:"after"`
}

// A Chosen is one kind of the set.
type Chosen struct {
	Kind   string  `json:"kind"`
	Name   string  `json:"name"`
	Plants int     `json:"plants"`
	Gain   float64 `json:"gain"`  // beside what there is and the kinds before it
	Weeks  []int   `json:"weeks"` // in which it flowers, 1 to 52
}

// What a kind is judged by.
const (
	Cold     = "cold"     // °C: the winter's minimum; wants: the least that it stands
	Sun      = "sun"      // hours of direct sun a day in the growing season
	Moisture = "moisture" // 0 dry, 1 drained, 2 moist, 3 wet
	PH       = "ph"
	Height   = "height"  // cm; here: the middle of what is wanted
	Room     = "room"    // cm across
	Support  = "support" // for climbers
	Pot      = "pot"     // in a container
	Colour   = "colour"  // here: the difference by CIEDE2000 to the nearest wanted
	Weeks    = "weeks"   // here: weeks of flower gained
)

// Why, in one code each.
const (
	Fits           = "fits"
	Unknown        = "unknown"      // at the spot, or not asked
	KindUnknown    = "kind-unknown" // the kind does not say
	TooCold        = "too-cold"
	NearlyTooCold  = "nearly-too-cold"
	LiftForWinter  = "lift-for-winter"
	TooShady       = "too-shady"
	TooSunny       = "too-sunny"
	TooDry         = "too-dry"
	TooWet         = "too-wet"
	TooAcid        = "too-acid"
	TooLimy        = "too-limy"
	TooTall        = "too-tall"
	TooLow         = "too-low"
	TooWide        = "too-wide"
	NothingToClimb = "nothing-to-climb"
	TooBigForAPot  = "too-big-for-a-pot"
	ByTheCompost   = "by-the-compost" // the soil of a pot is chosen
	OtherColour    = "other-colour"
	FillsWeeks     = "fills-weeks"
	FillsNoWeeks   = "fills-no-weeks"
)
