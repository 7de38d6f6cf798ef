package garden

// A Range is a lower and an upper bound, both included.
type Range [2]float64

// A Window is a stretch of any year; it may run over New Year.
type Window struct {
	From MonthDay `json:"from"`
	To   MonthDay `json:"to"`
}

// A Kind is what a plant is and what is expected of it. The catalogue is filled
// in for the reference site: 51.5° N, 50 m, maritime temperate.
type Kind struct {
	Identity
	Name          string        `json:"name"` // botanical, as the rules for cultivated plants write it
	Synonyms      []string      `json:"synonyms"`
	Common        []string      `json:"common"`
	Habit         string        `json:"habit"`
	LifeCycle     string        `json:"lifeCycle"`
	Foliage       string        `json:"foliage"`
	Emerges       *Window       `json:"emerges"`
	HeightCm      Range         `json:"heightCm"`
	SpreadCm      Range         `json:"spreadCm"`
	SpreadHabit   string        `json:"spreadHabit"`
	YearsToSize   float64       `json:"yearsToSize"`
	YearsToFlower float64       `json:"yearsToFlower"`
	Pace          string        `json:"pace"`
	SunHours      Range         `json:"sunHours"` // hours of direct sun a day in the growing season
	Moisture      string        `json:"moisture"`
	PH            Range         `json:"ph"`
	MinWinterC    float64       `json:"minWinterC"`
	Bloom         []BloomWindow `json:"bloom"` // by flush, in order
	FlowersOn     string        `json:"flowersOn"`
	PruneGroup    string        `json:"pruneGroup"`
	Cue           string        `json:"cue"`
	Interest      []Interest    `json:"interest"`
	Colours       []string      `json:"colours"` // sRGB, "#rrggbb"
	Scent         string        `json:"scent"`
	Pollinators   string        `json:"pollinators"`
	Care          []CareRule    `json:"care"`
	Cautions      []Caution     `json:"cautions"`
}

// A BloomWindow is one flush: when it opens and ends, and what it needs first.
type BloomWindow struct {
	From  MonthDay `json:"from"`
	To    MonthDay `json:"to"`
	Needs string   `json:"needs"` // "", deadhead or cut-back
}

// An Interest is one reason to look at a kind: flower, leaf, hip, berry,
// seed-head, autumn-colour or bark.
type Interest struct {
	What    string   `json:"what"`
	From    MonthDay `json:"from"`
	To      MonthDay `json:"to"`
	Colours []string `json:"colours"`
}

// A CareRule is one piece of care that a kind asks for.
type CareRule struct {
	What       string   `json:"what"`
	When       CareTime `json:"when"`
	EveryYears int      `json:"everyYears,omitempty"` // 0: each year
	Why        string   `json:"why"`
}

// A CareTime is either a window of the year or "after" something seen.
type CareTime struct {
	From  *MonthDay `json:"from,omitempty"`
	To    *MonthDay `json:"to,omitempty"`
	After string    `json:"after,omitempty"` // first-flush or bloom
}

// A Caution is a way in which a kind can hurt someone or something.
type Caution struct {
	Code  string `json:"code"`
	Words string `json:"words"`
}
