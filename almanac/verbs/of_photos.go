package verbs

import (
	"haulm/almanac/materials"
	"haulm/almanac/tie"
)

// photoVerbs answer from photographs.
func photoVerbs() []Verb {
	return []Verb{
		verb("height-from-photo", "how high a plant is beside a cane in a photograph",
			`{"caneCm":100,"caneTop":[100,500],"caneFoot":[100,1000],"plantTop":[400,100],"plantFoot":[400,1000]}`, `
			caneCm          cm from the ground to its top, 10 to 1000
			caneTop         [x, y] in pixels, -100000 to 100000, as are the next three
			caneFoot        [x, y] where it meets the ground, -100000 to 100000
			plantTop        [x, y], -100000 to 100000
			plantFoot       [x, y], -100000 to 100000
			caneDistanceM   metres from the camera, 0.3 to 100; with plantDistanceM, or neither where they stand side by side
			plantDistanceM  metres from the camera, 0.3 to 100
			pixelError      how far a tap is off, in pixels, 0.1 to 200; null is the usual`, materials.HeightFromPhoto),
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
