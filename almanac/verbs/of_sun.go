package verbs

import "haulm/almanac/sun"

// sunVerbs answer where the sun stands and how long it shines.
func sunVerbs() []Verb {
	return []Verb{
		verb("day", "when the sun rises, crosses the meridian and sets",
			`{"lat":51.5,"lon":-0.1,"day":"2026-06-21","timeZone":"Europe/London"}`, `
			lat       degrees north, -90 to 90
			lon       degrees east, -180 to 180
			day       YYYY-MM-DD, in the years 1900–2149
			timeZone  IANA name such as Europe/London, or an offset such as +02:00`, sun.DayOf),
		verb("shade", "hours of direct sun on a point among walls, hedges and trees",
			`{"garden":{"lat":51.5,"lon":-0.1,"planBearingDeg":0},"structures":[{"form":"wall","outline":[[-5,-3],[5,-3],[5,-3.2],[-5,-3.2]],"heightM":2},{"form":"tree","outline":[[4,1],[6,1],[6,3],[4,3]],"baseM":2,"heightM":6,"leaf":"deciduous","density":0.8,"leafOut":"04-20","leafFall":"11-10"}],"point":[0,0],"heightM":0.3,"month":"2026-06"}`, `
			garden.lat             degrees north, -90 to 90
			garden.lon             degrees east, -180 to 180
			garden.planBearingDeg  of the plan's y axis, degrees clockwise from north, -360 to 360
			garden.normals[]       twelve months' {minC, maxC, rainMm}, for dates of leaf by heat; without them by latitude
			structures[].form      wall, fence, hedge, tree, building, arch or pergola; at most 500 structures, of 5000 corners in all
			structures[].outline   [[x, y], …] metres on the plan, at least 3 points and at most 500, not crossing itself
			structures[].baseM     metres above the plan, -500 to 500
			structures[].heightM   of its top, metres above the plan, above baseM and at most 500
			structures[].leaf      none, deciduous or evergreen
			structures[].density   share of the sun that it takes, 0 to 1; usual for the form where left out
			structures[].leafOut   MM-DD on which it comes into leaf
			structures[].leafFall  MM-DD on which it stands bare
			point                  [x, y] metres on the plan, -100000 to 100000
			heightM                metres above the plan, -500 to 500
			day                    YYYY-MM-DD, or
			month                  YYYY-MM, in the years 1900–2149`, sun.ShadeAt),
		verb("sun", "where the sun stands",
			`{"lat":51.5,"lon":-0.1,"at":"2026-06-21T12:00:00Z"}`, `
			lat  degrees north, -90 to 90
			lon  degrees east, -180 to 180
			at   RFC 3339 with its offset, in the years 1900–2149`, sun.At),
	}
}
