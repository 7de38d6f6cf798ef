package stats

import (
	"math"
	"testing"

	"haulm/internal/reference"
	"pgregory.net/rapid"
)

// Slopes found by rank against all of them written out: with ties in x, in y and
// in slopes, in clusters, and among wild values.
func TestSlopesByRankAreThoseWrittenOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := rapid.SampledFrom([]*rapid.Generator[float64]{
			rapid.Map(rapid.IntRange(-3, 3), func(i int) float64 { return float64(i) }),
			rapid.Map(rapid.IntRange(0, 400), func(i int) float64 { return float64(i) / 10 }),
			rapid.Float64Range(-1, 1),
			rapid.Map(rapid.Float64Range(-20, 20), func(v float64) float64 { return math.Sinh(v) }),
		}).Draw(t, "sort of value")
		n := rapid.IntRange(2, 70).Draw(t, "points")
		x, y := rapid.SliceOfN(draw, n, n).Draw(t, "x"), rapid.SliceOfN(draw, n, n).Draw(t, "y")
		all := pairSlopes(x, y)
		if len(all) == 0 {
			return
		}
		s := newSlopes(x, y)
		if s.pairs != len(all) {
			t.Fatalf("%d pairs, want %d", s.pairs, len(all))
		}
		got, want := s.median(), Median(all)
		if math.Abs(got-want) > 1e-9*math.Max(s.scale, math.Abs(want)) {
			t.Fatalf("the middle of %d slopes is %v, want %v", len(all), got, want)
		}
	})
}

// Ties on both sides of the middle, where all slopes drawn first are the same.
func TestEachRankOfTiedSlopes(t *testing.T) {
	s := newSlopes([]float64{0, -1, -1, -2, -2}, []float64{0, 0, -1, 0, -2})
	for rank, want := range []float64{-1, 0, 0, 0, 1, 1, 1, 2} {
		near(t, "slope", s.ranked(rank+1), want, 1e-11)
	}
}

// Full flowering of cherry at Kyoto (Aono & Saito 2010): slopes of four periods by
// R, found by rank too.
func TestTheilSenOfKyotoByR(t *testing.T) {
	var stats struct {
		Periods []struct {
			From, To, N int
			Slope       float64 `json:"theil_sen_days_per_year"`
			Median      float64
			MAD         float64 `json:"mad_raw"`
			P05         float64 `json:"p05_type7"`
			P95         float64 `json:"p95_type7"`
		}
	}
	reference.JSON(t, "phenology_kyoto_stats.json", &stats)
	if len(stats.Periods) != 4 {
		t.Fatalf("%d periods, want 4", len(stats.Periods))
	}
	for _, period := range stats.Periods {
		x, y := kyoto(t, period.From, period.To)
		if len(x) != period.N {
			t.Fatalf("%d years from %d, want %d", len(x), period.From, period.N)
		}
		line, err := TheilSen(x, y)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "slope", line.Slope, period.Slope, 1e-11)
		near(t, "slope by rank", newSlopes(x, y).median(), period.Slope, 1e-11)
		near(t, "median", Median(y), period.Median, 1e-12)
		near(t, "mad", MAD(y), period.MAD, 1e-12)
		near(t, "5 %", Quantile(y, 0.05, Interpolated), period.P05, 1e-9)
		near(t, "95 %", Quantile(y, 0.95, Interpolated), period.P95, 1e-9)
	}
}

func TestTheilSenOfAllOfKyotoIsThatOfItsPairs(t *testing.T) {
	x, y := kyoto(t, 0, 3000)
	if len(x) <= fewForPairs {
		t.Fatalf("%d years are written out as pairs", len(x))
	}
	line, err := TheilSen(x, y)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", line.Slope, Median(pairSlopes(x, y)), 1e-12)
}

func kyoto(t *testing.T, from, to int) (x, y []float64) {
	t.Helper()
	for _, row := range reference.Table(t, "phenology_kyoto_full_flowering.csv") {
		year := row.Int("year")
		if year >= from && year <= to {
			x, y = append(x, float64(year)), append(y, row.Float("full_flowering_day_of_year"))
		}
	}
	return x, y
}

// Theil–Sen on as many points as it takes, of the sorts that are hard: noise, and
// ties everywhere.
func BenchmarkTheilSenAtItsLongest(b *testing.B) {
	for name, y := range map[string]func(i int) float64{
		"noise":     func(i int) float64 { return math.Mod(float64(i)*0.6180339887498949, 1) },
		"digits":    func(i int) float64 { return float64(i * i % 10) },
		"trend":     func(i int) float64 { return float64(i) + math.Sin(float64(i)) },
		"alternate": func(i int) float64 { return float64(i % 2 * 1000) },
		"level":     func(int) float64 { return 7 },
	} {
		b.Run(name, func(b *testing.B) {
			xs, ys := make([]float64, longestTheilSen), make([]float64, longestTheilSen)
			for i := range xs {
				xs[i], ys[i] = float64(i), y(i)
			}
			for b.Loop() {
				if _, err := TheilSen(xs, ys); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
