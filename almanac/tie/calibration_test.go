package tie

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"haulm/garden"
)

// Photographs in made-up gardens whose truth is known: what is given a
// probability comes true as often, and of what is tied by itself at least nine in
// ten are right. In a border little is tied by its place alone; shrubs in a lawn
// mostly are.
func TestProbabilitiesComeTrue(t *testing.T) {
	for name, c := range map[string]struct {
		plantings int
		leastTied float64 // share of all photographs
	}{"border": {40, 0}, "shrubs in a lawn": {5, 0.3}} {
		t.Run(name, func(t *testing.T) {
			const photos = 4000
			expected, right, tied, tiedRight := tally(t, c.plantings, photos)
			t.Logf("first candidates: %.1f %% right, said %.1f %%; tied %.1f %%, of which %.1f %% right",
				100*right/photos, 100*expected/photos, 100*tied/photos, 100*tiedRight/tied)
			if math.Abs(right-expected)/photos > 0.03 {
				t.Errorf("the first candidate is right in %.3f, said %.3f", right/photos, expected/photos)
			}
			luck := 2 * math.Sqrt(sureEnough*(1-sureEnough)*tied)
			if tied/photos < c.leastTied || tiedRight < sureEnough*tied-luck {
				t.Errorf("of %g tied %g are right", tied, tiedRight)
			}
		})
	}
}

func tally(t *testing.T, plantings, photos int) (expected, right, tied, tiedRight float64) {
	t.Helper()
	random := rand.New(rand.NewPCG(11, 12))
	for range photos / 20 {
		border := scatteredPlantings(random, plantings)
		for range 20 {
			photo, truth := somePhoto(random, border)
			r := mustTie(t, inGarden(photo, drawn(random, border)...))
			if len(r.Candidates) == 0 {
				continue
			}
			hit := oneIf(r.Candidates[0].Planting == truth)
			expected, right = expected+r.Sure, right+hit
			if r.Tied != nil {
				tied, tiedRight = tied+1, tiedRight+hit
			}
		}
	}
	return expected, right, tied, tiedRight
}

func oneIf(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// scatteredPlantings stand anywhere in 40 by 30 metres.
func scatteredPlantings(random *rand.Rand, n int) []Planting {
	var out []Planting
	for i := range n {
		out = append(out, plantingAt(fmt.Sprint("p", i), 40*random.Float64(), 30*random.Float64()))
	}
	return out
}

// drawn is the border as somebody drew it on the plan.
func drawn(random *rand.Rand, border []Planting) []Planting {
	var out []Planting
	for _, p := range border {
		out = append(out, plantingAt(p.ID, p.At[0]+planErrorM*random.NormFloat64(), p.At[1]+planErrorM*random.NormFloat64()))
	}
	return out
}

// somePhoto is one of a planting, from a step away, or of none; its place is as
// wrong as its accuracy says.
func somePhoto(random *rand.Rand, border []Planting) (photo Photo, truth string) {
	stand := garden.Point{60*random.Float64() - marginM, 50*random.Float64() - marginM}
	if random.Float64() > noneShare {
		p := border[random.IntN(len(border))]
		sin, cos := math.Sincos(2 * math.Pi * random.Float64())
		truth = p.ID
		stand = garden.Point{
			p.At[0] + standoffM*cos + standoffSpreadM*random.NormFloat64(),
			p.At[1] + standoffM*sin + standoffSpreadM*random.NormFloat64(),
		}
	}
	accuracyM := 2 + 6*random.Float64()
	sigma := accuracyM / accuracyPerSigma
	return photoAt(stand[0]+sigma*random.NormFloat64(), stand[1]+sigma*random.NormFloat64(), accuracyM), truth
}
