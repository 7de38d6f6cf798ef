package water

import (
	"testing"

	"haulm/garden"
)

func TestAPotHoldsAQuarterOfItsLitres(t *testing.T) {
	for _, litres := range []float64{2, 15, 60} {
		p, err := newPlan(&Plant{Container: true, PotL: &litres, Planted: date("2014-05-01"), On: on("2015-05-01")}, false)
		if err != nil {
			t.Fatal(err)
		}
		z := p.zoneOn(on("2015-05-01"), 200)
		near(t, "a pot's water", z.capacityL, potMixShare*litres, 1e-9)
	}
}

// A small pot is dry before a large one, and a pot before a ball of its size in the
// ground.
func TestASmallPotIsDryFirst(t *testing.T) {
	w := inSeattle(t, "2015-06-04")
	missing := func(litres float64, container bool) float64 {
		p := shrub("2015-06-01", "2015-06-04")
		p.PotL, p.Container = &litres, container
		out := reckoned(t, w, p)
		return *out.DepletionMm / *out.TAWMm
	}
	small, large, ground := missing(2, true), missing(40, true), missing(40, false)
	if !(small > large+0.1 && large > ground+0.05) {
		t.Errorf("after four days %.2f of a small pot are gone, %.2f of a large one, %.2f in the ground", small, large, ground)
	}
}

func TestRootsLeaveTheBallAndReachTheirSpread(t *testing.T) {
	plant := shrub("2014-04-01", "2015-05-01")
	p, err := newPlan(&plant, false)
	if err != nil {
		t.Fatal(err)
	}
	planted := p.planted
	if start, three := p.zoneOn(planted, 0), p.zoneOn(planted+lagDays, lagDays); three.areaM2 != start.areaM2 {
		t.Errorf("in the first weeks roots reach from %v to %v m²", start.areaM2, three.areaM2)
	}
	before := p.zoneOn(planted, 0)
	for year := 1; year <= 20; year++ {
		day := planted + garden.Day(365*year)
		z := p.zoneOn(day, p.growingDays(day))
		if z.areaM2 < before.areaM2 || z.capacityL < before.capacityL || z.leavesM2 < before.leavesM2 {
			t.Errorf("year %d: %+v after %+v", year, z, before)
		}
		before = z
	}
	near(t, "the ground of 150 cm of spread", before.areaM2, 1.767, 0.001)
	near(t, "what it holds, 0.6 m deep in loam", before.capacityL/before.areaM2, 78, 1)
}

// Leaves come and go with the catalogue's dates, half a year on in the south, and
// every kind has all its leaf at some time.
func TestLeavesOfEveryKindComeOut(t *testing.T) {
	kinds, _, err := garden.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range kinds {
		most := 0.0
		for _, late := range []float64{-60, 0, 60} {
			f := newFoliage(&kind, late)
			for ofYear := 1; ofYear <= 366; ofYear++ {
				share := f.share(ofYear)
				if !(share >= 0 && share <= 1) {
					t.Fatalf("%s on day %d: %v", kind.ID, ofYear, share)
				}
				most = max(most, share)
			}
		}
		if most < 0.99 {
			t.Errorf("%s has at most %v of its leaf", kind.ID, most)
		}
	}
}

func TestADeciduousKindIsBareInWinterAndFullInSummer(t *testing.T) {
	kind := garden.Kind{Habit: "shrub", Foliage: "deciduous", Emerges: &garden.Window{From: garden.MonthDay{Month: 4, Day: 1}}}
	for _, c := range []struct {
		day      string
		southern bool
		late     float64
		want     float64
	}{
		{"2015-01-15", false, 0, 0}, {"2015-07-01", false, 0, 1}, {"2015-04-01", false, 0, 0}, {"2015-04-23", false, 0, 0.49},
		{"2015-04-23", false, 22, 0}, {"2015-12-31", true, 0, 1}, {"2015-07-01", true, 0, 0}, {"2015-10-30", false, 0, 0.5},
	} {
		s := newSeasons(c.southern, c.late)
		near(t, c.day, newFoliage(&kind, c.late).share(s.ofYear(on(c.day))), c.want, 0.01)
	}
}

// Rain that does not reach the foot of a wall leaves what stands there drier.
func TestARainShadowIsDrier(t *testing.T) {
	w, p := inSeattle(t, "2015-04-30"), shrub("2015-04-01", "2015-04-30")
	open := reckoned(t, w, p)
	p.RainShare = number(0.3)
	if under := reckoned(t, w, p); !(*under.DepletionMm > *open.DepletionMm) {
		t.Errorf("%v mm in the open, %v under the wall", *open.DepletionMm, *under.DepletionMm)
	}
}

// An evergreen that has long filled its room is the paper's own case: its balance
// must be that of Eq. 84 to 86 with Kcb of Table 17, but for Ks that follows the
// store through the day and what little comes from beside.
func TestAnOldEvergreenFollowsThePapersBalance(t *testing.T) {
	plant := Plant{Kind: garden.Kind{Habit: "shrub", Foliage: "evergreen", Moisture: "drained", SpreadCm: garden.Range{300, 300}, YearsToSize: 8}, Soil: "loam"}
	w := inSeattle(t, "2015-12-31")
	in := BalanceInput{Soil: "loam", RootM: rootDepth("shrub"), Kc: basal("shrub"), DepletionFraction: 0.5}
	first := on("2015-01-01") // a wet winter's day: nothing is missing
	for day := first; day <= on("2015-12-31"); day++ {
		a := w.on(day)
		in.Days = append(in.Days, BalanceDay{Day: day, ET0Mm: a.et0Mm, RainMm: max(0, a.rainMm-ignoredRain*a.et0Mm)})
	}
	paper, err := SoilWater(in)
	if err != nil {
		t.Fatal(err)
	}
	for i := 20; i < len(in.Days); i += 10 {
		plant.On = first + garden.Day(i)
		out := reckoned(t, w, plant)
		near(t, "depletion on "+plant.On.String(), *out.DepletionMm, paper.DepletionMm[i], 3)
		near(t, "TAW", *out.TAWMm, paper.TAWMm, 0.1)
	}
}
