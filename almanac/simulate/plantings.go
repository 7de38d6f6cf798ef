package simulate

import (
	"fmt"
	"math"

	"haulm/garden"
)

// A plant is one planting with what is true of it.
type plant struct {
	id, bed    string
	kind       kind
	at         garden.Point
	planted    int // year
	habit      float64
	late       float64 // days, in the last year
	struggling bool
	years      []flowering
}

// A flowering is one planting's flower in one year: days from 1 January 1970.
type flowering struct {
	year                    int
	usual, season, expected float64
	late                    float64
	blind                   bool
	opens, ends             float64
}

// plants makes the plantings, each kind's in several beds.
func plants(in Input, of []kind, season *seasons) []*plant {
	chance, late := newStream(in.Seed, plantingStream), newStream(in.Seed, lateStream)
	list := make([]*plant, in.Plantings)
	for i := range list {
		p := &plant{id: fmt.Sprintf("p%03d", i), bed: bedID(i / plantingsPerBed), kind: of[i%len(of)],
			at:      garden.Point{float64(i % plantingsPerBed), float64(i / plantingsPerBed * 3)},
			planted: in.firstYear() - chance.whole(leastAge, greatestAge), habit: chance.normal(sdHabit)}
		if isLate, days := late.holds(or(in.Late, usualLate)), late.between(leastLate, greatestLate); isLate {
			p.late = days
		}
		p.struggling = late.holds(or(in.Struggling, 0))
		list[i] = p
	}
	flowers(in, list, season)
	return list
}

func bedID(n int) string { return fmt.Sprintf("b%02d", n) }

// firstYear is the first that is looked at.
func (in Input) firstYear() int { return LastYear - in.Years + 1 }

// flowers lets every planting flower, from the year before the first, whose
// flower may last into it, to the year after the last, which may be early.
func flowers(in Input, list []*plant, season *seasons) {
	chance, blind := newStream(in.Seed, flowerStream), newStream(in.Seed, breakStream)
	for _, p := range list {
		for year := in.firstYear() - 1; year <= LastYear+1; year++ {
			f := p.expects(in, year, season)
			p.opens(in, &f, chance)
			f.blind = blind.holds(blindShare) && in.with(BlindPlants)
			p.years = append(p.years, f)
		}
	}
}

// expects is everything but chance and lateness.
func (p *plant) expects(in Input, year int, season *seasons) flowering {
	usual := float64(p.kind.from.In(year)) + p.kind.error + p.habit
	if in.with(ColdCorner) && p.bed == bedID(0) {
		usual += cornerDays
	}
	moved := season.without(usual)
	if p.kind.cue == "heat" {
		moved = season.at(usual)
	}
	if in.with(WetCorner) && p.bed == bedID(0) && year == LastYear {
		moved += cornerDays
	}
	return flowering{year: year, usual: usual, season: moved, expected: usual + moved}
}

// opens adds chance and lateness, and says when it ends.
func (p *plant) opens(in Input, f *flowering, chance stream) {
	luck, lasts := chance.share(), chance.normal(sdLogLength)
	if f.year == LastYear {
		f.late = p.late
	}
	f.opens = thousandth(f.expected + f.late + in.luck().at(luck))
	f.ends = thousandth(f.opens + p.kind.length*math.Exp(lasts))
}
