package assess

import (
	"fmt"
	"slices"
	"testing"
)

func TestAPlantUnderLargerNeighboursIsShortOfRoom(t *testing.T) {
	scene := func(apart float64, planted string) *Engine {
		return engineWith(t, [2]string{"garden/g", here}, [2]string{"kind/shrub", shrubOf(200, 200)}, [2]string{"kind/herb", herbOf(60, 60)},
			[2]string{"planting/big", fmt.Sprintf(`{"kind":"shrub","at":[0,0],"planted":%q}`, planted)},
			[2]string{"planting/small", fmt.Sprintf(`{"kind":"herb","at":[%g,0],"planted":"2010-03"}`, apart)})
	}
	f := found(scene(0.8, "2005"), "small", "crowded", "2015-06-01")
	if f == nil || !f.WorthALook || !slices.Equal(says(f), []string{"room-taken", "smothered-by"}) {
		t.Fatalf("under a shrub at its size it is %+v", f)
	}
	if by := f.Evidence[1]; by.Other != "big" || by.What != "Frutex probatus" || *by.CM != 200 || *by.LikelyCM != 60 || *by.Share < 0.6 {
		t.Errorf("the evidence is %+v", by)
	}
	if f := found(scene(0.8, "2015-03"), "small", "crowded", "2015-06-01"); f == nil || f.WorthALook ||
		f.Evidence[0].Say != "room-will-be-taken" || *f.Evidence[0].Year != 2020 {
		t.Errorf("beside a shrub just planted it is %+v", f)
	}
	if f := found(scene(1.4, "2005"), "small", "crowded", "2015-06-01"); f != nil {
		t.Errorf("clear of it, it is %+v", f)
	}
	if f := found(scene(0.8, "2005"), "big", "crowded", "2015-06-01"); f != nil {
		t.Errorf("the shrub is crowded by what grows at its foot: %+v", f)
	}
}

func TestWhatDoesNotCompeteDoesNotCrowd(t *testing.T) {
	base := [][2]string{{"garden/g", here}, {"kind/shrub", shrubOf(200, 200)}, {"kind/herb", herbOf(60, 60)},
		{"planting/big", `{"kind":"shrub","at":[0,0],"planted":"2005"}`}, {"planting/small", `{"kind":"herb","at":[0.3,0],"planted":"2010-03"}`}}
	if found(engineWith(t, base...), "small", "crowded", "2015-06-01") == nil {
		t.Fatal("the scene shows nothing")
	}
	for name, change := range map[string][2]string{
		"a bulb":                 {"kind/herb", `{"name":"Bulbus","habit":"bulb","heightCm":[20,20],"spreadCm":[60,60],"sunHours":[6,16]}`},
		"a climber":              {"kind/shrub", `{"name":"Scandens","habit":"climber","heightCm":[400,400],"spreadCm":[200,200]}`},
		"at home in shade":       {"kind/herb", `{"name":"Umbrosa","habit":"perennial","heightCm":[60,60],"spreadCm":[60,60],"sunHours":[0,4]}`},
		"what sows itself":       {"kind/herb", `{"name":"Volans","habit":"perennial","lifeCycle":"short-lived","heightCm":[60,60],"spreadCm":[60,60],"sunHours":[6,16],"spreadHabit":"self-sowing"}`},
		"of unknown height":      {"kind/herb", `{"name":"Herba","habit":"perennial","spreadCm":[60,60],"sunHours":[6,16]}`},
		"gone":                   {"planting/big", `{"kind":"shrub","at":[0,0],"planted":"2005","ended":"2015-03-01"}`},
		"not yet there":          {"planting/big", `{"kind":"shrub","at":[0,0],"planted":"2015-11"}`},
		"of a kind":              {"planting/big", `{"kind":"herb","at":[0,0],"planted":"2005"}`},
		"annual of years before": {"kind/shrub", `{"name":"Annua","habit":"annual","lifeCycle":"annual","heightCm":[200,200],"spreadCm":[200,200],"sunHours":[6,16],"spreadHabit":"single"}`},
		"without a place":        {"planting/small", `{"kind":"herb","planted":"2010-03"}`},
	} {
		t.Run(name, func(t *testing.T) {
			if f := found(engineWith(t, with(base, change)...), "small", "crowded", "2015-06-01"); f != nil {
				t.Errorf("it is %+v", f)
			}
		})
	}
}

func TestAKindOfUnknownYearsIsSmallWhenPlanted(t *testing.T) {
	scene := func(planted string) *Engine {
		return engineWith(t, [2]string{"garden/g", here}, [2]string{"kind/herb", herbOf(60, 60)},
			[2]string{"kind/shrub", `{"name":"Frutex","habit":"shrub","heightCm":[200,200],"spreadCm":[200,200],"sunHours":[6,16]}`},
			[2]string{"planting/big", fmt.Sprintf(`{"kind":"shrub","at":[0,0],"planted":%q}`, planted)},
			[2]string{"planting/small", `{"kind":"herb","at":[0.8,0],"planted":"2010-03"}`})
	}
	if f := found(scene("2015-03"), "small", "crowded", "2015-06-01"); f == nil || f.WorthALook {
		t.Errorf("beside it when just planted it is %+v", f)
	}
	if f := found(scene("2000-03"), "small", "crowded", "2015-06-01"); f == nil || !f.WorthALook {
		t.Errorf("beside it fifteen years later it is %+v", f)
	}
}

