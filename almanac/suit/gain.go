package suit

import "haulm/almanac/stats"

// flowering is how many plantings flower in each week, in all and by shade, each
// for the part of the week that it does and as well as it does.
type flowering struct {
	all     [weeksOfYear]float64
	byShade [weeksOfYear][shades]float64
}

// plus is the flowering with so much of a calendar more.
func (f flowering) plus(c *calendar, worth float64) flowering {
	for week := range weeksOfYear {
		f.all[week] += worth * c.all[week]
		for shade := range c.byShade[week] {
			f.byShade[week][shade] += worth * c.byShade[week][shade]
		}
	}
	return f
}

// worth is what the flower of a year is worth, in weeks: it rises with every
// planting, and by less the more there are already in that week and of that
// colour. A sum of concave functions of sums, it is monotone and submodular.
func (f *flowering) worth() float64 {
	sum := 0.0
	for week := range weeksOfYear {
		sum += lessening(f.all[week])
		for _, of := range f.byShade[week] {
			sum += variety * lessening(of)
		}
	}
	return sum
}

// lessening is x/(1+x): the first planting gives a half, the second a sixth.
func lessening(x float64) float64 { return x / (1 + x) }

// gain is what a kind adds to what flowers already, rounded so that every machine
// chooses the same.
func (f *flowering) gain(c candidate) float64 {
	with := f.plus(&c.flower, c.fit)
	return stats.Round7(with.worth() - f.worth())
}

// empty lists the weeks, from 1, in which nothing flowers for long enough.
func (f *flowering) empty() []int {
	weeks := []int{}
	for week, n := range f.all {
		if stats.Round7(n) < inFlower {
			weeks = append(weeks, week+1)
		}
	}
	return weeks
}

// weeks lists those, from 1, in which a calendar has flower.
func (c calendar) weeks() []int {
	weeks := []int{}
	for week, share := range c.all {
		if stats.Round7(share) >= inFlower*needsWork {
			weeks = append(weeks, week+1)
		}
	}
	return weeks
}

// weeksFactor is what a kind alone would add to what is there.
func (in Input) weeksFactor(have flowering, c candidate) Factor {
	if in.Have == nil {
		return unknownHere(Weeks)
	}
	gain := have.gain(c)
	say := FillsWeeks
	if gain < inFlower {
		say = FillsNoWeeks
	}
	return scored(Weeks, say, noWeeks+(1-noWeeks)*gain/(gain+halfWeeks), gain, nil)
}
