package bloom

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"haulm/almanac/stats"
)

// DefaultParts are the parts of the year by which a season is told, in days of
// the year: two months each through spring and summer, longer in autumn and
// winter when little opens.
func DefaultParts() []Part {
	return []Part{{1, 59}, {60, 120}, {121, 181}, {182, 243}, {244, 334}, {335, 366}}
}

// Season tells how late the parts of a year run, for the parts in which a
// flush was seen; a flush belongs to the part of its expected day. Days are
// rounded to 0.1.
func (m *Model) Season(year int, parts []Part) []SeasonPart {
	var told []SeasonPart
	for _, p := range parts {
		if part := m.seasonOf(year, p, false); part.Plants > 0 {
			told = append(told, part)
		}
	}
	return told
}

// seasonAround is the season of the part of the year that a flush is expected in.
func (m *Model) seasonAround(f *Flush) SeasonPart {
	var at Part
	for _, p := range DefaultParts() {
		if at = p; f.Expected <= p.To {
			break
		}
	}
	key := yearPart{f.Year, at}
	if _, known := m.parts[key]; !known {
		m.parts[key] = m.seasonOf(f.Year, at, false)
	}
	return m.parts[key]
}

type yearPart struct {
	year int
	Part
}

// years lists the years that have flushes.
func (m *Model) years() []int {
	var years []int
	for _, f := range m.flushes {
		years = append(years, f.Year)
	}
	slices.Sort(years)
	return slices.Compact(years)
}

// wholeYear is the season over all flushes of a year; where none was seen, over
// all that were expected.
func (m *Model) wholeYear(year int) SeasonPart {
	all := Part{math.Inf(-1), math.Inf(1)}
	if told := m.seasonOf(year, all, false); told.Plants > 0 {
		return told
	}
	return m.seasonOf(year, all, true)
}

// seasonOf is the mean of the season over the flushes seen (or, unseen, over the
// rows) in a part of a year, with the spread of that mean.
func (m *Model) seasonOf(year int, part Part, unseen bool) SeasonPart {
	touch := mat.NewVecDense(len(m.globals), nil)
	sum, total := 0.0, 0.0
	for _, k := range m.kinds {
		for i := range k.rows {
			r := &k.rows[i]
			weight := r.opened
			if unseen {
				weight = 1
			}
			if r.year != year || r.expected < part.From || r.expected > part.To || weight == 0 {
				continue
			}
			total += weight
			sum += weight * r.mean
			m.touchRow(touch, r, weight)
		}
	}
	return m.partOf(SeasonPart{Part: part, Year: year, Plants: m.plantsIn(year, part), WithGarden: m.first}, touch, sum, total)
}

// touchRow adds what a row feels of the globals that the season is told by.
func (m *Model) touchRow(touch *mat.VecDense, r *row, weight float64) {
	for _, t := range r.terms {
		if t.at != theGarden || m.first {
			touch.SetVec(t.at, touch.AtVec(t.at)+weight*t.weight)
		}
	}
}

func (m *Model) partOf(part SeasonPart, touch *mat.VecDense, sum, total float64) SeasonPart {
	if total == 0 {
		return part
	}
	touch.ScaleVec(1/total, touch)
	part.Days = stats.RoundDays(sum/total + mat.Dot(touch, mat.NewVecDense(len(m.globals), m.globals)))
	part.SD = stats.RoundDays(math.Sqrt(mat.Inner(touch, m.spread, touch)))
	return part
}

// plantsIn counts the plantings that inform a part of a year.
func (m *Model) plantsIn(year int, part Part) int {
	count := 0
	for _, k := range m.kinds {
		for plant := range k.plants {
			if slices.ContainsFunc(k.sites[k.start[plant]:k.start[plant+1]], func(s site) bool {
				r := k.rows[s.row]
				return r.year == year && r.expected >= part.From && r.expected <= part.To
			}) {
				count++
			}
		}
	}
	return count
}
