package verbstest

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
)

// awkward are inputs that are as much work as the verb's own bounds allow, made
// for what it does inside.
func awkward(verb string) []Large {
	makers := map[string]func() []Large{
		"curve-fit": awkwardCurves, "first-flower": awkwardFlushes, "growth": awkwardGrowth, "interval-mean": awkwardIntervals,
		"mulch": awkwardBeds, "shade": awkwardShade, "simulate": awkwardSimulations, "theil-sen": awkwardLines, "tie": awkwardPhotos,
	}
	if maker, there := makers[verb]; there {
		return maker()
	}
	return nil
}

func written(value any) []byte {
	text, err := json.Marshal(value)
	if err != nil {
		panic(err) // the values are numbers and texts of this package
	}
	return text
}

type object = map[string]any

// awkwardCurves are points through which no curve goes well.
func awkwardCurves() []Large {
	draw := rand.New(rand.NewPCG(1, 1))
	var large []Large
	for _, model := range []string{"logistic", "gompertz", "asymptotic", "chapman-richards"} {
		for _, noise := range []int{1, 500} {
			var x, y []int
			for n := range 20_000 {
				x, y = append(x, n), append(y, n/100+draw.IntN(noise))
			}
			large = append(large, Large{fmt.Sprintf("20,000 points of a straight line, %s, noise %d", model, noise), written(object{"model": model, "x": x, "y": y})})
		}
	}
	return large
}

// awkwardFlushes are plantings through the years: many years of few, few of
// many, and every kind of its own day; the last two are more than is taken.
func awkwardFlushes() []Large {
	var large []Large
	for _, shape := range []struct{ plantings, years, kinds int }{{14, 150, 1}, {66, 90, 1}, {100, 24, 12}, {100, 24, 150}, {400, 15, 12}, {500, 12, 200}, {750, 8, 700}, {2000, 3, 40}, {6000, 1, 6000}, {6000, 1, 12}, {50, 150, 1}, {1, 7000, 1}} {
		kinds, flushes := object{}, []object{}
		for k := range shape.kinds {
			kinds[fmt.Sprintf("k%d", k)] = object{"expectedDay": 20 + k*330/shape.kinds}
		}
		for p := range shape.plantings {
			for y := range shape.years {
				day := 20 + p%shape.kinds*330/shape.kinds
				flushes = append(flushes, object{"planting": fmt.Sprintf("p%d", p), "kind": fmt.Sprintf("k%d", p%shape.kinds), "year": 2000 + y, "after": day, "by": day + 3 + (p*7+y)%9})
			}
		}
		large = append(large, Large{fmt.Sprintf("%d plantings of %d kinds over %d years", shape.plantings, shape.kinds, shape.years), written(object{"kinds": kinds, "seasons": object{}, "flushes": flushes})})
	}
	return large
}

// awkwardGrowth is a tree of centuries, measured every day or cut every week.
func awkwardGrowth() []Large {
	var large []Large
	for _, habit := range []string{"tree", "perennial", "bulb"} {
		kind := object{"habit": habit, "foliage": "deciduous", "heightCm": []int{400, 600}, "spreadCm": []int{300, 500}, "yearsToSize": 200, "pace": "slow", "pruneGroup": "late-winter-hard"}
		var measures, work []object
		for n := range 6000 {
			measures = append(measures, object{"day": dayN(n * 2), "heightCm": 50 + n%300, "spreadCm": 20 + n%200, "stems": n % 50, "alive": n % 40})
			work = append(work, object{"day": dayN(n * 2), "what": "pruned", "heightLeftCm": n % 90})
		}
		for _, planted := range []string{"1500", "1974"} {
			large = append(large, Large{habit + " planted in " + planted, written(object{"kind": kind, "planted": planted, "count": 50, "on": "2200-12-31",
				"from": "2161-01-01", "to": "2200-12-31", "measures": measures, "work": work})})
		}
	}
	return large
}

