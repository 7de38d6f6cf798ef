package bloom

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"haulm/almanac/stats"
)

// An Input is what the verb first-flower is asked. Days are days of the year
// (1 is 1 January, fractions allowed, below 1 or above 366 for winter flower);
// null is not known.
type Input struct {
	Kinds   map[string]KindInput   `json:"kinds"`
	Seasons map[string]SeasonInput `json:"seasons,omitempty"` // by year
	Flushes []FlushInput           `json:"flushes"`
}

// A KindInput is when a kind is expected to open and how far that may be off;
// without sdDays it is the catalogue's.
type KindInput struct {
	ExpectedDay float64  `json:"expectedDay"`
	SDDays      *float64 `json:"sdDays"`
}

// A SeasonInput is what the weather says of a season beforehand, in days late.
type SeasonInput struct {
	MeanDays float64 `json:"meanDays"`
}

// A FlushInput is one planting's flowering in one year: it opened after the day
// After and by the day By. YearsSincePlanting below 1 is the first season.
type FlushInput struct {
	Planting           string   `json:"planting"`
	Kind               string   `json:"kind"`
	Year               int      `json:"year"`
	After              *float64 `json:"after"`
	By                 *float64 `json:"by"`
	YearsSincePlanting *float64 `json:"yearsSincePlanting"`
	Form               string   `json:"form,omitempty"` // bare-root is later in its first season
}

// An Output is the verb's answer: each season, and each flush in the order asked.
type Output struct {
	Seasons map[string]SeasonOutput `json:"seasons"`
	Flushes []FlushOutput           `json:"flushes"`
}

// A SeasonOutput is how many days late a season runs for what flowered in it.
// WithGarden says that only one season is known, so that what the garden
// differs by for good is in it too.
type SeasonOutput struct {
	Days       float64 `json:"days"`
	SD         float64 `json:"sd"`
	WithGarden bool    `json:"withGarden"`
}

// A FlushOutput is when the flush should have opened, judged without what was
// seen of its planting that year, and the probability of opening after After.
type FlushOutput struct {
	Planting string  `json:"planting"`
	Year     int     `json:"year"`
	P05      float64 `json:"p05"`
	P10      float64 `json:"p10"`
	P50      float64 `json:"p50"`
	P90      float64 `json:"p90"`
	P95      float64 `json:"p95"`
	PLate    float64 `json:"pLate"`
}

// FirstFlower fits the model to the flushes and judges each without its own
// interval. The error is a sentence that names the field, the value and what
// would be right.
func FirstFlower(in Input) (Output, error) {
	flushes, err := in.check()
	if err != nil {
		return Output{}, err
	}
	order := make([]int, len(flushes)) // of the flushes as reckoned
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return canonical(flushes[a], flushes[b]) })
	sorted := make([]Flush, len(order))
	for i, at := range order {
		sorted[i] = flushes[at]
	}
	if err := checkSize(sorted); err != nil {
		return Output{}, err
	}
	m := modelOf(sorted, 0, in.seasonMeans())
	return Output{Seasons: m.seasonOutputs(in), Flushes: m.flushOutputs(order)}, nil
}

// flushOutputs gives the flushes back in the order asked.
func (m *Model) flushOutputs(order []int) []FlushOutput {
	out := make([]FlushOutput, len(order))
	for i, at := range order {
		f, cast := m.flushes[i], m.forecast(i)
		band := cast.opening().rounded()
		out[at] = FlushOutput{Planting: f.Plant, Year: f.Year, P05: band.P05, P10: band.P10, P50: band.P50,
			P90: band.P90, P95: band.P95, PLate: stats.RoundProbability(cast.beyond(bound(f.After, -1)))}
	}
	return out
}

// seasonOutputs answers for every year that was named.
func (m *Model) seasonOutputs(in Input) map[string]SeasonOutput {
	out := map[string]SeasonOutput{}
	for _, mean := range in.seasonMeans() {
		out[strconv.Itoa(mean.Year)] = in.unseen(mean)
	}
	for _, year := range m.years() {
		part := m.wholeYear(year)
		out[strconv.Itoa(year)] = SeasonOutput{part.Days, part.SD, part.WithGarden}
	}
	return out
}

// unseen is a season of which no flush was given: what is known beforehand, at
// the times of year of the kinds named.
func (in Input) unseen(mean SeasonMean) SeasonOutput {
	sum := 0.0
	for _, name := range slices.Sorted(maps.Keys(in.Kinds)) {
		sum += SeasonSD(in.Kinds[name].ExpectedDay, false)
	}
	return SeasonOutput{Days: stats.RoundDays(mean.Days), SD: stats.RoundDays(sum / float64(max(1, len(in.Kinds))))}
}

// seasonMeans lists the seasons given, by year. The input was checked.
func (in Input) seasonMeans() []SeasonMean {
	var means []SeasonMean
	for year, s := range in.Seasons {
		y, _ := strconv.Atoi(year)
		means = append(means, SeasonMean{y, s.MeanDays})
	}
	slices.SortFunc(means, func(a, b SeasonMean) int { return cmp.Compare(a.Year, b.Year) })
	return means
}

// checkSize keeps a fit to what is reckoned within a second.
func checkSize(flushes []Flush) error {
	if len(flushes) > mostFlushes {
		return fmt.Errorf("flushes has %d items, more than %d: ask about fewer plantings or years at a time", len(flushes), mostFlushes)
	}
	n := countKnots(flushes)
	if n > mostKnots {
		return fmt.Errorf("flushes spread over too many seasons for one fit (%d stretches of a month, at most %d): ask about fewer years at a time", n, mostKnots)
	}
	if most := mostWork / float64(n*n); float64(len(flushes)) > most {
		return fmt.Errorf("flushes has %d items over %d stretches of a month, for which a fit takes at most %.0f: ask about fewer plantings or years at a time", len(flushes), n, most)
	}
	return nil
}

// countKnots is how many knots the flushes would need, at most.
func countKnots(flushes []Flush) int {
	var knots []int
	for _, f := range flushes {
		b := blendAt(f.newYear()+f.Expected-1, f.SeasonSD)
		knots = append(knots, b.left, b.right)
	}
	slices.Sort(knots)
	return len(slices.Compact(knots))
}
