package bloom

import (
	"fmt"
	"testing"
	"time"

	"haulm/garden"
)

// The gardens of these tests lie on the catalogue's reference site, so that
// windows stand where the catalogue has them.
func referenceGarden() Here { return gardenAt(referenceLat, referenceAltitudeM) }

func day(year int, month time.Month, d int) garden.Day { return garden.DayOf(year, month, d) }

func window(from, to, needs string) garden.BloomWindow {
	f, err := garden.ParseMonthDay(from)
	if err != nil {
		panic(err)
	}
	l, err := garden.ParseMonthDay(to)
	if err != nil {
		panic(err)
	}
	return garden.BloomWindow{From: f, To: l, Needs: needs}
}

func kindOf(id string, windows ...garden.BloomWindow) garden.Kind {
	k := garden.Kind{LifeCycle: "long-lived", YearsToFlower: 1, Bloom: windows}
	k.ID = id
	return k
}

func plantOf(id, kind string, looks ...Look) Plant {
	p := Plant{Looks: looks}
	p.ID, p.Kind = id, kind
	planted := garden.PartialDate{First: day(2015, 10, 1), Last: day(2015, 10, 1)}
	p.Planted = &planted
	return p
}

func staged(d garden.Day, stage int) Look { return Look{Day: d, Stage: &stage} }

func notYet(d garden.Day) Look { return Look{Day: d, NotInFlower: true} }

// weekly looks at a plant once a week from its window's opening less 40 days,
// as one that opens on a day and lasts four weeks shows itself, until a day.
func weekly(opens, until garden.Day) []Look {
	var looks []Look
	for d := opens - 60; d <= until && d < opens+60; d += 7 {
		switch {
		case d < opens:
			looks = append(looks, notYet(d))
		case d < opens+28:
			looks = append(looks, staged(d, 65))
		default:
			looks = append(looks, staged(d, 75))
		}
	}
	return looks
}

// A border is a garden of ten kinds with three plants each that open through
// June, in the seasons 2022 to 2025, all of them late by the season's days.
func border(seasons map[int]int, until garden.Day) (kinds []garden.Kind, plants []Plant) {
	for k := range 10 {
		from := garden.Day(k * 3)
		opens := garden.MonthDay{Month: time.June, Day: 1 + int(from)}
		kind := kindOf(fmt.Sprintf("kind%d", k), garden.BloomWindow{From: opens, To: garden.MonthDay{Month: time.July, Day: 1 + int(from)}})
		kinds = append(kinds, kind)
		for p := range 3 {
			plant := plantOf(fmt.Sprintf("plant%d.%d", k, p), kind.ID)
			for year := 2022; year <= 2025; year++ {
				habit := garden.Day(p*2 - 2)
				plant.Looks = append(plant.Looks, weekly(opens.In(year)+habit+garden.Day(seasons[year]), until)...)
			}
			plants = append(plants, plant)
		}
	}
	return kinds, plants
}

// withLatePlant makes the last plant of the border one that has not opened in
// 2025 by a day.
func withLatePlant(plants []Plant, on garden.Day) (id string) {
	late := &plants[len(plants)-1]
	var kept []Look
	for _, l := range late.Looks {
		if l.Day < day(2025, 1, 1) {
			kept = append(kept, l)
		}
	}
	for d := day(2025, 5, 1); d <= on; d += 7 {
		kept = append(kept, notYet(d))
	}
	late.Looks = kept
	return late.ID
}

// only is the one judgement on a plant.
func only(t *testing.T, m *Model, plant string) Judgement {
	t.Helper()
	judged := m.Judge(plant)
	if len(judged) != 1 {
		t.Fatalf("%s: %d judgements, 1 expected: %+v", plant, len(judged), judged)
	}
	return judged[0]
}