func awkwardIntervals() []Large {
	draw := rand.New(rand.NewPCG(2, 1))
	near, far := [][2]any{}, [][2]any{}
	for n := range 60_000 {
		at := draw.IntN(365)
		near = append(near, [2]any{at, at + 1})
		far = append(far, [][2]any{{nil, at}, {at, nil}, {1e12, 1e12}, {-1e12, 1e12}}[n%4])
	}
	return []Large{{"60,000 intervals", written(object{"intervals": near})}, {"60,000 open ones", written(object{"intervals": far})}}
}

// awkwardBeds have as many corners as are taken, in one outline and in many.
func awkwardBeds() []Large {
	var comb, squares [][][2]float64
	var teeth [][2]float64
	for n := range 480 {
		teeth = append(teeth, [2]float64{float64(n) / 10, float64(n % 2 * 9)})
	}
	comb = append(comb, append(teeth, [2]float64{48, -1}, [2]float64{0, -1}))
	for n := range 230 {
		x := float64(n%20) * 2
		squares = append(squares, [][2]float64{{x, 1}, {x + 3, 1}, {x + 3, 4}, {x, 4}})
	}
	whole := [][2]float64{{0, 0}, {60, 0}, {60, 60}, {0, 60}}
	return []Large{
		{"a comb", written(object{"outline": comb[0], "depthCm": 5})},
		{"a comb taken out", written(object{"outline": whole, "minus": comb, "depthCm": 5})},
		{"many squares taken out", written(object{"outline": whole, "minus": squares, "depthCm": 5})},
	}
}

// awkwardShade is a point in a wood, each tree of few corners or of many.
func awkwardShade() []Large {
	var large []Large
	for _, shape := range []struct{ trees, corners int }{{500, 10}, {500, 4}, {10, 500}} {
		structures := []object{}
		for n := range shape.trees {
			outline := [][2]float64{}
			for c := range shape.corners {
				sin, cos := math.Sincos(2 * math.Pi * float64(c) / float64(shape.corners))
				outline = append(outline, [2]float64{float64(n%40)*1.5 - 30 + cos, float64(n/40)*1.5 - 30 + sin})
			}
			structures = append(structures, object{"form": "tree", "outline": outline, "heightM": 3 + n%20, "leaf": "deciduous", "density": 0.3})
		}
		large = append(large, Large{fmt.Sprintf("%d trees of %d corners", shape.trees, shape.corners),
			written(object{"garden": object{"lat": 51.5, "lon": 0}, "structures": structures, "point": []float64{0.2, 0.7}, "month": "2026-06"})})
	}
	return large
}

func awkwardSimulations() []Large {
	return []Large{
		{"many plantings", written(object{"seed": 1, "plantings": 1000, "years": 1})},
		{"many years", written(object{"seed": 1, "plantings": 60, "years": 20})},
		{"many visits", written(object{"seed": 1, "plantings": 100, "years": 1, "visitsPerWeek": 7})},
		{"few visits to many plantings through many years", written(object{"seed": 1, "plantings": 1000, "years": 20, "visitsPerWeek": 0.1})},
	}
}

func awkwardLines() []Large {
	draw := rand.New(rand.NewPCG(3, 1))
	var x, y, one []float64
	for n := range 60_000 {
		x, y, one = append(x, float64(n)), append(y, float64(draw.IntN(9999))), append(one, float64(min(n, 1)))
	}
	return []Large{
		{"60,000 points of noise", written(object{"x": x, "y": y})},
		{"60,000 points, all but one at the same x", written(object{"x": one, "y": y})},
		{"60,000 points going down", written(object{"x": y, "y": x})},
	}
}

func awkwardPhotos() []Large {
	var plantings []object
	for n := range 9000 {
		x, y := float64(n%90)/3, float64(n/90)/3
		plantings = append(plantings, object{"id": fmt.Sprintf("p%d", n), "area": [][2]float64{{x, y}, {x + 1, y}, {x + 1, y + 1}, {x, y + 1}}, "inFlower": n%2 == 0})
	}
	return []Large{{"9,000 areas", written(object{"photo": object{"lat": 47.6, "lon": -122.3, "accuracyM": 30, "bearingDeg": 20, "seen": "2015-07-10T09:15:00Z"},
		"garden": object{"planOrigin": object{"lat": 47.6, "lon": -122.3}}, "plantings": plantings})}}
}
