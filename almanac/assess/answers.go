package assess

import "haulm/garden"

// An Assessment is what the reckoning says of a whole garden on one day.
type Assessment struct {
	On       garden.Day `json:"on"`
	Season   *Season    `json:"season"` // nil while nothing was seen that tells it
	Skipped  []Skipped  `json:"skipped"`
	Findings []Finding  `json:"findings"` // what is worth a look first, then in round order
	Tasks    []Task     `json:"tasks"`
}

// A Season says how the garden's year runs against its usual one.
type Season struct {
	Days  float64      `json:"days"` // positive is late; for the part of the year around the day asked for
	SD    float64      `json:"sd"`
	From  int          `json:"from"` // how many plantings tell it
	Now   SeasonPart   `json:"now"`  // the part that Days, SD and From are of
	Parts []SeasonPart `json:"parts"`
}

// A SeasonPart is the season of the plants expected to flower in one stretch.
type SeasonPart struct {
	From   garden.Day `json:"from"`
	To     garden.Day `json:"to"`
	Days   float64    `json:"days"`
	SD     float64    `json:"sd"`
	Plants int        `json:"plants"`
}

// A Skipped names a record that could not be used, and why.
type Skipped struct {
	Record string `json:"record"`
	Why    string `json:"why"`
}

// A Finding is what the reckoning says about one flush, or the growth or the
// coming up, of one planting.
type Finding struct {
	Planting    string     `json:"planting"`
	Flush       *int       `json:"flush"` // from 0; nil where it is not about flower
	Year        int        `json:"year"`
	Verdict     string     `json:"verdict"`
	Days        *Interval  `json:"days"`        // how late, in days; negative is early
	SeasonDays  *float64   `json:"seasonDays"`  // of which the season accounts for
	Probability *float64   `json:"probability"` // of this by luck alone
	WorthALook  bool       `json:"worthALook"`
	Evidence    []Evidence `json:"evidence"`
	Check       []string   `json:"check"` // codes of what to check first, in order
	Dismissed   *Dismissed `json:"dismissed"`
}

// An Interval is a lower and an upper end, null where open.
type Interval [2]*float64

// A Dismissed says that a person put the finding aside, and why.
type Dismissed struct {
	Why string      `json:"why"`
	Day *garden.Day `json:"day"`
}

// An Evidence is one fact behind a finding: a code that picks the sentence, and
// the values that the sentence names. Lengths are in centimetres.
type Evidence struct {
	Say         string      `json:"say"`
	Day         *garden.Day `json:"day,omitempty"`
	From        *garden.Day `json:"from,omitempty"`
	To          *garden.Day `json:"to,omitempty"`
	Days        *float64    `json:"days,omitempty"`
	SD          *float64    `json:"sd,omitempty"`
	CM          *float64    `json:"cm,omitempty"`
	LoCM        *float64    `json:"loCm,omitempty"` // the likely band
	HiCM        *float64    `json:"hiCm,omitempty"`
	LikelyCM    *float64    `json:"likelyCm,omitempty"`
	Rate        *float64    `json:"rate,omitempty"` // of growth, the usual being 1
	Stage       *int        `json:"stage,omitempty"`
	Plants      *int        `json:"plants,omitempty"`
	Count       *int        `json:"count,omitempty"`
	Of          *int        `json:"of,omitempty"`     // how many there were before
	Season      *int        `json:"season,omitempty"` // since planting, the first being 1
	Measures    *int        `json:"measures,omitempty"`
	Year        *int        `json:"year,omitempty"`
	YearLo      *int        `json:"yearLo,omitempty"`
	YearHi      *int        `json:"yearHi,omitempty"`
	Share       *float64    `json:"share,omitempty"` // of its room, its show or the water its roots reach, 0 to 1
	Hours       *float64    `json:"hours,omitempty"` // of direct sun a day
	LoHours     *float64    `json:"loHours,omitempty"`
	HiHours     *float64    `json:"hiHours,omitempty"` // the hours that its kind wants
	Before      *float64    `json:"before,omitempty"`  // of the hours, those before noon
	After       *float64    `json:"after,omitempty"`
	Litres      *float64    `json:"litres,omitempty"`      // for each plant
	All         *float64    `json:"all,omitempty"`         // litres for all of the planting
	Probability *float64    `json:"probability,omitempty"` // of the fact
	C           *float64    `json:"c,omitempty"`           // °C
	LimitC      *float64    `json:"limitC,omitempty"`      // the coldest that it stands
	Other       string      `json:"other,omitempty"`       // the planting that does it
	What        string      `json:"what,omitempty"`        // the sign, the work, or the name of the other planting's kind
}

// A Task is a piece of care that is due, as somebody wrote it down.
type Task struct {
	Planting string      `json:"planting"`
	Care     string      `json:"care"`
	Due      garden.Span `json:"due"`
	Reason   string      `json:"reason"`
}
