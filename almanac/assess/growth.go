package assess

import (
	"haulm/almanac/growth"
	"haulm/garden"
)

// growthFindings words the growth model's findings on one planting.
func (e *Engine) growthFindings(r *reckoned, planting garden.Planting) []Finding {
	measures := e.measures(planting.ID, r.on)
	if len(measures) == 0 {
		return nil // growth says nothing
	}
	input, known := e.growthInput(r, planting, measures)
	if !known {
		return nil
	}
	result, err := growth.Judge(input)
	if err != nil {
		return nil // the input is made of checked records; what it lacks is no finding
	}
	var findings []Finding
	for _, found := range result.Findings {
		probability := found.Probability
		findings = append(findings, Finding{
			Planting:    planting.ID,
			Year:        r.on.Year(),
			Verdict:     found.Finding,
			Probability: &probability,
			WorthALook:  found.Finding != growth.Reached,
			Evidence:    append(growthEvidence(found.Evidence), reaches(result.Reaches)...),
			Check:       orEmpty(found.Check),
		})
	}
	return findings
}

// measures are what was measured at a planting up to a day.
func (e *Engine) measures(planting string, on garden.Day) []growth.Measure {
	var measures []growth.Measure
	for _, s := range e.looks.until(planting, on) {
		if s.HeightCm != nil || s.SpreadCm != nil || s.CountAlive != nil || s.CountInFlower != nil {
			measures = append(measures, growth.Measure{
				Day: s.day, HeightCm: s.HeightCm, SpreadCm: s.SpreadCm, Alive: s.CountAlive, Stems: s.CountInFlower})
		}
	}
	return measures
}

// growthInput adds to the measures what growth needs to know of a planting; false
// when its kind is not known.
func (e *Engine) growthInput(r *reckoned, planting garden.Planting, measures []growth.Measure) (growth.Input, bool) {
	kind, known := e.kind(planting.Kind)
	here := e.garden()
	input := growth.Input{
		Kind: kind, Planted: planting.Planted, Form: planting.Form, PotL: planting.PotL,
		HeightCm: planting.HeightCm, Count: planting.Count, Measures: measures, On: r.on,
		LatenessDays: r.flower.LatenessDays(), Southern: here.Lat != nil && *here.Lat < 0,
	}
	input.Work = worksOf(r.works[planting.ID])
	e.moved(&input, r, planting)
	return input, known
}

func worksOf(works []garden.Work) []growth.Work {
	var list []growth.Work
	for _, work := range works {
		list = append(list, growth.Work{Day: *work.Day, What: work.What, HeightLeftCm: work.HeightLeftCm})
	}
	return list
}

func growthEvidence(list []growth.Evidence) []Evidence {
	evidence := make([]Evidence, 0, len(list)+1)
	for _, one := range list {
		said := Evidence{Say: one.Say, Day: one.Day, From: one.From, CM: one.Cm,
			LikelyCM: one.GrownExpectedCm, Count: one.Count, Of: one.CountBefore}
		if one.ExpectedCm != nil {
			said.LoCM, said.HiCM = &one.ExpectedCm[0], &one.ExpectedCm[1]
		}
		if one.Rate != nil {
			said.Rate = &one.Rate.P50
		}
		if one.Season > 0 {
			said.Season = &one.Season
		}
		if one.Measures > 0 {
			said.Measures = &one.Measures
		}
		evidence = append(evidence, said)
	}
	return evidence
}

func reaches(reach *growth.Reach) []Evidence {
	if reach == nil {
		return nil
	}
	return []Evidence{{Say: "reaches", Year: &reach.Year, YearLo: &reach.From, YearHi: &reach.To}}
}

// heightChart draws a planting's heights; nil when there is nothing to draw.
func (e *Engine) heightChart(r *reckoned, planting garden.Planting) *HeightChart {
	input, known := e.growthInput(r, planting, e.measures(planting.ID, r.on))
	if !known {
		return nil
	}
	chart := &HeightChart{Unit: "cm", Band: []Likely{}, Measured: []Measured{}}
	for _, measure := range input.Measures {
		if measure.HeightCm != nil {
			chart.Measured = append(chart.Measured, Measured{measure.Day, *measure.HeightCm})
		}
	}
	if result, err := growth.Grow(input); err == nil {
		for _, day := range result.Band {
			chart.Band = append(chart.Band, Likely(day))
		}
	}
	if len(chart.Band) == 0 && len(chart.Measured) == 0 {
		return nil
	}
	return chart
}
