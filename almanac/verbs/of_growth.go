package verbs

import "haulm/almanac/growth"

// growthVerbs answer how plants grow.
func growthVerbs() []Verb {
	return []Verb{
		verb("curve-fit", "a growth curve through a series, with standard errors",
			`{"model":"logistic","x":[118,484,664,1004,1231,1372,1582],"y":[30,58,87,115,120,142,145]}`, `
			model  logistic, gompertz, asymptotic or chapman-richards
			x[]    any unit, at most 20000 values; not below 0 for chapman-richards
			y[]    any unit, one for each x`, growth.CurveFit),
		verb("growth", "a planting's height against what is likely at its age",
			`{"kind":{"name":"Cornus kousa","habit":"shrub","foliage":"deciduous","heightCm":[400,600],"spreadCm":[300,500],"yearsToSize":15,"pace":"ordinary"},"planted":"2012-03-20","form":"pot","heightCm":60,"measures":[{"day":"2013-09-01","heightCm":80},{"day":"2015-06-01","heightCm":105,"spreadCm":60}],"work":[{"day":"2014-03-01","what":"pruned","heightLeftCm":70}],"on":"2015-07-10","from":"2015-07-10","to":"2015-07-10"}`, `
			kind                 the fields of a kind record: habit, lifeCycle, foliage, heightCm, spreadCm, yearsToSize (years), pace, pruneGroup, emerges and bloom count
			planted              YYYY, YYYY-MM or YYYY-MM-DD; null is there before anyone knows
			form                 as planted: bare-root, pot, bulb, plug or seed
			potL                 litres of its pot, 0 to 5000
			heightCm             cm when planted, 0 to 15000
			count                how many plants, or bulbs, were planted
			moves[]              days on which it was dug up and planted again, YYYY-MM-DD, at most 100 of them
			measures[].day       YYYY-MM-DD, at most 10000 of them; those after on are not looked at
			measures[].heightCm  cm, 0 to 15000
			measures[].spreadCm  cm, 0 to 15000
			measures[].alive     plants, or shoots of bulbs, alive
			measures[].stems     flower stems at once
			work[].day           YYYY-MM-DD, at most 2000 of them
			work[].what          what was done, such as pruned, cut back, divided
			work[].heightLeftCm  cm left standing, 0 to 15000
			on                   the day to answer for, YYYY-MM-DD
			latenessDays         how many days later than at 51.5° N seasons run here, -366 to 366
			southern             true turns the catalogue's windows by half a year
			from                 the first day of the bands, YYYY-MM-DD; null is four years before on
			to                   the last day of the bands, at most 40 years after from; null is a year after on`, growth.Grow),
	}
}
