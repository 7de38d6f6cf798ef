package verbs

// gardenVerbs answer from a garden's records.
func gardenVerbs() []Verb {
	return []Verb{
		verb("assess", "everything at once: how the season runs, and what is worth a look",
			`{"on":"2015-07-10","records":[{"record":"garden/g","fields":{"lat":51.5,"lon":-0.1,"altitudeM":50}},{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04"}},{"record":"observation/o","fields":{"planting":"p","seen":"2015-06-20T09:00:00+01:00","notInFlower":true,"heightCm":70}}]}`, `
			on       the day to answer for, YYYY-MM-DD
			records  the garden's records, each {"record": "kind/id", "fields": {…}}; one that cannot be read is listed in skipped`, assessGarden),
		verb("picture", "one planting's years in flower and its height, as a page draws them",
			`{"on":"2015-07-10","planting":"p","records":[{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04"}}]}`, `
			on        the day to answer for, YYYY-MM-DD
			records   the garden's records, as for assess
			planting  the id of a planting among the records`, pictureOf),
	}
}
