package simulate

import (
	"math"

	"haulm/garden"
)

// BBCH stages as they are noted (Meier 2001): inflorescence visible, the first
// to the seventh tenth of flowers open, end of flowering.
const (
	budStage, firstOpenStage, openStages, overStage = 55, 61, 7, 69
)

// A look is what was noted of flower; stage 0 is "not in flower".
type look struct {
	plant   *plant
	day     garden.Day
	stage   int
	measure *measure
}

// looks walks the visits and looks at plants.
func looks(in Input, list []*plant, days []garden.Day) []look {
	chance := newStream(in.Seed, lookStream)
	misread := newStream(in.Seed, misreadStream)
	var all []look
	for _, day := range days {
		for _, p := range list {
			f, near := p.about(float64(day))
			coming, noting, wrong := chance.share(), chance.share(), misread.share()
			if coming >= in.attention(f, float64(day)) {
				continue
			}
			l := look{plant: p, day: day, stage: f.stage(float64(day), noting)}
			if in.with(Misread) && near && wrong < misreadShare {
				l.stage = misreadAs(l.stage, noting)
			}
			all = append(all, l)
		}
	}
	in.measure(all, list)
	return all
}

// measure adds the measures to looks, which are in order of day.
func (in Input) measure(all []look, list []*plant) {
	days := map[*plant][]garden.Day{}
	for _, l := range all {
		days[l.plant] = append(days[l.plant], l.day)
	}
	chance := newStream(in.Seed, growthStream)
	taken := map[*plant]map[garden.Day]measure{}
	for _, p := range list {
		taken[p] = p.measures(in, days[p], chance)
	}
	for i, l := range all {
		if m, there := taken[l.plant][l.day]; there {
			all[i].measure = &m
		}
	}
}

// attention is the chance that a plant is looked at on a visit.
func (in Input) attention(f flowering, day float64) float64 {
	switch {
	case !in.with(FlowerFollowed):
		return lookedAt
	case f.open(day):
		return drawn
	}
	return undrawn
}

// about is the flowering that a day is nearest to, and whether it is near enough
// for flower to be thought of.
func (p *plant) about(day float64) (nearest flowering, near bool) {
	away := math.Inf(1)
	for _, f := range p.years {
		if off := math.Max(f.opens-day, day-f.ends); off < away {
			nearest, away = f, off
		}
	}
	return nearest, away <= nearDays
}

func (f flowering) open(day float64) bool { return !f.blind && day >= f.opens && day <= f.ends }

// stage is what a look notes.
func (f flowering) stage(day, noting float64) int {
	switch {
	case f.blind:
		return 0
	case f.open(day):
		return firstOpenStage + min(openStages-1, int(openStages*(day-f.opens)/(f.ends-f.opens)))
	case day < f.opens && day >= f.opens-budDays && noting < budNoted:
		return budStage
	case day > f.ends && day <= f.ends+overDays && noting < overNoted:
		return overStage
	}
	return 0
}

// misreadAs is what is written down instead: flower for none, and for flower
// nothing, a bud or petals down.
func misreadAs(stage int, noting float64) int {
	if stage < firstOpenStage || stage == overStage {
		return firstOpenStage
	}
	return [...]int{0, budStage, overStage}[int(3*noting)]
}