func TestAGroupWithoutAnOutlineTakesTheRoomOfItsNumber(t *testing.T) {
	scene := func(count int) *Engine {
		return engineWith(t, [2]string{"garden/g", here}, [2]string{"kind/tall", herbOf(150, 60)}, [2]string{"kind/herb", herbOf(60, 60)},
			[2]string{"planting/group", fmt.Sprintf(`{"kind":"tall","at":[0,0],"count":%d,"planted":"2005"}`, count)},
			[2]string{"planting/one", `{"kind":"herb","at":[0.75,0],"planted":"2010-03"}`})
	}
	if f := found(scene(1), "one", "crowded", "2015-06-01"); f != nil {
		t.Errorf("beside one it is %+v", f)
	}
	if f := found(scene(9), "one", "crowded", "2015-06-01"); f == nil {
		t.Error("beside nine it has room")
	}
}

func TestATallerOneInFrontHidesFlower(t *testing.T) {
	scene := func(viewed string, front string) *Engine {
		return engineWith(t, [2]string{"garden/g", here}, [2]string{"bed/b", `{"viewedFrom":` + viewed + `}`},
			[2]string{"kind/front", front}, [2]string{"kind/herb", herbOf(60, 40)},
			[2]string{"planting/front", `{"kind":"front","bed":"b","at":[0,2],"planted":"2005"}`},
			[2]string{"planting/behind", `{"kind":"herb","bed":"b","at":[0,3.5],"planted":"2005"}`})
	}
	tall := herbOf(150, 60)
	if f := found(scene(`[0,0]`, tall), "behind", "taller-in-front", "2015-08-20"); f == nil || f.Evidence[0].From.Year() != 2016 {
		t.Errorf("after its flower it is %+v; want the next year's dates", f)
	}
	f := found(scene(`[0,0]`, tall), "behind", "taller-in-front", "2015-06-01")
	if f == nil || f.WorthALook || !slices.Equal(says(f), []string{"hidden-share", "hidden-by"}) {
		t.Fatalf("it is %+v", f)
	}
	if by := f.Evidence[1]; by.Other != "front" || *by.CM != 150 || *by.LikelyCM != 60 || *f.Evidence[0].Share != 1 {
		t.Errorf("the evidence is %+v, %+v", f.Evidence[0], by)
	}
	for name, e := range map[string]*Engine{
		"seen from behind": scene(`[0,6]`, tall),
		"seen from aside":  scene(`[6,2.7]`, tall),
		"nowhere told":     scene(`null`, tall),
		"lower in front":   scene(`[0,0]`, herbOf(50, 60)),
		// Stems that rise for an autumn flower stand at half their height in July.
		"low until autumn": scene(`[0,0]`, `{"name":"Serotina","habit":"perennial","foliage":"dies-down","emerges":{"from":"06-20","to":"07-10"},
			"heightCm":[150,150],"spreadCm":[60,60],"bloom":[{"from":"10-01","to":"10-30"}]}`),
	} {
		if f := found(e, "behind", "taller-in-front", "2015-06-01"); f != nil {
			t.Errorf("%s, it is %+v", name, f)
		}
	}
}

// A shrub of two years is reckoned at 140 cm of its 200; one that was measured stands
// as it was measured, for a year, and one that was cut as it was left.
func TestWoodStandsAsItWasMeasured(t *testing.T) {
	scene := func(more ...[2]string) *Engine {
		return engineWith(t, with([][2]string{{"garden/g", here}, {"bed/b", `{"viewedFrom":[0,0]}`},
			{"kind/front", herbOf(170, 60)}, {"kind/shrub", shrubOf(200, 40)},
			{"planting/front", `{"kind":"front","bed":"b","at":[0,2],"planted":"2005"}`},
			{"planting/behind", `{"kind":"shrub","bed":"b","at":[0,3.5],"planted":"2013-06","heightCm":40}`}}, more...)...)
	}
	measured := func(day string, cm int) [2]string {
		return [2]string{"observation/o", fmt.Sprintf(`{"planting":"behind","seen":"%sT10:00:00+01:00","heightCm":%d}`, day, cm)}
	}
	for name, c := range map[string]struct {
		more []([2]string)
		on   string
		cm   float64
	}{
		"by age":                {nil, "2015-06-05", 138.6},
		"measured":              {[][2]string{measured("2015-05-20", 91)}, "2015-06-05", 91},
		"measured too long ago": {[][2]string{measured("2014-05-20", 30)}, "2015-06-05", 138.6},
		"measured later":        {[][2]string{measured("2015-06-20", 91)}, "2015-06-05", 138.6},
		"cut since": {[][2]string{measured("2015-03-20", 91),
			{"work/w", `{"planting":"behind","day":"2015-03-25","what":"prune","heightLeftCm":60}`}}, "2015-06-05", 60},
		"as it came": {nil, "2014-06-01", 40},
	} {
		t.Run(name, func(t *testing.T) {
			f := found(scene(c.more...), "behind", "taller-in-front", c.on)
			if f == nil || *f.Evidence[1].LikelyCM != c.cm {
				t.Fatalf("it is %+v, want %g cm", f, c.cm)
			}
		})
	}
}
