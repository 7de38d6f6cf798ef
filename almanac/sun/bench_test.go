package sun

import (
	"math/rand/v2"
	"testing"
)

// BenchmarkYearOfSun is a garden's whole year of sun hours: 200 points among 100
// structures, every day of one year at each.
func BenchmarkYearOfSun(b *testing.B) {
	random := rand.New(rand.NewPCG(7, 7))
	prisms := randomPrisms(random, 100, 20)
	for b.Loop() {
		site, err := NewSite(Place{Lat: 51.5, Lon: -0.1, PlanBearingDeg: 20}, prisms)
		if err != nil {
			b.Fatal(err)
		}
		for i := range 200 {
			point := site.Point([2]float64{float64(i%20) - 10, float64(i/20)*2 - 10}, 0.3)
			if _, growing := point.Year(2026, SeasonAt(51.5)); growing.Total > 24 {
				b.Fatal(growing)
			}
		}
	}
}

// BenchmarkDay is one day's rise, transit and set.
func BenchmarkDay(b *testing.B) {
	question := DayQuestion{51.5, -0.1, 20000, "Europe/London"}
	for b.Loop() {
		if _, err := DayOf(question); err != nil {
			b.Fatal(err)
		}
	}
}
