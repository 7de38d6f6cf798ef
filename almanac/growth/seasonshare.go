package growth

import "math"

// seasonShare is the share of eventual height in a season since planting; 0 is
// a planting of unknown age, taken for grown.
func (p *planner) seasonShare(age int) float64 {
	switch {
	case age == 0 || p.way == bulb || p.kind.LifeCycle == "annual":
		return 1
	case p.way == cutYearly:
		return p.frameShare(age)
	case p.kind.LifeCycle == "biennial" && age == 1 && p.kind.YearsToSize > 1:
		return biennialFirst
	}
	first, seasons := p.pace()
	if age >= seasons {
		return 1
	}
	return first + (1-first)*float64(age-1)/float64(seasons-1)
}

// frameShare is the share that a woody kind would have by the end of a season if
// nobody cut it: it too makes roots first, and its yearly shoots go with its frame.
func (p *planner) frameShare(age int) float64 {
	m, k := woodyShape(p.kind.Habit, p.kind.YearsToSize)
	frame := &woody{m: m, k: k, planted: 0}
	frame.segments = []segment{{cm: p.startCm, log: math.Log(p.startCm)}}
	effort := float64(age)
	if p.moved {
		effort = established(effort)
	}
	grown := frame.at(spot{effort: effort}, p.size.usual())
	return math.Min(1, grown.cm/p.size.cm()/sizeAtYears)
}

// pace is the first season's share of the size and the seasons until the whole.
func (p *planner) pace() (first float64, seasons int) {
	switch p.kind.Pace {
	case "quick":
		return 1, 1
	case "slow":
		return firstSlow, max(fewestSlow, min(mostSlow, int(math.Round(p.kind.YearsToSize))))
	default:
		return firstOrdinary, ordinarySeasons
	}
}
