package tie

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"time"

	"haulm/almanac/stats"
	"haulm/garden"
)

// An Input is a photograph, where the garden's plan lies, and the plantings that
// stand in the ground.
type Input struct {
	Photo     Photo      `json:"photo"`
	Garden    Ground     `json:"garden"`
	Plantings []Planting `json:"plantings"`
}

// A Photo is when and, if known, where a photograph was taken.
type Photo struct {
	Lat        *float64 `json:"lat"`        // degrees, with Lon
	Lon        *float64 `json:"lon"`        // degrees, with Lat
	AccuracyM  *float64 `json:"accuracyM"`  // metres, above 0
	BearingDeg *float64 `json:"bearingDeg"` // where the camera looked, clockwise from true north
	Seen       string   `json:"seen"`       // RFC 3339
	// LastPlanting is the planting that was logged last on this phone, at
	// LastSeen (RFC 3339); both or neither.
	LastPlanting *string `json:"lastPlanting"`
	LastSeen     *string `json:"lastSeen"`
}

// A Ground is what a garden says about where its plan lies.
type Ground struct {
	PlanOrigin     *garden.Place `json:"planOrigin"`
	PlanBearingDeg float64       `json:"planBearingDeg,omitempty"`
}

// A Planting is where one planting stands on the plan, in metres: its middle, or
// the area that it covers, or neither where that was never said.
type Planting struct {
	ID       string         `json:"id"`
	At       *garden.Point  `json:"at"`
	Area     garden.Outline `json:"area,omitempty"`
	InFlower *bool          `json:"inFlower"` // nil: nobody knows
}

// A Result says whose a photograph is. Probabilities are rounded to 0.001; those
// of the candidates, others and none add up to 1 but for that.
type Result struct {
	Tied       *string     `json:"tied"` // nil: somebody has to say
	Sure       float64     `json:"sure"` // the probability of the first candidate, 0 without one
	Lacking    Lacking     `json:"lacking"`
	Candidates []Candidate `json:"candidates"` // the likeliest first, then by id
	Others     float64     `json:"others"`     // plantings that aren't listed, together
	None       float64     `json:"none"`       // none of these
}

// A Candidate is a planting that a photograph may be of.
type Candidate struct {
	Planting    string   `json:"planting"`
	Probability float64  `json:"probability"`
	DistanceM   *float64 `json:"distanceM"` // from the camera to its nearest edge; nil where not known
}

// Lacking says why a place could not be weighed.
type Lacking string

// What may be lacking, in the order in which it is looked for.
const (
	LacksNothing   Lacking = ""
	LacksPlantings Lacking = "plantings" // there are none
	LacksPosition  Lacking = "position"  // the photograph has no place
	LacksOrigin    Lacking = "origin"    // the garden's plan isn't tied to the earth
)

// Tie weighs each planting by its distance from the photograph, with the
// accuracy that the phone gave and how well plans are drawn, times how likely it
// was to be photographed at all, above all if it was being logged just before.
// The photograph is tied only when one planting has 0.9 of the probability and
// nothing is lacking. The error names the field that is wrong.
func Tie(in Input) (Result, error) {
	minutes, err := check(in)
	if err != nil {
		return Result{}, err
	}
	view := newView(in)
	weights := priors(in, minutes)
	none := noneShare
	if view.lacking == LacksNothing {
		none *= view.anywhere
		for i, p := range in.Plantings {
			weights[i] *= view.likelihood(p)
		}
	}
	return view.result(in, weights, none), nil
}

// priors gives what each planting's chance is before the place is known. They
// add up to 1 − noneShare.
func priors(in Input, minutes float64) []float64 {
	weights := make([]float64, len(in.Plantings))
	total, same := 0.0, 0.0
	last := slices.IndexFunc(in.Plantings, func(p Planting) bool { return isLast(in.Photo, p.ID) })
	if last >= 0 {
		same = sameShare * math.Exp2(-minutes/sameHalvesMinutes)
	}
	for i, p := range in.Plantings {
		weights[i] = 1
		if p.InFlower != nil && *p.InFlower {
			weights[i] = flowerFactor
		}
		total += weights[i]
	}
	for i := range weights {
		weights[i] *= (1 - noneShare) * (1 - same) / total
	}
	if last >= 0 {
		weights[last] += (1 - noneShare) * same
	}
	return weights
}

func isLast(photo Photo, id string) bool {
	return photo.LastPlanting != nil && *photo.LastPlanting == id
}

// result shares out the probability and lists what is worth offering.
func (v view) result(in Input, weights []float64, none float64) Result {
	total := none
	for _, w := range weights {
		total += w
	}
	out := Result{Lacking: v.lacking, Candidates: []Candidate{}, None: stats.RoundProbability(none / total)}
	for i, p := range in.Plantings {
		c := Candidate{p.ID, stats.RoundProbability(weights[i] / total), v.distance(p)}
		if c.Probability >= leastShown && (v.lacking == LacksNothing || isLast(in.Photo, p.ID)) {
			out.Candidates = append(out.Candidates, c)
		}
	}
	out.Candidates = worthOffering(out.Candidates)
	return out.concluded()
}

