package garden

import "encoding/json"

// The rules that several kinds of record share.
var (
	aDay      = dated(ParseDay, "a date written YYYY-MM-DD")
	aMonthDay = parsed(ParseMonthDay, "a day of the year written MM-DD")
	aDate     = dated(firstOfPartialDate, "YYYY, YYYY-MM or YYYY-MM-DD")
	anInstant = dated(DayOfInstant, "a time written as RFC 3339 with its offset")
	anID      = parsed(parseAnID, idBound)
	aName     = text(longestName)
	aNote     = text(longestNote)
	anOutline = listOf(longestList, point)
	hashes    = listOf(100, parsed(parseHash, "a SHA-256 in 64 hexadecimal digits"))
	colours   = listOf(20, parsed(parseColour, "a colour written #rrggbb"))
	window    = object("from to", map[string]rule{"from": aMonthDay, "to": aMonthDay})
	aPlace    = object("lat lon", map[string]rule{"lat": latitude, "lon": longitude})
	latitude  = number(-90, 90)
	longitude = number(-180, 180)
)

// What a value may be. A bound is there for a slip of the finger, not for the
// unusual: it lies beyond what any garden has.
const (
	// Weather: beyond the records kept by the World Meteorological Organization
	// (−89.2 °C Vostok 1983, 56.7 °C Furnace Creek 1913; 1825 mm in a day, Foc-Foc
	// 1966; 113 m/s, Barrow Island 1996). No month is usually as wet as wettestMonthMm.
	coldestC, hottestC = -90, 60
	wettestDayMm       = 2000
	wettestMonthMm     = 3000
	strongestMs        = 115

	lowestM, highestM = -430, 6000 // the shore of the Dead Sea; above every town

	tallestCm       = 5000 // taller trees are not planted in gardens
	tallestM        = 150  // a tower block beside one
	deepestM        = 50   // under the plan's origin, on a cliff
	highestBaseM    = 100
	deepestCm       = 200 // of planting
	raisedCm        = 50  // a planting on a mound
	biggestPotL     = 2000
	mostPlants      = 100_000 // a meadow of bulbs
	worstAccuracyM  = 100_000 // a position by the address of the network alone
	longestMinutes  = 6000    // a hundred hours at one task
	highestPrice    = 1e6     // in whatever currency
	longestToSize   = 100     // years
	longestToFlower = 30      // years; slow seedlings of trees and palms
)

// schemas holds, for each kind of record, the rule of each field that this
// program knows. It is never changed.
var schemas = map[RecordKind]map[string]rule{
	GardenRecord: {
		"name": aName, "lat": latitude, "lon": longitude, "altitudeM": number(lowestM, highestM),
		"timeZone":   parsed(parseZone, "an IANA zone, such as Europe/London"),
		"planOrigin": aPlace, "planBearingDeg": number(0, 360), "units": oneOf("metric", "imperial"),
		"normals": twelve(object("minC maxC rainMm", map[string]rule{"minC": number(coldestC, hottestC), "maxC": number(coldestC, hottestC), "rainMm": number(0, wettestMonthMm)})),
		"clock":   aDay,
	},
	BedRecord: {
		"name": aName, "outline": anOutline,
		"soil": oneOf("sand", "loamy sand", "sandy loam", "loam", "silt loam", "silt", "sandy clay loam",
			"clay loam", "silty clay loam", "sandy clay", "silty clay", "clay"),
		"ph": number(2, 11), "drainage": oneOf("quick", "good", "slow", "wet"),
		"exposure": oneOf("sheltered", "open", "windy"), "irrigated": flag, "container": flag,
		"viewedFrom": point, "order": number(-1e6, 1e6),
	},
	StructureRecord: {
		"name": aName, "form": oneOf("wall", "fence", "hedge", "tree", "building", "arch", "pergola", "other"),
		"outline": anOutline, "baseM": number(-deepestM, highestBaseM), "heightM": number(0, tallestM),
		"leaf": oneOf("none", "deciduous", "evergreen"), "density": number(0, 1),
	},
	KindRecord:        kindSchema(),
	PlantingRecord:    plantingSchema(),
	ObservationRecord: observationSchema(),
	WorkRecord: {
		"planting": anID, "bed": anID, "day": aDay, "what": text(60), "heightLeftCm": number(0, tallestCm),
		"amount": aName, "minutes": number(0, longestMinutes), "by": aName, "note": aNote,
	},
	TaskRecord: {
		"planting": anID, "bed": anID, "care": text(60),
		"due":    object("from to", map[string]rule{"from": aDay, "to": aDay}),
		"reason": aNote, "assignee": aName, "done": anID, "doneBy": aName, "skipped": flag, "why": aNote,
		"putOffTo": aDay, "quantity": aName, "minutes": number(0, longestMinutes),
	},
	WeatherRecord: {
		"day": aDay, "minC": number(coldestC, hottestC), "maxC": number(coldestC, hottestC),
		"rainMm": number(0, wettestDayMm), "sunHours": number(0, 24), "windMs": number(0, strongestMs), "source": text(60),
	},
	DecisionRecord: {
		"planting": anID, "year": whole(FirstYear, LastYear), "what": text(60), "by": aDay, "why": aNote,
	},
	DismissalRecord: {
		"planting": anID, "flush": text(60), "finding": text(60), "why": aNote, "day": aDay,
	},
}

