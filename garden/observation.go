package garden

// An Observation is what was seen at one planting at one time. A nil pointer is
// "not said".
type Observation struct {
	Identity
	Planting       string   `json:"planting"` // "" while a photo waits to be tied
	Seen           string   `json:"seen"`     // RFC 3339 with its offset
	By             string   `json:"by"`
	Flush          *int     `json:"flush"`
	Up             string   `json:"up"`    // not-up, up, in-leaf or dying-back
	Stage          *int     `json:"stage"` // BBCH
	NotInFlower    bool     `json:"notInFlower"`
	CountAlive     *int     `json:"countAlive"`
	CountInFlower  *int     `json:"countInFlower"`
	FlowerAmount   *int     `json:"flowerAmount"`
	HeightCm       *float64 `json:"heightCm"`
	FlowerHeightCm *float64 `json:"flowerHeightCm"`
	SpreadCm       *float64 `json:"spreadCm"`
	Vigour         *int     `json:"vigour"`
	Signs          []string `json:"signs"`
	Note           string   `json:"note"`
	Photos         []string `json:"photos"` // SHA-256 in hex
	Voice          []string `json:"voice"`
	Lat            *float64 `json:"lat"`
	Lon            *float64 `json:"lon"`
	AccuracyM      *float64 `json:"accuracyM"`
	TiedBy         string   `json:"tiedBy"`
	TiedSure       *float64 `json:"tiedSure"`
}

// Day is the civil date on which it was seen, by the observer's clock. The error
// is a *Problem.
func (o Observation) Day() (Day, error) { return DayOfInstant(o.Seen) }

// Signs lists the signs of trouble that an observation can name.
func Signs() []string {
	return []string{"slug", "deer", "rabbit", "vine-weevil", "aphid", "frost", "scorch", "drought",
		"waterlogging", "mildew", "rust", "black-spot", "dieback", "dead-centre", "wilting", "sucker", "reversion", "wind-rock", "other"}
}
