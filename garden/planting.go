package garden

// A Planting is a kind in the ground: one plant or a group.
type Planting struct {
	Identity
	Kind       string       `json:"kind"`
	Confidence string       `json:"identity"` // confirmed, as-bought or guess
	Bed        string       `json:"bed"`
	At         *Point       `json:"at"`
	Area       Outline      `json:"area"`
	Count      *int         `json:"count"`
	Planted    *PartialDate `json:"planted"` // nil: it was there before
	Form       string       `json:"form"`
	PotL       *float64     `json:"potL"`
	DepthCm    *float64     `json:"depthCm"`
	HeightCm   *float64     `json:"heightCm"` // when planted
	Grafted    bool         `json:"grafted"`
	Cover      string       `json:"cover"`
	Amendments []string     `json:"amendments"`
	Supplier   string       `json:"supplier"`
	Price      *float64     `json:"price"`
	Ended      *Day         `json:"ended"`
	EndedHow   string       `json:"endedHow"`
	EndedWhy   string       `json:"endedWhy"` // the likely reason, in a code of the phone's list or in words
	Stored     bool         `json:"stored"`
	From       *Descent     `json:"from"`
	Label      string       `json:"label"`
	Labelled   *Day         `json:"labelled"` // when a label with its code was last printed
}

// A Descent says which planting this one came from, and how.
type Descent struct {
	Planting string `json:"planting"`
	How      string `json:"how"` // moved, divided, cutting or seed
}
