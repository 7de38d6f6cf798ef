package simulate

import (
	"fmt"
	"math"

	"haulm/garden"
)

// A kind is what the catalogue states of one, and where that is wrong.
type kind struct {
	id          string
	from, to    garden.MonthDay
	cue         string
	length      float64 // of the window, days
	error       float64 // of its start, days: the true start is that much later
	heightCm    float64
	yearsToSize float64
}

// kinds makes kinds whose windows are spread evenly over the year.
func kinds(in Input) []kind {
	chance := newStream(in.Seed, kindStream)
	list := make([]kind, (in.Plantings+plantingsPerKind-1)/plantingsPerKind)
	for i, place := range chance.Perm(len(list)) {
		start := int((float64(place) + chance.share()) * 365 / float64(len(list)))
		length := chance.whole(leastLength, greatestLength)
		list[i] = kind{id: fmt.Sprintf("k%03d", i), cue: cueOf(start), from: monthDay(start), to: monthDay((start + length) % 365), length: float64(length),
			error: chance.normal(sdCatalogue), heightCm: float64(chance.whole(60, 240)), yearsToSize: float64(chance.whole(6, 12))}
	}
	if in.with(WrongCatalogue) {
		misstate(list, newStream(in.Seed, breakStream))
	}
	return list
}

// misstate moves the truth of a tenth of the kinds, one at least.
func misstate(list []kind, chance stream) {
	wrong := max(1, int(math.Round(wrongShare*float64(len(list)))))
	for _, i := range chance.Perm(len(list))[:wrong] {
		list[i].error += math.Copysign(wrongDays, chance.share()-0.5)
	}
}

// cueOf is what a window that starts on a day of the year, counted from 0, waits for.
func cueOf(start int) string {
	if start+1 >= shortDaysFrom {
		return "day-length"
	}
	return "heat"
}

// monthDay is a day of a year without 29 February, counted from 0.
func monthDay(day int) garden.MonthDay {
	_, month, of := (garden.DayOf(2001, 1, 1) + garden.Day(day)).Date()
	return garden.MonthDay{Month: month, Day: of}
}

// fields are what the kind's record states.
func (k kind) fields() map[string]any {
	return map[string]any{"name": "Plantago " + k.id, "habit": "shrub", "lifeCycle": "long-lived", "foliage": "evergreen",
		"heightCm": garden.Range{math.Round((1 - heightRange) * k.heightCm), math.Round((1 + heightRange) * k.heightCm)}, "spreadCm": garden.Range{40, 80},
		"spreadHabit": "clump", "yearsToSize": k.yearsToSize, "yearsToFlower": 1, "pace": "ordinary",
		"bloom":     []garden.BloomWindow{{From: k.from, To: k.to}},
		"flowersOn": "last-year", "pruneGroup": "none", "cue": k.cue}
}
