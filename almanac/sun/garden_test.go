package sun

import (
	"math"
	"math/rand/v2"

	"haulm/garden"
)

// randomPrism invents a structure within reach metres of the plan's origin: a
// wall, a shed, a round crown on a trunk or an arch, of any density and leaf.
func randomPrism(random *rand.Rand, reach float64) Prism {
	between := func(lo, hi float64) float64 { return lo + random.Float64()*(hi-lo) }
	middle := [2]float64{between(-reach, reach), between(-reach, reach)}
	p := Prism{TopM: between(0.5, 8), Density: [...]float64{1, 1, 0.85, 0.5, 0.2}[random.IntN(5)]}
	p.Leaf = [...]Leaf{NoLeaf, Deciduous, Evergreen, ""}[random.IntN(4)]
	if random.IntN(2) == 0 {
		p.BaseM = between(-0.5, p.TopM-0.2)
	}
	if random.IntN(3) == 0 {
		p.Outline = star(middle, 3+random.IntN(10), between(0.3, 3), between(0.5, 1))
		return p
	}
	long, wide, turn := between(0.3, 6), between(0.1, 2), between(0, 2*math.Pi)
	sin, cos := math.Sincos(turn)
	for _, corner := range [][2]float64{{-long, -wide}, {long, -wide}, {long, wide}, {-long, wide}} {
		p.Outline = append(p.Outline, [2]float64{middle[0] + corner[0]*cos - corner[1]*sin, middle[1] + corner[0]*sin + corner[1]*cos})
	}
	return p
}

// star is an outline with points at a radius and, between them, at a share of it.
func star(middle [2]float64, points int, radius, share float64) [][2]float64 {
	var outline [][2]float64
	for i := range 2 * points {
		sin, cos := math.Sincos(float64(i) * math.Pi / float64(points))
		r := radius
		if i%2 == 1 {
			r *= share
		}
		outline = append(outline, [2]float64{middle[0] + r*cos, middle[1] + r*sin})
	}
	return outline
}

func randomPrisms(random *rand.Rand, n int, reach float64) []Prism {
	prisms := make([]Prism, n)
	for i := range prisms {
		prisms[i] = randomPrism(random, reach)
	}
	return prisms
}

func randomPlace(random *rand.Rand) Place {
	return Place{random.Float64()*180 - 90, random.Float64()*360 - 180, random.Float64() * 360}
}

func randomDay(random *rand.Rand) garden.Day {
	return garden.DayOf(1950, 1, 1) + garden.Day(random.IntN(365*150))
}
