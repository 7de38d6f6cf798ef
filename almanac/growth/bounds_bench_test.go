package growth

import (
	"math"
	"math/rand/v2"
	"testing"

	"haulm/garden"
)

// The longest curves, of each model: points of the model with noise, and points
// that no curve goes through.
func BenchmarkCurveFitAtItsLongest(b *testing.B) {
	draw := rand.New(rand.NewPCG(trueSeed1, 6))
	for _, model := range []string{"logistic", "gompertz", "asymptotic", "chapman-richards"} {
		for _, kind := range []string{"growth", "noise", "parabola", "spikes", "line"} {
			b.Run(model+"/"+kind, func(b *testing.B) {
				s := Series{Model: model}
				for i := range mostPoints {
					x := 10 * float64(i+1) / mostPoints
					y := map[string]float64{
						"growth":   100/(1+math.Exp(4-x)) + draw.NormFloat64(),
						"noise":    draw.NormFloat64(),
						"parabola": (x - 5) * (x - 5),
						"line":     x / 100,
						"spikes":   math.Pow(10, float64(i%9)),
					}[kind]
					s.X, s.Y = append(s.X, x), append(s.Y, y)
				}
				for b.Loop() {
					_, _ = CurveFit(s) // whether it can be fitted is not the question
				}
			})
		}
	}
}

// The longest questions on a planting: measures and work of every day, for shrubs
// that are forever cut without a word, and for clumps.
func BenchmarkGrowAtItsLongest(b *testing.B) {
	for name, kind := range map[string]garden.Kind{"shrub": shrub(), "clump": clump(), "cut each winter": kindsOfEachWay()[2], "bulb": kindsOfEachWay()[7]} {
		b.Run(name, func(b *testing.B) {
			in := Input{Kind: kind, Planted: planted("1980"), On: date("2015-07-10"), Count: count(30)}
			for i := range mostMeasures {
				in.Measures = append(in.Measures, Measure{Day: in.On - garden.Day(i), HeightCm: cm(float64(1 + 100*(i%2))), SpreadCm: cm(30), Alive: count(9), Stems: count(9)})
			}
			for i := range mostWork {
				in.Work = append(in.Work, Work{Day: in.On - garden.Day(i*5), What: "pruned", HeightLeftCm: cm(float64(i % 60))})
			}
			in.From, in.To = day(in.On-longestDay), day(in.On)
			for b.Loop() {
				grow(b, in)
			}
		})
	}
}
