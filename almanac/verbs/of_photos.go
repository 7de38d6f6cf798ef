package verbs

import "haulm/almanac/tie"

// photoVerbs answer from photographs.
func photoVerbs() []Verb {
	return []Verb{
		verb("tie", "which planting a photograph is of",
			`{"photo":{"lat":47.60001,"lon":-122.3,"accuracyM":4,"seen":"2015-07-10T09:15:00-07:00"},"garden":{"planOrigin":{"lat":47.6,"lon":-122.3}},"plantings":[{"id":"a","at":[0.5,1]},{"id":"b","at":[9,4]}]}`, `
			photo.lat              degrees north, -90 to 90, with lon
			photo.lon              degrees east, -180 to 180, with lat
			photo.accuracyM        metres, above 0
			photo.bearingDeg       where the camera looked, degrees clockwise from true north, -360 to 360
			photo.seen             when it was taken, RFC 3339 with its offset
			photo.lastPlanting     the planting logged just before, with lastSeen
			photo.lastSeen         when, RFC 3339 with its offset
			garden.planOrigin.lat  degrees north of the plan's origin, -89 to 89
			garden.planOrigin.lon  degrees east of it, -180 to 180
			garden.planBearingDeg  of the plan's y axis, degrees clockwise from north, -360 to 360
			plantings[].id         each once
			plantings[].at         [x, y] of its middle on the plan, metres
			plantings[].area       its outline [[x, y], …] on the plan, metres, at least 3 corners
			plantings[].inFlower   true, false, or null where nobody knows`, tie.Tie),
	}
}
