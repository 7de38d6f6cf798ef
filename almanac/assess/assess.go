package assess

import (
	"fmt"
	"math"
	"slices"

	"haulm/almanac/bloom"
	"haulm/garden"
)

// Assess answers for the whole garden on one day. What was seen later is not in
// it.
func (e *Engine) Assess(on garden.Day) Assessment {
	r := e.reckon(on)
	return Assessment{
		On:       on,
		Season:   seasonOf(r),
		Skipped:  e.Skipped(),
		Findings: slices.Clone(e.findings(r)),
		Tasks:    e.openTasks(r),
	}
}

// findings lists what is found of all plantings, what is worth a look first, once
// per change of the book. The caller must not write into it.
func (e *Engine) findings(r *reckoned) []Finding {
	if r.findings != nil {
		return r.findings
	}
	findings := []Finding{}
	crowded, hidden := e.crowdedFindings(r), e.hiddenFindings(r)
	for _, planting := range r.round {
		findings = append(findings, e.plantFindings(r, planting)...)
		for _, spot := range []map[string]Finding{crowded, hidden} {
			if found, there := spot[planting.ID]; there {
				findings = append(findings, found)
			}
		}
	}
	e.dismiss(findings, r.on)
	sortFindings(findings)
	r.findings = findings
	return findings
}

// plantFindings is what one planting's own looks and weather say of it.
func (e *Engine) plantFindings(r *reckoned, planting garden.Planting) []Finding {
	kind, known := e.kind(planting.Kind)
	if !known {
		return nil
	}
	findings := e.bloomFindings(r, planting)
	if done := e.doneFinding(r, planting, kind); done != nil {
		return append(findings, *done)
	}
	if isOver(planting, kind, r.on) {
		findings = append(findings, e.growthFindings(r, planting)...)
		findings = append(findings, e.troubledFindings(r, planting, kind)...)
		return append(findings, e.colonyFindings(r, planting, kind)...)
	}
	findings = append(findings, e.lifeFindings(r, planting)...)
	findings = append(findings, e.sleepFindings(r, planting, kind)...)
	findings = append(findings, e.growthFindings(r, planting)...)
	findings = append(findings, e.frostFindings(r, planting, kind)...)
	findings = append(findings, e.troubledFindings(r, planting, kind)...)
	findings = append(findings, e.dryFindings(r, planting, kind, r.plotOf[planting.ID])...)
	findings = append(findings, e.sunFindings(r, r.plotOf[planting.ID], findings)...)
	return append(findings, e.colonyFindings(r, planting, kind)...)
}

func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

// seasonOf says how the part of the year around the day runs, and each part
// that any planting tells of; nil when too few tell of any part near the day.
func seasonOf(r *reckoned) *Season {
	parts := append(partsOf(r, r.on.Year()-1), partsOf(r, r.on.Year())...)
	now, told := partNow(parts, r.on)
	if !told {
		return nil
	}
	return &Season{Days: now.Days, SD: now.SD, From: now.Plants, Now: now, Parts: parts}
}

// lastPartDays is how long a part of the year is still spoken of after its end:
// six weeks, in which most of what flowered in it is still remembered. The
// southern summer does not end with the calendar year.
const lastPartDays = 45

func partsOf(r *reckoned, year int) []SeasonPart {
	parts := []SeasonPart{}
	for _, part := range r.flower.Season(year, bloom.DefaultParts()) {
		to := dayOf(year, part.To)
		if year == r.on.Year() || to >= r.on-lastPartDays {
			parts = append(parts, SeasonPart{From: dayOf(year, part.From), To: to,
				Days: part.Days, SD: part.SD, Plants: part.Plants})
		}
	}
	return parts
}

// How many plants a part of the year needs. Of fewer than fewestPlants none is
// spoken of: one odd plant is no season. A part of enoughPlants, of which one
// moves the figure by days alone, is spoken of before an earlier one.
const (
	fewestPlants = 3
	enoughPlants = 5
)

// partNow is the part of the year to speak of: of those that have begun and
// ended not long ago, the latest that enough plants tell of, else the one that
// most tell of. It is false when fewer than fewestPlants tell of any.
func partNow(parts []SeasonPart, on garden.Day) (now SeasonPart, told bool) {
	for _, part := range parts {
		near := part.From <= on && part.To >= on-lastPartDays
		if near && (part.Plants >= enoughPlants || part.Plants >= fewestPlants && now.Plants < enoughPlants && part.Plants > now.Plants) {
			now, told = part, true
		}
	}
	return now, told
}

// dayOf gives the date of a day of a year, rounded to the nearest.
func dayOf(year int, ofYear float64) garden.Day {
	return garden.DayOf(year, 1, 0) + garden.Day(math.Floor(ofYear+0.5))
}

// dismiss marks the findings that a person has put aside by a day. A dismissal names
// the planting, the flush as "year-flush", and the verdict.
func (e *Engine) dismiss(findings []Finding, on garden.Day) {
	for i := range findings {
		f := &findings[i]
		id := fmt.Sprintf("%s.%s.%s", f.Planting, flushName(f), f.Verdict)
		if d, there := e.dismissals[id]; there && (d.Day == nil || *d.Day <= on) {
			f.Dismissed = &Dismissed{d.Why, d.Day}
			f.WorthALook = false
		}
	}
}

func flushName(f *Finding) string {
	if f.Flush == nil {
		return fmt.Sprintf("%d--", f.Year)
	}
	return fmt.Sprintf("%d-%d", f.Year, *f.Flush)
}

// doneBy tells whether a task was done by a day: by its work, or long ago where there
// is no record of that.
func (e *Engine) doneBy(task garden.Task, on garden.Day) bool {
	work := e.works[task.Done]
	return task.Done != "" && (work.Day == nil || *work.Day <= on)
}

// openTasks lists the tasks written in the garden's records that are due, not
// done, not skipped and not put off past the day.
func (e *Engine) openTasks(r *reckoned) []Task {
	list := []Task{}
	for _, id := range sortedKeys(e.tasks) {
		task := e.tasks[id]
		open := task.Due != nil && task.Due.From <= r.on && !e.doneBy(task, r.on) && !task.Skipped
		if open && (task.PutOffTo == nil || *task.PutOffTo <= r.on) {
			list = append(list, Task{task.Planting, task.Care, *task.Due, task.Reason})
		}
	}
	slices.SortStableFunc(list, func(a, b Task) int { return int(a.Due.To - b.Due.To) })
	return list
}