// worthOffering gives the likeliest candidates, the likeliest first and then by
// id. The nearest are always among them: people also photograph what does not
// flower when it should, and that is the plant that they look for in the list.
func worthOffering(all []Candidate) []Candidate {
	byChance := func(a, b Candidate) int {
		return cmp.Or(cmp.Compare(b.Probability, a.Probability), cmp.Compare(a.Planting, b.Planting))
	}
	slices.SortFunc(all, byChance)
	if len(all) <= mostShown {
		return all
	}
	shown, rest := all[:mostShown-nearestShown], all[mostShown-nearestShown:]
	slices.SortStableFunc(rest, func(a, b Candidate) int { return cmp.Compare(far(a), far(b)) })
	shown = append(shown, rest[:nearestShown]...)
	slices.SortFunc(shown, byChance)
	return shown
}

// far is a candidate's distance, without end where it is not known.
func far(c Candidate) float64 {
	if c.DistanceM == nil {
		return math.Inf(1)
	}
	return *c.DistanceM
}

// concluded fills in what follows from the candidates.
func (r Result) concluded() Result {
	listed := r.None
	for _, c := range r.Candidates {
		listed += c.Probability
	}
	r.Others = stats.RoundProbability(math.Max(0, 1-listed))
	if len(r.Candidates) == 0 {
		return r
	}
	r.Sure = r.Candidates[0].Probability
	if r.Sure >= sureEnough && r.Lacking == LacksNothing {
		r.Tied = &r.Candidates[0].Planting
	}
	return r
}

// check judges an input, and gives the minutes between the last entry and the
// photograph.
func check(in Input) (minutes float64, err error) {
	if err := checkPhoto(in.Photo); err != nil {
		return 0, err
	}
	if in.Garden.PlanOrigin != nil {
		if err := (Plan{*in.Garden.PlanOrigin, in.Garden.PlanBearingDeg}).Check(); err != nil {
			return 0, fmt.Errorf("garden.%w", err)
		}
	}
	if err := checkPlantings(in.Plantings); err != nil {
		return 0, err
	}
	return minutesSince(in.Photo)
}

func checkPhoto(p Photo) error {
	if (p.Lat == nil) != (p.Lon == nil) {
		return fmt.Errorf("photo.lat and photo.lon go together: give both or neither")
	}
	if p.Lat != nil {
		if err := checkPlace("photo", garden.Place{Lat: *p.Lat, Lon: *p.Lon}); err != nil {
			return err
		}
	}
	if p.AccuracyM != nil && !(*p.AccuracyM > 0 && *p.AccuracyM < math.Inf(1)) {
		return fmt.Errorf("photo.accuracyM %g is not a number of metres above 0", *p.AccuracyM)
	}
	if p.BearingDeg != nil && !(math.Abs(*p.BearingDeg) <= 360) {
		return fmt.Errorf("photo.bearingDeg %g is outside -360 to 360", *p.BearingDeg)
	}
	if (p.LastPlanting == nil) != (p.LastSeen == nil) {
		return fmt.Errorf("photo.lastPlanting and photo.lastSeen go together: one says nothing without the other")
	}
	return nil
}

func checkPlantings(plantings []Planting) error {
	seen := map[string]bool{}
	for i, p := range plantings {
		if p.ID == "" || seen[p.ID] {
			return fmt.Errorf("plantings[%d].id %q is empty or there twice", i, p.ID)
		}
		seen[p.ID] = true
		if len(p.Area) == 1 || len(p.Area) == 2 {
			return fmt.Errorf("plantings[%d].area has %d corners: it needs at least 3", i, len(p.Area))
		}
		for _, corner := range append(slices.Clone(p.Area), p.middle()) {
			if !(math.Abs(corner[0]) <= garden.FarthestM && math.Abs(corner[1]) <= garden.FarthestM) {
				return fmt.Errorf("plantings[%d] stands at %v: a point lies within %g m of the plan's origin", i, corner, garden.FarthestM)
			}
		}
	}
	return nil
}

func (p Planting) middle() garden.Point {
	if p.At != nil {
		return *p.At
	}
	return garden.Point{}
}

// minutesSince gives how long before or after the last entry a photograph was
// taken; a phone's pictures may be picked in any order.
func minutesSince(p Photo) (float64, error) {
	seen, err := time.Parse(time.RFC3339, p.Seen)
	if err != nil {
		return 0, fmt.Errorf("photo.seen %q is not a time written as RFC 3339 with its offset", p.Seen)
	}
	if p.LastSeen == nil {
		return math.Inf(1), nil
	}
	last, err := time.Parse(time.RFC3339, *p.LastSeen)
	if err != nil {
		return 0, fmt.Errorf("photo.lastSeen %q is not a time written as RFC 3339 with its offset", *p.LastSeen)
	}
	return math.Abs(seen.Sub(last).Minutes()), nil
}
