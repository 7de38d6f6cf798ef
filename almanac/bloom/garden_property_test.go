package bloom

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"haulm/garden"
)

// anyLook draws a look of any day and content within four years.
func anyLook(t *rapid.T) Look {
	look := Look{Day: day(2022, 1, 1) + garden.Day(rapid.IntRange(0, 1460).Draw(t, "day")), NotInFlower: rapid.Bool().Draw(t, "not in flower"),
		Up: rapid.SampledFrom([]string{"", "not-up", "up", "in-leaf", "dying-back"}).Draw(t, "up")}
	if rapid.Bool().Draw(t, "staged") {
		stage := rapid.IntRange(0, 99).Draw(t, "stage")
		look.Stage = &stage
	}
	if rapid.IntRange(0, 9).Draw(t, "named") == 0 {
		flush := rapid.IntRange(0, 3).Draw(t, "flush")
		look.Flush = &flush
	}
	return look
}

// anyGarden draws a few plants of kinds with windows at the edges of the year.
func anyGarden(t *rapid.T) (kinds []garden.Kind, plants []Plant) {
	kinds = []garden.Kind{kindOf("once", window("06-10", "07-10", "")), kindOf("winter", window("12-20", "02-10", "")),
		kindOf("twice", window("05-20", "06-20", ""), window("08-01", "09-10", "cut-back")), kindOf("never")}
	for p := range rapid.IntRange(0, 4).Draw(t, "plants") {
		plant := plantOf(fmt.Sprint("p", p), rapid.SampledFrom(kinds).Draw(t, "kind").ID)
		if rapid.Bool().Draw(t, "planted later") {
			planted := day(2021, 6, 1) + garden.Day(rapid.IntRange(0, 1000).Draw(t, "planted"))
			plant.Planted = &garden.PartialDate{First: planted, Last: planted}
		}
		plant.Looks = rapid.SliceOfN(rapid.Custom(anyLook), 0, 30).Draw(t, "looks")
		plants = append(plants, plant)
	}
	return kinds, plants
}

// said is everything that the model says of a garden on a day.
func said(kinds []garden.Kind, plants []Plant, on garden.Day) (judged []Judgement, strips []Strip, season []SeasonPart) {
	m := Reckon(referenceGarden(), kinds, plants, on)
	for _, p := range plants {
		judged = append(judged, m.Judge(p.ID)...)
		strips = append(strips, m.Strips(p.ID)...)
	}
	return judged, strips, m.Season(on.Year(), DefaultParts())
}

// TestAnyGardenIsReckonedSoundly: whatever was seen in whatever order, no NaN or
// infinity comes out, bands stand in order, and a plant is called late only if
// somebody saw it not in flower after it should have been.
func TestAnyGardenIsReckonedSoundly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kinds, plants := anyGarden(t)
		on := day(2022, 1, 1) + garden.Day(rapid.IntRange(0, 1460).Draw(t, "on"))
		judged, strips, season := said(kinds, plants, on)
		for _, s := range strips {
			soundBand(t, s.Open)
			soundBand(t, s.Close)
			if s.Certain != nil && (s.Certain[0] > s.Certain[1] || s.Possible[0] > s.Certain[0] || s.Possible[1] < s.Certain[1]) {
				t.Fatalf("certainly in flower %v, possibly %v", *s.Certain, *s.Possible)
			}
		}
		for _, j := range judged {
			soundBand(t, j.Expect.Open)
			if (j.Verdict == Late || j.Verdict == LaterThanTheBook) && (j.Days[0] == nil || *j.Probability > lateByLuck) {
				t.Fatalf("late without a look: %+v", j)
			}
		}
		for _, s := range season {
			sound(t, s.Days, s.SD)
		}
	})
}

func soundBand(t *rapid.T, b Band) {
	sound(t, b.P05, b.P10, b.P50, b.P90, b.P95)
	if b.P05 > b.P10 || b.P10 > b.P50 || b.P50 > b.P90 || b.P90 > b.P95 {
		t.Fatalf("%+v", b)
	}
}

func sound(t *rapid.T, values ...float64) {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%v", values)
		}
	}
}

// TestALookThatTellsNothingChangesNothing: a photo, a note, or leaves seen do
// not bear on flower.
func TestALookThatTellsNothingChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kinds, plants := anyGarden(t)
		on := day(2025, 7, 1)
		judged, strips, season := said(kinds, plants, on)
		for i := range plants {
			if len(plants[i].Looks) == 0 {
				continue // a first look of any sort tells since when the plant is known
			}
			first := plants[i].Looks[0].Day
			silent := Look{Day: first + garden.Day(rapid.IntRange(0, 300).Draw(t, "after the first")), Up: rapid.SampledFrom([]string{"", "up", "in-leaf"}).Draw(t, "silent")}
			plants[i].Looks = append(plants[i].Looks, silent)
		}
		judgedAgain, stripsAgain, seasonAgain := said(kinds, plants, on)
		if !reflect.DeepEqual(judged, judgedAgain) || !reflect.DeepEqual(strips, stripsAgain) || !reflect.DeepEqual(season, seasonAgain) {
			t.Fatal("a look that tells nothing changed what is said")
		}
	})
}
