package simulate

import "haulm/garden"

// An Output is what the verb "simulate" gives: a garden's records, and the truth
// behind them.
type Output struct {
	On      garden.Day      `json:"on"` // the last day that anything can have been seen
	Records []garden.Record `json:"records"`
	Truth   Truth           `json:"truth"`
}

// A Truth is what no record says.
type Truth struct {
	Flushes []Flush  `json:"flushes"` // by planting, then year
	Seasons []Season `json:"seasons"`
	Luck    Luck     `json:"luck"`
}

// A Flush is one planting's flower in one year. Days are days of that year, to a
// thousandth, and may be below 1 or above 366: 1 is its 1 January, and what opens
// at 160.4 is first open to a look on day 161.
type Flush struct {
	Planting string `json:"planting"`
	Kind     string `json:"kind"`
	Year     int    `json:"year"`
	// StatedDay and StatedEnd are what the kind's window says.
	StatedDay float64 `json:"statedDay"`
	StatedEnd float64 `json:"statedEnd"`
	// UsualDay is the plant's own in a usual year; SeasonDays what the season,
	// and the place in this year, add to it; ExpectedDay their sum: everything
	// but this year's chance and lateness.
	UsualDay    float64 `json:"usualDay"`
	SeasonDays  float64 `json:"seasonDays"`
	ExpectedDay float64 `json:"expectedDay"`
	// LateDays is by how much it is late, 0 for a plant that is not.
	LateDays float64 `json:"lateDays"`
	// OpensDay and EndsDay are when it opened and ended; null where it had no
	// flower.
	OpensDay *float64 `json:"opensDay"`
	EndsDay  *float64 `json:"endsDay"`
	// LastsDays is how long its flower lasts.
	LastsDays  float64 `json:"lastsDays"`
	Struggling bool    `json:"struggling"`
}

// A Season is how many days late each day of a year ran for what heat moves, from
// 1 January, to 0.1.
type Season struct {
	Year int       `json:"year"`
	Days []float64 `json:"days"`
}