func kindSchema() map[string]rule {
	return map[string]rule{
		"name": aName, "synonyms": listOf(50, aName), "common": listOf(50, aName),
		"habit":     oneOf("shrub", "climber", "tree", "perennial", "bulb", "annual", "biennial", "grass", "fern"),
		"lifeCycle": oneOf("annual", "biennial", "monocarpic", "short-lived", "long-lived"),
		"foliage":   oneOf("evergreen", "semi-evergreen", "deciduous", "dies-down", "winter-green"),
		"emerges":   window, "heightCm": orderedPair(0, tallestCm), "spreadCm": orderedPair(0, tallestCm),
		"spreadHabit": oneOf("clump", "spreading", "running", "rooting", "suckering", "self-sowing", "single", "climbing"),
		"yearsToSize": number(0, longestToSize), "yearsToFlower": number(0, longestToFlower), "pace": oneOf("quick", "ordinary", "slow"),
		"sunHours": orderedPair(0, 24), "moisture": oneOf("dry", "drained", "moist", "wet"),
		"ph": orderedPair(2, 11), "minWinterC": number(-60, 20),
		"bloom":     listOf(6, object("from to", map[string]rule{"from": aMonthDay, "to": aMonthDay, "needs": oneOf("deadhead", "cut-back")})),
		"flowersOn": oneOf("last-year", "this-year", "old"),
		"pruneGroup": oneOf("none", "cut-down", "cut-after-flower", "old-leaves", "after-flower", "late-winter-hard",
			"late-winter-light", "rose-repeating", "rose-once", "clematis-1", "clematis-2", "clematis-3", "wisteria", "summer-only"), "cue": oneOf("heat", "day-length", "autumn-rain", "chill"),
		"interest": listOf(12, object("what from to", map[string]rule{
			"what": oneOf("flower", "leaf", "hip", "berry", "seed-head", "autumn-colour", "bark"),
			"from": aMonthDay, "to": aMonthDay, "colours": colours})),
		"colours": colours, "scent": oneOf("none", "slight", "strong", "evening", "leaf"), "pollinators": oneOf("none", "some", "good", "rich"),
		"care": listOf(30, object("what when", map[string]rule{"what": text(60), "why": aNote, "everyYears": whole(1, 20),
			"when": object("", map[string]rule{"from": aMonthDay, "to": aMonthDay, "after": oneOf("first-flush", "bloom")})})),
		"cautions": listOf(20, object("code words", map[string]rule{"code": text(40), "words": aNote})),
	}
}

func plantingSchema() map[string]rule {
	return map[string]rule{
		"kind": anID, "identity": oneOf("confirmed", "as-bought", "guess"), "bed": anID, "at": point, "area": anOutline,
		"count": whole(0, mostPlants), "planted": aDate,
		"form": oneOf("bare-root", "pot", "bulb", "plug", "seed", "division", "cutting"),
		"potL": number(0, biggestPotL), "depthCm": number(-raisedCm, deepestCm), "heightCm": number(0, tallestCm), "grafted": flag,
		"cover": oneOf("none", "fleece", "cloche", "frame", "greenhouse", "house"), "amendments": listOf(20, aName), "supplier": aName,
		"price": number(0, highestPrice), "ended": aDay,
		"endedHow": oneOf("moved", "divided", "lifted", "died", "removed", "given-away", "done"), "endedWhy": aNote, "stored": flag,
		"from":  object("planting how", map[string]rule{"planting": anID, "how": oneOf("moved", "divided", "cutting", "seed", "lifted")}),
		"label": aName, "labelled": aDay,
	}
}

func observationSchema() map[string]rule {
	return map[string]rule{
		"planting": anID, "seen": anInstant, "by": aName, "flush": whole(0, 12),
		"up": oneOf("not-up", "up", "in-leaf", "dying-back"), "stage": stage, "notInFlower": flag,
		"countAlive": whole(0, mostPlants), "countInFlower": whole(0, mostPlants), "flowerAmount": whole(0, 4),
		"heightCm": number(0, tallestCm), "flowerHeightCm": number(0, tallestCm), "spreadCm": number(0, tallestCm),
		"vigour": whole(1, 5),
		"signs":  listOf(20, oneOf(Signs()...)),
		"note":   aNote, "photos": hashes, "voice": hashes, "lat": latitude, "lon": longitude,
		"accuracyM": number(0, worstAccuracyM), "tiedBy": text(40), "tiedSure": number(0, 1),
	}
}

// stage allows a growth stage of the BBCH scale, 0 to 99 (Meier 2001).
func stage(field string, value json.RawMessage) *Problem { return whole(0, 99)(field, value) }

// twelve allows a list of exactly one item a month.
func twelve(item rule) rule {
	list := listOf(12, item)
	return func(field string, value json.RawMessage) *Problem {
		var items []json.RawMessage
		if json.Unmarshal(value, &items) != nil || len(items) != 12 {
			return invalid(field, value, "twelve months, January first")
		}
		return list(field, value)
	}
}
