package bloom

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"haulm/garden"
)

// A largeGarden is 500 plantings of 150 kinds, some with a second flush, with
// eight looks at each in each of 5 years: 20,000 looks, 3,000 flushes.
func largeGarden() (kinds []garden.Kind, plants []Plant) {
	rng := rand.New(rand.NewPCG(7, 7))
	var opens []garden.MonthDay
	for k := range 150 {
		from := garden.MonthDay{Month: time.Month(3 + rng.IntN(6)), Day: 1 + rng.IntN(28)}
		kind := kindOf(fmt.Sprintf("kind%03d", k), garden.BloomWindow{From: from, To: garden.MonthDay{Month: from.Month + 1, Day: from.Day}})
		if k%5 == 0 {
			kind.Bloom = append(kind.Bloom, garden.BloomWindow{From: garden.MonthDay{Month: from.Month + 2, Day: from.Day}, To: garden.MonthDay{Month: from.Month + 3, Day: from.Day}, Needs: "deadhead"})
		}
		opens, kinds = append(opens, from), append(kinds, kind)
	}
	for p := range 500 {
		plant := plantOf(fmt.Sprintf("plant%03d", p), kinds[p%150].ID)
		for year := 2021; year <= 2025; year++ {
			first := opens[p%150].In(year) + garden.Day(rng.NormFloat64()*6)
			for look := range garden.Day(8) {
				d := first - 24 + 9*look + garden.Day(rng.IntN(5))
				plant.Looks = append(plant.Looks, seenOn(d, first))
			}
		}
		plants = append(plants, plant)
	}
	return kinds, plants
}

func seenOn(d, opens garden.Day) Look {
	switch {
	case d < opens:
		return notYet(d)
	case d < opens+28:
		return staged(d, 65)
	default:
		return staged(d, 75)
	}
}

// BenchmarkReckonAndJudge is the bloom part of an assessment of a large garden.
func BenchmarkReckonAndJudge(b *testing.B) {
	kinds, plants := largeGarden()
	b.ReportAllocs()
	for b.Loop() {
		if judged := Reckon(referenceGarden(), kinds, plants, day(2025, 7, 15)).Judgements(); len(judged) < 300 {
			b.Fatal(len(judged))
		}
	}
}

// BenchmarkFlushes is the reading of the looks alone.
func BenchmarkFlushes(b *testing.B) {
	kinds, plants := largeGarden()
	b.ReportAllocs()
	for b.Loop() {
		Flushes(referenceGarden(), kinds, plants, day(2025, 7, 15))
	}
}
