package verbs

import "haulm/almanac/simulate"

// gardenVerbs answer from a garden's records, or invent them.
func gardenVerbs() []Verb {
	return []Verb{
		verb("assess", "everything at once: how the season runs, and what is worth a look",
			`{"on":"2015-07-10","records":[{"record":"garden/g","fields":{"lat":51.5,"lon":-0.1,"altitudeM":50}},{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04"}},{"record":"observation/o","fields":{"planting":"p","seen":"2015-06-20T09:00:00+01:00","notInFlower":true,"heightCm":70}}]}`, `
			on       the day to answer for, YYYY-MM-DD
			records  the garden's records, each {"record": "kind/id", "fields": {…}}; one that cannot be read is listed in skipped`, assessGarden),
		verb("worth", "how much a look at each planting would settle today, in bits, and of what",
			`{"on":"2015-07-10","records":[{"record":"garden/g","fields":{"lat":51.5,"lon":-0.1,"altitudeM":50}},{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04"}},{"record":"observation/o","fields":{"planting":"p","seen":"2015-05-20T09:00:00+01:00","notInFlower":true}}]}`, `
			on       the day to answer for, YYYY-MM-DD
			records  the garden's records, as for assess`, worthOf),
		verb("picture", "one planting's years in flower and its height, as a page draws them",
			`{"on":"2015-07-10","planting":"p","records":[{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04"}}]}`, `
			on        the day to answer for, YYYY-MM-DD
			records   the garden's records, as for assess
			planting  the id of a planting among the records`, pictureOf),
		verb("simulate", "a garden whose truth is known, and what was written down of it",
			`{"seed":1,"plantings":1,"years":1,"visitsPerWeek":0.2,"late":0.1,"struggling":0.1}`, `
			seed           the same seed gives the same garden, 0 to 9007199254740991
			plantings      1 to 1000
			years          1 to 20, ending with 2025
			visitsPerWeek  0.1 to 7; null is visits every 3 to 12 days
			late           share of plantings that are late in the last year, 0 to 1; null is 0.1
			struggling     share of plantings whose growth falls behind, 0 to 1; null is none
			breaks[]       what to spoil: heavy-tails, wet-corner, cold-corner, wrong-catalogue, weekends, long-gap, late-spring, fading-season, blind-plants, misread, flower-followed, even-season
			weather        true gives normals and daily temperatures, whose heat makes half of a season`, simulate.Garden),
	}
}
