package growth

import "haulm/garden"

// A Result is the answer of the verb "growth". Centimetres are rounded to 0.1,
// probabilities to 0.001 and rates to 7 significant figures.
type Result struct {
	// Unknown says why there is no expectation: "kind-height" when the kind
	// has none, "start" when neither planting date nor a measure is known.
	// "" when there is one.
	Unknown string `json:"unknown,omitempty"`

	// Band is what kind, age and recorded work make likely, whatever was
	// measured, week by week: 10, 50 and 90 in a hundred such plants are lower.
	Band []BandDay `json:"band"`
	// Own is this planting's own course, fitted to its measures, likewise;
	// empty when nothing was measured.
	Own []BandDay `json:"own"`

	Rate       *Spread   `json:"rate"`       // growth against what is usual, 1 being as usual; null when never measured
	EventualCm *Spread   `json:"eventualCm"` // the size it is on the way to; null when unknown
	Findings   []Finding `json:"findings"`
	Reaches    *Reach    `json:"reaches"` // null where nothing can be said
}

// A BandDay is the band of heights on one day, Lo ≤ Mid ≤ Hi.
type BandDay struct {
	Day garden.Day `json:"day"`
	Lo  float64    `json:"lo"`
	Mid float64    `json:"mid"`
	Hi  float64    `json:"hi"`
}

// A Spread is a quantity with its uncertainty: 10, 50 and 90 in a hundred.
type Spread struct {
	P10 float64 `json:"p10"`
	P50 float64 `json:"p50"`
	P90 float64 `json:"p90"`
}

// A Reach says when the planting has Share of its eventual size: in Year, and
// four times in five between From and To.
type Reach struct {
	Share float64 `json:"share"`
	Year  int     `json:"year"`
	From  int     `json:"from"`
	To    int     `json:"to"`
}

// The findings of growth.
const (
	SmallForAge = "small-for-age"
	Stalled     = "stalled"
	Reached     = "reached"
	Outgrown    = "outgrown"
)

// A Finding is one thing that the measures say about a planting, with the
// probability that it is so, what it rests on, and what to look at first. Codes
// are worded by the phone.
type Finding struct {
	Finding     string     `json:"finding"`
	Probability float64    `json:"probability"`
	Evidence    []Evidence `json:"evidence"`
	Check       []string   `json:"check"`
}

// An Evidence is one fact behind a finding. Say is its code; which of the other
// fields are set depends on it:
//
//   - "measured": Day, Cm, and ExpectedCm, the band of that day
//   - "spread": Day, Cm, ExpectedCm likewise
//   - "number": Day, Count of CountBefore planted
//   - "stems": Day, Count of CountBefore in the season before
//   - "rate": Rate, against the usual 1
//   - "establishing": Season, the first, second or third since planting
//   - "grown": From, Day, Measures, Cm grown where GrownExpectedCm was likely
//   - "range": ExpectedCm, the height of the kind, and Cm
type Evidence struct {
	Say             string      `json:"say"`
	From            *garden.Day `json:"from,omitempty"`
	Day             *garden.Day `json:"day,omitempty"`
	Cm              *float64    `json:"cm,omitempty"`
	ExpectedCm      *[2]float64 `json:"expectedCm,omitempty"`
	GrownExpectedCm *float64    `json:"grownExpectedCm,omitempty"`
	Count           *int        `json:"count,omitempty"`
	CountBefore     *int        `json:"countBefore,omitempty"`
	Rate            *Spread     `json:"rate,omitempty"`
	Season          int         `json:"season,omitempty"`
	Measures        int         `json:"measures,omitempty"`
}
