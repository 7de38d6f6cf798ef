package bloom

import (
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// Whether a planting flowers at all in a year. What its age and its kind's way of
// life make likely is the mean of a beta distribution; what plantings of the kind
// did here in earlier years updates it for the kind, and what this one did for
// itself. A year that nobody could tell, and one that work or harm spoilt, says
// nothing; nor does the year in question, so that it is never its own excuse.

// flowersByAge is that chance before anything is known of the garden's plants.
func flowersByAge(kind *garden.Kind, season int, flowered bool, index int) float64 {
	chance := flowersLongLived
	switch kind.LifeCycle {
	case "annual":
		chance = flowersAnnual
	case "biennial":
		chance = flowersBiennial
	case "short-lived":
		chance = flowersShortLived
	case "monocarpic":
		chance = flowersMonocarpic
	}
	if index > 0 {
		chance *= flowersAgain
	}
	if season == 0 || flowered || kind.LifeCycle == "annual" {
		return chance
	}
	switch ripe := float64(season) - kind.YearsToFlower; {
	case ripe < 1:
		chance *= flowersWhenFirstRipe
	case ripe < 2:
		chance *= flowersWhenNextRipe
	}
	return chance
}

// A record is how often flower came and how often it did not.
type record struct{ came, not float64 }

func (r record) plus(s record) record  { return record{r.came + s.came, r.not + s.not} }
func (r record) minus(s record) record { return record{r.came - s.came, r.not - s.not} }

// update is the mean of a beta distribution of a mean and a weight after a record.
func (r record) update(mean, weight float64) float64 {
	return (weight*mean + r.came) / (weight + r.came + r.not)
}

// told is what a flush adds to the record. One that closed without flower counts
// if its looks would hardly have missed it.
func (f *Flush) told() record {
	switch {
	case f.Standing.Kind == Open && f.By != nil:
		return record{came: 1}
	case f.Standing.Kind == Closed && len(f.Seen.Days) > 0 && stats.RoundProbability(f.unmet(f.beforehand())) <= mayBeUnseen:
		return record{not: 1}
	}
	return record{}
}

// learnFlowering updates the chance that each flush comes at all by earlier
// years. Flushes are in canonical order and past ones closed.
func learnFlowering(flushes []Flush) {
	for len(flushes) > 0 {
		n := 1
		for n < len(flushes) && flushes[n].Kind == flushes[0].Kind {
			n++
		}
		learnKindFlowering(flushes[:n])
		flushes = flushes[n:]
	}
}

// learnKindFlowering does it for one kind, window by window.
func learnKindFlowering(flushes []Flush) {
	told := make([]record, len(flushes))
	for i := range flushes {
		told[i] = flushes[i].told()
	}
	before := recordsBefore(flushes, told)
	own := map[int]record{} // of one planting, by window, up to its present flush
	for i := range flushes {
		f := &flushes[i]
		if i == 0 || f.Plant != flushes[i-1].Plant {
			clear(own)
		}
		itself := own[f.Index]
		others := before[windowYear{f.Index, f.Year}].minus(itself)
		f.Flowers = itself.update(others.update(f.Flowers, kindFlowersWeight), ownFlowersWeight)
		own[f.Index] = itself.plus(told[i])
	}
}

// A windowYear is one window of a kind in one year.
type windowYear struct{ index, year int }

// recordsBefore is, for each window and year, the kind's record in all years
// before it.
func recordsBefore(flushes []Flush, told []record) map[windowYear]record {
	in := map[windowYear]record{}
	windows, first, last := 0, flushes[0].Year, flushes[0].Year
	for i, f := range flushes {
		at := windowYear{f.Index, f.Year}
		in[at] = in[at].plus(told[i])
		windows, first, last = max(windows, f.Index+1), min(first, f.Year), max(last, f.Year)
	}
	before := map[windowYear]record{}
	for window := range windows {
		sum := record{}
		for year := first; year <= last; year++ {
			at := windowYear{window, year}
			before[at] = sum
			sum = sum.plus(in[at])
		}
	}
	return before
}

// stillFlowers is the chance that a flush that by its looks has not opened comes
// this year at all: of those that do, so many would show nothing yet.
func (f *Flush) stillFlowers(cast forecast) float64 {
	unseen := cast.beyond(bound(f.After, -1))
	if f.Standing.Kind == Closed {
		unseen = f.unmet(cast)
	}
	come := f.Flowers * unseen
	if come == 0 {
		return 0
	}
	return come / (come + 1 - f.Flowers)
}

// flowering tells a judgement whether the flush comes at all. A bud leaves no
// doubt of that.
func (j *Judgement) flowering(f *Flush, cast forecast) {
	if f.By != nil || f.Seen.LastWas == "bud" {
		return
	}
	flowers := stats.RoundProbability(f.stillFlowers(cast))
	j.Flowers = &flowers
}

// mayNotFlower says so where the doubt is worth telling.
func (j *Judgement) mayNotFlower() []Evidence {
	if j.Flowers == nil {
		return nil
	}
	not := stats.RoundProbability(1 - *j.Flowers)
	if not < tellingDoubt {
		return nil
	}
	return []Evidence{{Say: "may-not-flower", Probability: &not}}
}

// BlindYears lists the years, ascending, since a planting's first flush was last
// seen to flower, in which that came to nothing and was looked at well enough to
// say so.
func (m *Model) BlindYears(plant string) []int {
	var years []int
	for _, i := range slices.Backward(m.of(plant)) {
		f := &m.flushes[i]
		if f.Index != 0 {
			continue
		}
		if f.By != nil {
			break
		}
		if f.Standing.Kind == Closed && stats.RoundProbability(f.unmet(m.forecast(i))) <= mayBeUnseen {
			years = append(years, f.Year)
		}
	}
	slices.Reverse(years)
	return years
}
