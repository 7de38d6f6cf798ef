package bloom

import (
	"math"
	"slices"
	"testing"

	"haulm/garden"
)

// wetBed is the border of garden_test.go in two beds, and the smaller bed's plants
// opened some days later in 2025 than all else says.
func wetBed(delay garden.Day) (kinds []garden.Kind, plants []Plant) {
	kinds, plants = border(map[int]int{}, day(2025, 12, 1))
	for i := range plants {
		plants[i].Bed = "dry"
		if i%4 == 0 {
			plants[i].Bed = "wet"
			plants[i].Looks = slices.Clone(plants[i].Looks)
			for j, look := range plants[i].Looks {
				if look.Day.Year() == 2025 {
					plants[i].Looks[j].Day += delay
				}
			}
		}
	}
	return kinds, plants
}

// TestABedsSharedDelayIsItsOwn: where a bed's plants all open twelve days late,
// each is expected much of that later by the others, and the plants of the other
// bed, by which the season is told in the main, by no more than four days sooner.
func TestABedsSharedDelayIsItsOwn(t *testing.T) {
	kinds, plants := wetBed(12)
	m := Reckon(referenceGarden(), kinds, plants, day(2025, 12, 1))
	for i, f := range m.flushes {
		if f.Year != 2025 || f.By == nil {
			continue
		}
		cast := m.forecast(i)
		if f.Bed == "wet" && (cast.corner < 4 || cast.corner > 13) || f.Bed == "dry" && math.Abs(cast.corner) > 4 {
			t.Errorf("%s in the %s bed: a shared delay of %.1f days", f.Plant, f.Bed, cast.corner)
		}
	}
}

func TestOneLatePlantMakesNoWetCorner(t *testing.T) {
	c := &corner{}
	for _, plant := range []string{"a", "b", "c", "d", "e"} {
		c.signs = append(c.signs, cornerSign{plant, 120, 0, 36})
	}
	c.signs[0].days = oddSignSDs * 6 // as much as one may say
	if days, _ := c.without("b", 120); math.Abs(days) > 0.5 {
		t.Errorf("one plant makes a delay of %.2f days", days)
	}
	if days, variance := (&corner{signs: c.signs[:fewestInCorner]}).without("a", 120); days != 0 || variance != 0 {
		t.Errorf("%d others make a delay of %.2f days", fewestInCorner-1, days)
	}
}

// TestABedsDelayIsTold: with what the verdict rests on, and taken off what is said
// to be the plant's own.
func TestABedsDelayIsTold(t *testing.T) {
	kinds, plants := wetBed(12)
	told := 0
	for _, j := range Reckon(referenceGarden(), kinds, plants, day(2025, 8, 20)).Judgements() {
		for _, e := range j.Evidence {
			if e.Say == "bed-delay" {
				told++
			}
		}
	}
	if told == 0 {
		t.Error("no judgement tells of the bed's delay")
	}
}

// TestAColdSpringBedIsNotLateInAutumn: five plants agree on nine days about the end
// of April; what opens then is expected later, what opens in September is not.
func TestAColdSpringBedIsNotLateInAutumn(t *testing.T) {
	c := &corner{}
	for _, plant := range []string{"a", "b", "c", "d", "e"} {
		c.signs = append(c.signs, cornerSign{plant, 120, 9, 36})
	}
	spring, _ := c.without("x", 125)
	autumn, _ := c.without("x", 255)
	if spring < 4 || math.Abs(autumn) > 0.5 {
		t.Errorf("%.2f days in spring, %.2f in autumn", spring, autumn)
	}
}

// TestFarSignsAddNothing: spring plants that kept time leave the bed's autumn as
// sure as it was.
func TestFarSignsAddNothing(t *testing.T) {
	c := &corner{}
	for _, plant := range []string{"a", "b", "c", "d"} {
		c.signs = append(c.signs, cornerSign{plant, 120, 0, 36})
	}
	if days, variance := c.without("x", 255); days != 0 || variance != 0 {
		t.Errorf("%g days, variance %g", days, variance)
	}
	if days, variance := c.without("x", 130); days != 0 || variance > 2 {
		t.Errorf("%g days, variance %g near by", days, variance)
	}
}
