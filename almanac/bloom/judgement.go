package bloom

import "haulm/garden"

// A Verdict is what the model says of one flush.
type Verdict string

// The verdicts on a flush.
const (
	OnTime           Verdict = "on-time"
	Due              Verdict = "due"
	Early            Verdict = "early"
	Late             Verdict = "late"
	LaterThanTheBook Verdict = "later-than-the-book"
	FarEarly         Verdict = "far-early"
	NoFlowerSeen     Verdict = "no-flower-seen"
	NeedsALook       Verdict = "needs-a-look"
	IsEstablishing   Verdict = "establishing"
	IsSuspended      Verdict = "suspended"
	Unexpected       Verdict = "no-expectation"
)

// A Judgement is the verdict on one flush with what it rests on. Day counts are
// rounded to 0.1 and probabilities to 0.001; nil is not known.
type Judgement struct {
	Plant       string
	Year, Flush int
	Verdict     Verdict
	// Days is how late it opened against this garden's usual year (against the
	// catalogue in a garden's first season), negative is early: once it was seen to
	// open an 80 % band, before that [at least, nil].
	Days [2]*float64
	// SeasonDays is how many of those days the season accounts for.
	SeasonDays *float64
	// Probability is that of being this late by luck; for early and far-early,
	// this early; for no-flower-seen, of having flowered between the looks.
	Probability *float64
	// Flowers is the chance that it flowers this season at all, when by its looks
	// it has not yet; nil once flower was seen, or while a bud was the last thing
	// seen, and where nothing is judged.
	Flowers  *float64
	Expect   Expectation
	Evidence []Evidence
}

// An Evidence is one fact behind a judgement: a code that picks the sentence,
// and the values that the sentence names.
type Evidence struct {
	Say    string
	Day    *garden.Day
	From   *garden.Day
	To     *garden.Day
	Days   *float64
	SD     *float64
	Stage  *int
	Plants *int
	What   string
	// Probability is of what the sentence says: of may-not-flower, that it will not.
	Probability *float64
}

// An Expectation is when a flush should open and end, reckoned without its own
// season's looks; days of Year as in Flush, rounded to 0.1.
type Expectation struct {
	Plant       string
	Year, Flush int
	Open        Band
	Close       Band
}

// A Band is a median with the 5, 10, 90 and 95 % points about it.
type Band struct{ P05, P10, P50, P90, P95 float64 }

// A Strip is one flush as a picture of the year shows it: what was expected and
// what was seen. Intervals are days of Year.
type Strip struct {
	Expectation
	Expected bool        // whether the model has an expectation to draw
	Certain  *[2]float64 // in flower for certain, nil when never seen in flower
	Possible *[2]float64 // possibly in flower by the looks
	Looks    []float64   // days of looks that bound the flush
	Verdict  Verdict
}

// A Part is a stretch of the year, in days of the year, both included.
type Part struct{ From, To float64 }

// A SeasonPart is how late one part of one year runs in this garden, from how
// many plantings. WithGarden says that it is the garden's first season, in which
// the season cannot be told from what this garden differs by for good.
type SeasonPart struct {
	Part
	Year       int
	Days, SD   float64
	Plants     int
	WithGarden bool
}
