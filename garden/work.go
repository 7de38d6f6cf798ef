package garden

// A Work is something that was done, with or without a task.
type Work struct {
	Identity
	Planting     string   `json:"planting"`
	Bed          string   `json:"bed"`
	Day          *Day     `json:"day"`
	What         string   `json:"what"`
	HeightLeftCm *float64 `json:"heightLeftCm"`
	Amount       string   `json:"amount"`
	Minutes      *float64 `json:"minutes"`
	By           string   `json:"by"`
	Note         string   `json:"note"`
}

// A Task is a piece of care due in a window of dates.
type Task struct {
	Identity
	Planting string   `json:"planting"`
	Bed      string   `json:"bed"`
	Care     string   `json:"care"`
	Due      *Span    `json:"due"`
	Reason   string   `json:"reason"`
	Assignee string   `json:"assignee"`
	Done     string   `json:"done"` // the work's id
	DoneBy   string   `json:"doneBy"`
	Skipped  bool     `json:"skipped"`
	Why      string   `json:"why"`
	PutOffTo *Day     `json:"putOffTo"`
	Quantity string   `json:"quantity"`
	Minutes  *float64 `json:"minutes"`
}

// A Span is a stretch of dates, both ends included.
type Span struct {
	From Day `json:"from"`
	To   Day `json:"to"`
}

// A Weather is one day's weather by one source.
type Weather struct {
	Identity
	Day      *Day     `json:"day"`
	MinC     *float64 `json:"minC"`
	MaxC     *float64 `json:"maxC"`
	RainMm   *float64 `json:"rainMm"`
	SunHours *float64 `json:"sunHours"`
	WindMs   *float64 `json:"windMs"`
	Source   string   `json:"source"`
}

// A Decision is what the gardener resolves to do about a planting.
type Decision struct {
	Identity
	Planting string `json:"planting"`
	Year     *int   `json:"year"`
	What     string `json:"what"`
	By       *Day   `json:"by"`
	Why      string `json:"why"`
}

// A Dismissal puts a finding aside, with the reason.
type Dismissal struct {
	Identity
	Planting string `json:"planting"`
	Flush    string `json:"flush"`
	Finding  string `json:"finding"`
	Why      string `json:"why"`
	Day      *Day   `json:"day"`
}
