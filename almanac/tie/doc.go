// Package tie says which planting a photograph is of, from where it was taken
// and what was being logged just before, and says with what probability it is of
// none of them. Start in tie.go; plan.go turns places on the earth into places
// on a garden's plan and back, and likelihood.go weighs a place.
//
// The verb reads
//
//	{"photo": {"lat": 47.6, "lon": -122.3, "accuracyM": 4, "bearingDeg": 180,
//	           "seen": "2026-06-02T09:15:00-07:00",
//	           "lastPlanting": "0192…", "lastSeen": "2026-06-02T09:13:30-07:00"},
//	 "garden": {"planOrigin": {"lat": 47.6, "lon": -122.3}, "planBearingDeg": 0},
//	 "plantings": [{"id": "0192…", "at": [3.5, 2], "area": [[3, 1], …], "inFlower": true}]}
//
// where lat and lon together, accuracyM, bearingDeg, lastPlanting with lastSeen,
// planOrigin, at, area and inFlower may be missing or null; and writes
//
//	{"tied": "0192…", "sure": 0.94, "lacking": "",
//	 "candidates": [{"planting": "0192…", "probability": 0.94, "distanceM": 0.8}, …],
//	 "others": 0.01, "none": 0.05}
//
// with tied null unless sure is at least 0.9, and lacking one of "", "position",
// "origin" and "plantings". Give it the plantings that stand in the ground.
package tie
