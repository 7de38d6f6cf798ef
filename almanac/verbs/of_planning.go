package verbs

import "haulm/almanac/suit"

// planningVerbs answer what to plant.
func planningVerbs() []Verb {
	return []Verb{
		verb("suit", "what to plant here: kinds ranked for a spot, and the set that fills the weeks without flower",
			`{"spot":{"lat":51.5,"sunHours":3.5,"soil":"clay loam","drainage":"good","ph":6.8,"minWinterC":-10,"roomCm":80,"heightCm":[40,120],"support":false},"kinds":["astrantia-major","helleborus-hybridus","lavandula-angustifolia","verbena-bonariensis"],"have":{"kinds":["iris-sibirica"],"windows":[{"from":"05-20","to":"06-20","colours":["#c2568e"]}]},"choose":2,"areaM2":3}`, `
			spot.lat                  degrees north, -90 to 90; below 0 the year is turned by half
			spot.latenessDays         how many days later than at 51.5° N seasons run here, -183 to 183
			spot.sunHours             hours of direct sun a day in the growing season, 0 to 24
			spot.sunMorning           how many of these before noon, 0 to 24
			spot.soil                 texture as a bed's: sand, loamy sand, … clay
			spot.drainage             quick, good, slow or wet
			spot.moisture             dry, drained, moist or wet; overrides soil, drainage and irrigated
			spot.irrigated            true or false
			spot.ph                   pH of the soil, 2 to 11
			spot.minWinterC           °C, the coldest of an ordinary winter, -60 to 25
			spot.container            true in a pot
			spot.roomCm               cm free across, 0 to 5000
			spot.heightCm             cm wanted, two in order, 0 to 5000
			spot.support              whether there is something to climb
			spot.colours[]            colours wanted, #rrggbb
			kinds[]                   slugs of the catalogue, or whole kinds with an id; left out is the whole catalogue
			have.kinds[]              slugs of what flowers already, once for each planting
			have.windows[].from       MM-DD in the garden's own dates
			have.windows[].to         MM-DD
			have.windows[].colours[]  #rrggbb
			have.weeks[]              plantings in flower in each of the 52 weeks, 0 to 100000
			choose                    how many kinds the set shall have, 0 to 30; null is 3
			areaM2                    m² of ground for the set, 0 to 10000; null is one plant of each`, suit.Suit),
	}
}
