package growth

import "math"

// A seasonal course rises each year by a logistic from what was left to that
// year's height: h = b + (F − b)·g(ρu)/g(1), u being 0 when shoots start and 1
// from about the day on which the plant is full and stops. A rate ρ under 1 leaves it
// short of that: at 0.6 it has two thirds of the rise.
type seasonal struct{ rises []rise }

// A rise is one season's growth, or what is left of it after a cut.
type rise struct {
	season int
	from   float64 // the part begins: shoots start, or what was left stands
	start  float64 // growth begins
	full   float64
	end    float64 // judged until then; kinds that die down are 0 after it
	dies   bool
	plain  bool    // there is growth to judge
	age    int     // season since planting or dividing, the first being 1; 0 unknown
	share  float64 // of eventual height in that season
	base   float64 // cm left
	keeps  float64 // or share of the season's height kept through winter
	lost   float64 // share of the rise lost to a cut in growth
}

// steepness makes the logistic fullShare at u = 1 and the rest at u = 0: 2·log 19.
const steepness = 5.888877957332881

func (c *seasonal) spot(day float64) spot {
	i := lastBegun(len(c.rises), func(i int) bool { return c.rises[i].from > day })
	if i < 0 {
		return spot{}
	}
	r := c.rises[i]
	span := r.full - r.start
	s := spot{part: i, season: r.season, seasons: 1, known: true, effort: (day - r.start) / span, perDay: 1 / span}
	if day >= r.end+1 && r.dies {
		s.effort = math.Inf(-1)
	}
	s.judged = r.plain && day > r.start && day < r.end+1
	return s
}

func (c *seasonal) at(where spot, o own) point {
	if math.IsInf(where.effort, -1) {
		return point{}
	}
	r := c.rises[where.part]
	full := o.size * r.share
	kept := r.keeps * full
	rise, opens := positivePart(full-r.base-kept, leastCm) // none where more was left than it grows to
	rise *= 1 - r.lost
	time, runs := untilFull(where.effort - o.late*where.perDay)
	grown, grows := positivePart(time, startWidth)
	share, slope := logisticRise(time + (o.rate-1)*grown) // the rate makes growth, not spring, quicker
	slope *= rise
	p := point{cm: r.base + kept + rise*share}
	p.by[ofRate], p.by[ofSize] = slope*o.rate*grown, kept
	p.by[ofSize] += share * (full - kept) * opens * (1 - r.lost)
	p.by[ofSize] *= o.sizeSlope
	p.by[ofLate] = -slope * (1 + (o.rate-1)*grows) * runs * where.perDay
	return p
}

// untilFull is time while it is under 1 and then stays at 1, and its slope.
func untilFull(u float64) (time, slope float64) {
	toGo, slope := positivePart(1-u, stopWidth)
	return 1 - toGo, slope
}

// logisticRise is g(u)/g(1) and its slope.
func logisticRise(u float64) (share, slope float64) {
	g := 1 / (1 + math.Exp(-steepness*(u-0.5)))
	return g / fullShare, steepness * g * (1 - g) / fullShare
}
