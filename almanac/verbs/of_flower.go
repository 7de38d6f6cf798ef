package verbs

import (
	"haulm/almanac/bloom"
	"haulm/almanac/heat"
)

// flowerVerbs answer when plants flower, and what heat they had.
func flowerVerbs() []Verb {
	return []Verb{
		verb("degree-days", "heat above a base temperature, day by day",
			`{"method":"single-sine","baseC":5,"days":[{"day":"2015-04-01","minC":3,"maxC":14},{"day":"2015-04-02","minC":6,"maxC":17}]}`, `
			method       average, average-floor (McMaster & Wilhelm 1997, methods 1 and 2) or single-sine (Baskerville & Emin 1969)
			baseC        °C above which a plant develops, -90 to 60
			upperC       °C above which more warmth adds nothing, above baseC; null is none
			days[].day   YYYY-MM-DD, each once, in any order, within two centuries
			days[].minC  °C, -90 to 60; null is not measured
			days[].maxC  °C, -90 to 60 and not below minC; null is not measured`, heat.DegreeDays),
		verb("first-flower", "when each flush should open, and how likely it is this late by luck",
			`{"kinds":{"k":{"expectedDay":150,"sdDays":10}},"seasons":{"2015":{"meanDays":0}},"flushes":[{"planting":"a","kind":"k","year":2015,"after":150,"by":157,"yearsSincePlanting":3},{"planting":"b","kind":"k","year":2015,"after":164,"by":null}]}`, `
			kinds.*.expectedDay           day of the year on which the kind is expected to open, -366 to 732
			kinds.*.sdDays                how far that may be off, in days, 0.1 to 120; null is the catalogue's
			seasons.*.meanDays            how many days late the weather says that the year runs, -120 to 120
			flushes[].planting            a name for the plant; at most 6000 flushes, and fewer over many years
			flushes[].kind                one of kinds
			flushes[].year                1 to 9999, each planting once a year
			flushes[].after               day of the year of the last look without flower, -366 to 732; null is none
			flushes[].by                  day of the year of the first look with flower, -366 to 732; null is none so far
			flushes[].yearsSincePlanting  0 to 1000; below 1 is the first season
			flushes[].form                as planted; bare-root is later in its first season`, bloom.FirstFlower),
	}
}
