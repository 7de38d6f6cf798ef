package assess

import (
	"fmt"
	"math"
	"slices"

	"haulm/almanac/bloom"
	"haulm/almanac/stats"
	"haulm/garden"
)

// Assess answers for the whole garden on one day. What was seen later is not in
// it.
func (e *Engine) Assess(on garden.Day) Assessment {
	r := e.reckon(on)
	var findings []Finding
	for _, planting := range r.round {
		findings = append(findings, e.bloomFindings(r, planting)...)
		findings = append(findings, e.lifeFindings(r, planting)...)
		findings = append(findings, e.growthFindings(r, planting)...)
	}
	e.dismiss(findings)
	sortFindings(findings)
	return Assessment{
		On:       on,
		Season:   seasonOf(r),
		Skipped:  e.Skipped(),
		Findings: orEmpty(findings),
		Tasks:    e.openTasks(r),
	}
}

func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

// seasonOf says how the part of the year around the day runs, and each part of
// this year that any planting tells of.
func seasonOf(r *reckoned) *Season {
	year := r.on.Year()
	here := float64(r.on.OfYear())
	season := &Season{Parts: []SeasonPart{}}
	for _, part := range r.flower.Season(year, bloom.DefaultParts()) {
		if part.Plants == 0 {
			continue
		}
		from, to := dayOf(year, part.From), dayOf(year, part.To)
		season.Parts = append(season.Parts, SeasonPart{from, to, stats.RoundDays(part.Days), stats.RoundDays(part.SD), part.Plants})
	}
	if len(season.Parts) == 0 {
		return nil
	}
	current := season.Parts[0]
	for _, part := range season.Parts {
		if float64(part.From.OfYear()) <= here {
			current = part // the latest part that has begun and that plants tell of
		}
	}
	season.Days, season.SD, season.From = current.Days, current.SD, current.Plants
	return season
}

// dayOf gives the date of a day of a year, rounded to the nearest.
func dayOf(year int, ofYear float64) garden.Day {
	return garden.DayOf(year, 1, 0) + garden.Day(math.Floor(ofYear+0.5))
}

// dismiss marks the findings that a person has put aside. A dismissal names the
// planting, the flush as "year-flush", and the verdict.
func (e *Engine) dismiss(findings []Finding) {
	for i := range findings {
		f := &findings[i]
		id := fmt.Sprintf("%s.%s.%s", f.Planting, flushName(f), f.Verdict)
		if d, there := e.dismissals[id]; there {
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

// openTasks lists the tasks written in the garden's records that are due, not
// done, not skipped and not put off past the day.
func (e *Engine) openTasks(r *reckoned) []Task {
	list := []Task{}
	for _, id := range sortedKeys(e.tasks) {
		task := e.tasks[id]
		open := task.Due != nil && task.Due.From <= r.on && task.Done == "" && !task.Skipped
		if open && (task.PutOffTo == nil || *task.PutOffTo <= r.on) {
			list = append(list, Task{task.Planting, task.Care, *task.Due, task.Reason})
		}
	}
	slices.SortStableFunc(list, func(a, b Task) int { return int(a.Due.To - b.Due.To) })
	return list
}
