package assess

import (
	"fmt"
	"slices"
	"testing"

	"haulm/garden"
)

// The scenes of this file are gardens made by hand, each so that one thing is
// wrong in one and right in the other.

const here = `{"lat":51.5,"lon":-0.1,"altitudeM":50}`

// found gives the finding of a verdict on a planting; nil when there is none.
func found(e *Engine, planting, verdict, on string) *Finding {
	day, err := garden.ParseDay(on)
	if err != nil {
		panic(err)
	}
	for _, f := range e.Assess(day).Findings {
		if f.Planting == planting && f.Verdict == verdict {
			return &f
		}
	}
	return nil
}

// says lists the codes of a finding's evidence.
func says(f *Finding) (codes []string) {
	for _, one := range f.Evidence {
		codes = append(codes, one.Say)
	}
	return codes
}

func with(records [][2]string, more ...[2]string) [][2]string {
	return append(slices.Clone(records), more...)
}

// shrubOf and herbOf are kinds of known size that want full sun.
func shrubOf(heightCm, spreadCm int) string {
	return fmt.Sprintf(`{"name":"Frutex probatus","habit":"shrub","lifeCycle":"long-lived","foliage":"deciduous","heightCm":[%d,%d],"spreadCm":[%d,%d],
		"spreadHabit":"clump","yearsToSize":5,"sunHours":[6,16],"minWinterC":-15,"bloom":[{"from":"06-01","to":"07-01"}]}`, heightCm, heightCm, spreadCm, spreadCm)
}

func herbOf(heightCm, spreadCm int) string {
	return fmt.Sprintf(`{"name":"Herba probata","habit":"perennial","lifeCycle":"long-lived","foliage":"dies-down","emerges":{"from":"03-10","to":"04-10"},
		"heightCm":[%d,%d],"spreadCm":[%d,%d],"spreadHabit":"clump","yearsToSize":2,"sunHours":[6,16],"minWinterC":-15,"bloom":[{"from":"06-20","to":"07-20"}]}`, heightCm, heightCm, spreadCm, spreadCm)
}

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

// cold makes a night of frost on a day.
func cold(day string, minC float64) [2]string {
	return [2]string{"weather/" + day + ".a", fmt.Sprintf(`{"day":%q,"minC":%g,"maxC":2}`, day, minC)}
}

func TestFrostBelowWhatAKindStandsIsAskedAbout(t *testing.T) {
	base := [][2]string{{"garden/g", here}, {"kind/shrub", shrubOf(150, 100)}, {"planting/p", `{"kind":"shrub","planted":"2010"}`}}
	hard := with(base, cold("2015-01-20", -17), cold("2015-01-21", -16), cold("2015-01-22", -3))
	f := found(engineWith(t, hard...), "p", "frost-below-minimum", "2015-03-01")
	if f == nil || !f.WorthALook || !slices.Equal(says(f), []string{"frost-below", "nights-below"}) {
		t.Fatalf("it is %+v", f)
	}
	if e := f.Evidence[0]; e.Day.String() != "2015-01-20" || *e.C != -17 || *e.LimitC != -15 || *f.Evidence[1].Count != 2 {
		t.Errorf("the evidence is %+v", f.Evidence)
	}
	if f := found(engineWith(t, hard...), "p", "frost-below-minimum", "2015-01-25"); f == nil || f.WorthALook {
		t.Errorf("before a frost can show, it is %+v", f)
	}
	for name, records := range map[string][][2]string{
		"no weather":                  base,
		"nobody knows what it stands": with(base, [2]string{"kind/shrub", `{"name":"Frutex","habit":"shrub"}`}, cold("2015-01-20", -17)),
		"not so cold":                 with(base, cold("2015-01-20", -14)),
		"before it came":              with(base, cold("2009-01-20", -20)),
		"of another year":             with(base, cold("2014-01-20", -20)),
		"tomorrow":                    with(base, cold("2015-03-02", -20)),
		"in leaf since":               with(hard, [2]string{"observation/o", `{"planting":"p","seen":"2015-02-20T10:00:00Z","up":"in-leaf"}`}),
		"lifted":                      with(hard, [2]string{"work/w", `{"planting":"p","day":"2014-11-01","what":"lift"}`}),
		"wrapped":                     with(hard, [2]string{"work/w", `{"planting":"p","day":"2014-11-01","what":"protect"}`}),
		"under glass":                 with(hard, [2]string{"planting/p", `{"kind":"shrub","planted":"2010","cover":"greenhouse"}`}),
		"under fleece":                with(hard, [2]string{"planting/p", `{"kind":"shrub","planted":"2010","cover":"fleece"}`}),
		"in a store":                  with(hard, [2]string{"planting/p", `{"kind":"shrub","planted":"2010","stored":true}`}),
		"maximum below that":          with(base, [2]string{"weather/2015-01-20.a", `{"day":"2015-01-20","minC":-17,"maxC":-19}`}),
	} {
		t.Run(name, func(t *testing.T) {
			if f := found(engineWith(t, records...), "p", "frost-below-minimum", "2015-03-01"); f != nil {
				t.Errorf("it is %+v", f)
			}
		})
	}
}

func TestWorkIsHeldAgainstTheNightsAfterIt(t *testing.T) {
	base := [][2]string{{"garden/g", here}, {"kind/shrub", shrubOf(150, 100)}, {"planting/p", `{"kind":"shrub","planted":"2010"}`},
		cold("2015-01-20", -17), cold("2015-02-20", -16)}
	work := func(id, day, what string) [2]string {
		return [2]string{"work/" + id, fmt.Sprintf(`{"planting":"p","day":%q,"what":%q}`, day, what)}
	}
	for name, c := range map[string]struct {
		works [][2]string
		want  string // the day of the frost, "" for none
	}{
		"lifted between":           {[][2]string{work("a", "2015-02-01", "lift")}, "2015-01-20"},
		"back between":             {[][2]string{work("a", "2014-11-01", "lift"), work("b", "2015-02-01", "plant")}, "2015-02-20"},
		"wrapped between":          {[][2]string{work("a", "2015-02-01", "protect")}, "2015-01-20"},
		"wrapped for years before": {[][2]string{work("a", "2013-11-01", "protect")}, "2015-01-20"},
		"planted since":            {[][2]string{{"planting/p", `{"kind":"shrub","planted":"2015-03-10"}`}}, ""},
		"wrapped in time":          {[][2]string{work("a", "2014-11-01", "protect"), work("b", "2015-03-01", "lift")}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			f := found(engineWith(t, with(base, c.works...)...), "p", "frost-below-minimum", "2015-04-01")
			got := ""
			if f != nil {
				got = f.Evidence[0].Day.String()
			}
			if got != c.want {
				t.Errorf("it is asked about the frost of %q, want %q", got, c.want)
			}
		})
	}
}

// What frost does to an annual in autumn is its end, and nobody waters, shades or
// waits for what died a year ago.
func TestAnAnnualLivesOneSummer(t *testing.T) {
	const annual = `{"name":"Annua","habit":"annual","lifeCycle":"annual","foliage":"dies-down","emerges":{"from":"04-01","to":"05-01"},
		"heightCm":[60,60],"spreadCm":[30,30],"spreadHabit":"single","sunHours":[8,16],"minWinterC":0,"bloom":[{"from":"06-20","to":"10-30"}]}`
	base := with(spell(garden.DayOf(2014, 4, 1), 457, 0), [2]string{"garden/g", here}, [2]string{"kind/annual", annual},
		[2]string{"structure/wall", `{"form":"building","outline":[[-30,-9],[30,-9],[30,-0.5],[-30,-0.5]],"heightM":8}`},
		[2]string{"planting/p", `{"kind":"annual","at":[0,0],"planted":"2014-05-01"}`})
	june := engineWith(t, with(base, cold("2014-05-10", -3))...)
	for _, verdict := range []string{"dry", "shaded", "frost-below-minimum"} {
		if found(june, "p", verdict, "2014-06-10") == nil {
			t.Errorf("in its summer it is not %s", verdict)
		}
	}
	dead := engineWith(t, with(base, cold("2014-10-20", -5), cold("2015-01-20", -9))...)
	for _, day := range []string{"2014-11-10", "2015-02-10", "2015-06-10"} {
		for _, verdict := range verdictsOf(dead, "p", day) {
			if verdict == "frost-below-minimum" || day >= "2015" && (verdict == "dry" || verdict == "shaded" || verdict == "dormant" || verdict == "not-up") {
				t.Errorf("on %s it is %s", day, verdict)
			}
		}
	}
}

// What goes in next month does not sleep there yet.
func TestWhatIsNotPlantedYetIsNotThere(t *testing.T) {
	e := engineWith(t, [2]string{"garden/g", here}, [2]string{"kind/herb", herbOf(60, 60)}, [2]string{"planting/p", `{"kind":"herb","planted":"2015-02-10"}`})
	if got := verdictsOf(e, "p", "2015-01-15"); len(got) > 0 {
		t.Errorf("a month before it is planted it is %v", got)
	}
	if found(e, "p", "dormant", "2015-02-15") == nil {
		t.Error("once planted it does not sleep")
	}
}

func TestAPotFreezesSooner(t *testing.T) {
	records := [][2]string{{"garden/g", here}, {"kind/shrub", shrubOf(150, 100)}, {"bed/pot", `{"container":true}`}, {"bed/border", `{}`},
		{"planting/pot", `{"kind":"shrub","bed":"pot","planted":"2010"}`}, {"planting/ground", `{"kind":"shrub","bed":"border","planted":"2010"}`}, cold("2015-01-20", -12)}
	e := engineWith(t, records...)
	if f := found(e, "pot", "frost-below-minimum", "2015-03-01"); f == nil || *f.Evidence[0].LimitC != -10 || f.Evidence[1].Say != "pot-margin" || *f.Evidence[1].C != -15 {
		t.Errorf("the pot is %+v", f)
	}
	if f := found(e, "ground", "frost-below-minimum", "2015-03-01"); f != nil {
		t.Errorf("in open ground it is %+v", f)
	}
}

func TestTroubleSeenIsOneFinding(t *testing.T) {
	base := [][2]string{{"garden/g", here}, {"kind/shrub", shrubOf(150, 100)}, {"planting/p", `{"kind":"shrub","planted":"2010","grafted":true}`},
		{"observation/a", `{"planting":"p","seen":"2015-06-01T10:00:00+01:00","signs":["dieback","sucker"]}`},
		{"observation/b", `{"planting":"p","seen":"2015-06-08T07:30:00+01:00","signs":["wilting"]}`}}
	f := found(engineWith(t, base...), "p", "troubled", "2015-06-10")
	if f == nil || !f.WorthALook || len(f.Evidence) != 3 || f.Evidence[0].What != "dieback" || f.Evidence[2].What != "wilting-at-dawn" {
		t.Fatalf("it is %+v", f)
	}
	if !slices.Equal(f.Check, []string{"dieback", "drainage", "water", "below-graft", "roots"}) {
		t.Errorf("to check: %v", f.Check)
	}
	if f := found(engineWith(t, base[:4]...), "p", "troubled", "2015-08-10"); f != nil {
		t.Errorf("two months later it is %+v", f)
	}
	put := with(base, [2]string{"dismissal/p.2015--.troubled", `{"why":"cut out"}`})
	if f := found(engineWith(t, put...), "p", "troubled", "2015-06-10"); f == nil || f.WorthALook || f.Dismissed == nil {
		t.Errorf("put aside it is %+v", f)
	}
}

func TestTwoYearsWithoutFlowerAreTrouble(t *testing.T) {
	scene := func(blindFrom int) *Engine {
		records := [][2]string{{"garden/g", here}, {"planting/p", `{"kind":"iris-sibirica","planted":"2005"}`}}
		for year := 2012; year <= 2015; year++ {
			for day := garden.DayOf(year, 5, 1); day <= garden.DayOf(year, 8, 20); day += 5 {
				seen := `"notInFlower":true`
				if ofYear := day - garden.DayOf(year, 5, 26); year < blindFrom && ofYear >= 0 && ofYear < 25 {
					seen = `"stage":65`
				}
				records = append(records, [2]string{"observation/" + day.String(), fmt.Sprintf(`{"planting":"p","seen":"%sT10:00:00Z",%s}`, day, seen)})
			}
		}
		return engineWith(t, records...)
	}
	if f := found(scene(2014), "p", "troubled", "2015-08-25"); f == nil || f.Evidence[0].Say != "blind-years" || *f.Evidence[0].Count != 2 {
		t.Errorf("blind in 2014 and 2015 it is %+v", f)
	}
	if f := found(scene(2015), "p", "troubled", "2015-08-25"); f != nil {
		t.Errorf("blind in 2015 alone it is %+v", f)
	}
}

func TestWhatDiesOfFloweringIsDone(t *testing.T) {
	records := [][2]string{{"garden/g", here},
		{"kind/two", `{"name":"Biennis","habit":"biennial","lifeCycle":"biennial","foliage":"dies-down","emerges":{"from":"03-01","to":"04-01"},"spreadHabit":"self-sowing",
			"heightCm":[100,100],"spreadCm":[40,40],"yearsToFlower":2,"bloom":[{"from":"06-10","to":"07-20"}]}`},
		{"planting/p", `{"kind":"two","planted":"2013-06"}`},
		{"observation/a", `{"planting":"p","seen":"2014-06-25T10:00:00Z","stage":65,"vigour":4}`},
		{"observation/b", `{"planting":"p","seen":"2014-08-25T10:00:00Z","stage":85,"vigour":1,"signs":["dieback"]}`},
		{"observation/c", `{"planting":"p","seen":"2015-06-25T10:00:00Z","up":"not-up"}`}}
	for _, on := range []string{"2014-08-26", "2015-06-30"} {
		e := engineWith(t, records...)
		f := found(e, "p", "done", on)
		if f == nil || f.WorthALook || !slices.Equal(says(f), []string{"done-after-flower", "may-have-sown"}) || f.Evidence[0].What != "biennial" {
			t.Errorf("on %s it is %+v", on, f)
		}
		for _, verdict := range verdictsOf(e, "p", on) {
			if slices.Contains([]string{"not-up", "troubled", "late", "no-flower-seen"}, verdict) {
				t.Errorf("on %s it is %s", on, verdict)
			}
		}
	}
	again := with(records, [2]string{"observation/d", `{"planting":"p","seen":"2015-06-28T10:00:00Z","up":"up"}`})
	if f := found(engineWith(t, again...), "p", "done", "2015-06-30"); f != nil {
		t.Errorf("its seedlings stand and it is %+v", f)
	}
}

func TestAColonyIsCounted(t *testing.T) {
	records := [][2]string{{"garden/g", here}, {"planting/p", `{"kind":"verbena-bonariensis","planted":"2012-05","count":12}`},
		{"observation/a", `{"planting":"p","seen":"2014-08-25T10:00:00Z","countAlive":20}`},
		{"observation/b", `{"planting":"p","seen":"2015-06-25T10:00:00Z","countAlive":5}`}}
	e := engineWith(t, records...)
	f := found(e, "p", "colony", "2015-06-30")
	if f == nil || f.WorthALook || *f.Evidence[0].Count != 5 || *f.Evidence[0].Of != 20 {
		t.Errorf("it is %+v", f)
	}
	if f := found(e, "p", "troubled", "2015-06-30"); f != nil {
		t.Errorf("a colony that thins is %+v", f)
	}
	if f := found(e, "p", "colony", "2014-08-30"); f == nil || *f.Evidence[0].Count != 20 || f.Evidence[0].Of != nil {
		t.Errorf("in its first year of counting it is %+v", f)
	}
}

func TestNoSpadeWhereSomethingSleeps(t *testing.T) {
	base := [][2]string{{"garden/g", here}, {"planting/p", `{"kind":"hosta-sieboldiana","planted":"2005"}`}}
	e := engineWith(t, base...)
	f := found(e, "p", "dormant", "2015-02-10")
	if f == nil || f.WorthALook || f.Evidence[0].Say != "asleep-until" {
		t.Fatalf("in February it is %+v", f)
	}
	if until := *f.Evidence[0].Day; until < garden.DayOf(2015, 4, 20) || until > garden.DayOf(2015, 7, 1) {
		t.Errorf("no spade before %s", until)
	}
	near := found(e, "p", "dormant", "2015-04-10")
	if near == nil {
		t.Error("as its time comes it is not asleep")
	}
	for on, records := range map[string][][2]string{
		"2015-07-20": base,
		"2015-05-20": with(base, [2]string{"observation/a", `{"planting":"p","seen":"2015-05-12T10:00:00Z","up":"up"}`}),
		"2015-10-01": base,
	} {
		if f := found(engineWith(t, records...), "p", "dormant", on); f != nil {
			t.Errorf("on %s it is %+v", on, f)
		}
	}
	died := with(base, [2]string{"observation/a", `{"planting":"p","seen":"2015-05-12T10:00:00Z","up":"up"}`}, [2]string{"observation/b", `{"planting":"p","seen":"2015-10-02T10:00:00Z","up":"dying-back"}`})
	if f := found(engineWith(t, died...), "p", "dormant", "2015-10-05"); f == nil || f.Evidence[0].Day.Year() != 2016 {
		t.Errorf("its leaves are dead in October and it is %+v", f)
	}
	if f := found(engineWith(t, [2]string{"garden/g", here}, [2]string{"planting/p", `{"kind":"acer-palmatum","planted":"2005"}`}), "p", "dormant", "2015-02-10"); f != nil {
		t.Errorf("wood that stands bare is %+v", f)
	}
}

// sunLover wants eight hours: north of a wall, midsummer still sends it five, early
// and late in the day.
const sunLover = `{"name":"Solaris","habit":"perennial","lifeCycle":"long-lived","heightCm":[40,40],"spreadCm":[30,30],"sunHours":[8,16],"bloom":[{"from":"06-20","to":"07-20"}]}`

func TestSunIsHeldAgainstWhatAKindWants(t *testing.T) {
	base := [][2]string{{"garden/g", here}, {"kind/sunny", sunLover}, {"planting/p", `{"kind":"sunny","at":[0,0],"planted":"2010-03"}`},
		{"kind/shy", `{"name":"Umbrosa","habit":"perennial","lifeCycle":"long-lived","heightCm":[60,60],"spreadCm":[40,40],"sunHours":[0,4],"bloom":[{"from":"05-01","to":"06-01"}]}`},
		{"planting/q", `{"kind":"shy","at":[1,0],"planted":"2010-03"}`}}
	wall := [2]string{"structure/wall", `{"form":"building","outline":[[-30,-9],[30,-9],[30,-0.5],[-30,-0.5]],"heightM":8}`}
	open, walled := engineWith(t, base...), engineWith(t, with(base, wall)...)
	if f := found(open, "p", "shaded", "2015-06-01"); f != nil {
		t.Errorf("in the open it is %+v", f)
	}
	f := found(walled, "p", "shaded", "2015-06-01")
	if f == nil || f.WorthALook || !slices.Equal(says(f), []string{"sun-hours", "sun-halves"}) {
		t.Fatalf("north of a high wall it is %+v", f)
	}
	if e := f.Evidence[0]; *e.LoHours != 8 || *e.HiHours != 16 || !(*e.Hours < 7) {
		t.Errorf("the evidence is %+v", e)
	}
	if f := found(open, "q", "scorched", "2015-06-01"); f != nil {
		t.Errorf("where nobody has drawn what casts shade, what loves it is %+v", f)
	}
	far := [2]string{"structure/far", `{"form":"building","outline":[[300,300],[310,300],[310,310]],"heightM":8}`}
	if f := found(engineWith(t, with(base, far)...), "q", "scorched", "2015-06-01"); f == nil || *f.Evidence[0].Hours < 12 {
		t.Errorf("what loves shade is in the open %+v", f)
	}
	if f := found(walled, "q", "scorched", "2015-06-01"); f != nil {
		t.Errorf("what loves shade is behind a wall %+v", f)
	}
	if f := found(engineWith(t, with(base, wall, [2]string{"garden/g", `{"name":"somewhere"}`})...), "p", "shaded", "2015-06-01"); f != nil {
		t.Errorf("nobody knows where the garden is, and it is %+v", f)
	}
	ill := with(base, wall, [2]string{"observation/o", `{"planting":"p","seen":"2015-05-25T10:00:00Z","vigour":1}`})
	if f := found(engineWith(t, ill...), "p", "shaded", "2015-06-01"); f == nil || !f.WorthALook {
		t.Errorf("shaded and failing it is %+v", f)
	}
}

func TestAShrubShadesItsNeighbourAndNotItself(t *testing.T) {
	records := [][2]string{{"garden/g", here}, {"kind/big", `{"name":"Magna","habit":"shrub","lifeCycle":"long-lived","foliage":"evergreen","heightCm":[400,400],"spreadCm":[400,400],"yearsToSize":5,"sunHours":[6,16]}`},
		{"kind/herb", sunLover}, {"planting/big", `{"kind":"big","at":[0,0],"planted":"2000"}`}, {"planting/p", `{"kind":"herb","at":[0,1.1],"planted":"2005"}`}}
	e := engineWith(t, records...)
	if f := found(e, "p", "shaded", "2015-06-01"); f == nil {
		t.Error("close to the north of an evergreen of 4 m it is not shaded")
	}
	if f := found(e, "big", "shaded", "2015-06-01"); f != nil {
		t.Errorf("it shades itself: %+v", f)
	}
	e.Upsert(parsed(t, [2]string{"planting/big", `{"kind":"big","at":[0,0],"planted":"2000","ended":"2015-03-01"}`}))
	if f := found(e, "p", "shaded", "2015-06-01"); f != nil {
		t.Errorf("the shrub is gone and it is %+v", f)
	}
}

// spell makes days of weather, each with its rain.
func spell(from garden.Day, days int, rainMm float64) (records [][2]string) {
	for day := from; day < from+garden.Day(days); day++ {
		records = append(records, [2]string{fmt.Sprintf("weather/%s.a", day), fmt.Sprintf(`{"day":%q,"minC":12,"maxC":27,"rainMm":%g}`, day, rainMm)})
	}
	return records
}

func TestWaterIsAskedForOnlyWhereItIsWanted(t *testing.T) {
	base := [][2]string{{"garden/g", here}, {"bed/b", `{"soil":"sandy loam"}`}, {"kind/shrub", shrubOf(150, 100)},
		{"planting/p", `{"kind":"shrub","bed":"b","planted":"2015-04-01","form":"pot","potL":3}`}}
	spring := spell(garden.DayOf(2015, 4, 1), 61, 8)
	parching := spell(garden.DayOf(2015, 6, 1), 30, 0)
	dry := with(with(base, spring...), parching...)
	f := found(engineWith(t, dry...), "p", "dry", "2015-06-20")
	if f == nil || !f.WorthALook || !slices.Equal(says(f), []string{"root-water", "give-water", "no-watering-noted"}) {
		t.Fatalf("after a dry June it is %+v", f)
	}
	if *f.Evidence[0].Share < 0.5 || *f.Evidence[0].Count < 1 || *f.Evidence[1].Litres <= 0 {
		t.Errorf("the evidence is %+v", f.Evidence)
	}
	long := engineWith(t, with(dry, spell(garden.DayOf(2015, 7, 1), 30, 0)...)...)
	if f := found(long, "p", "dry", "2015-07-30"); f == nil || f.WorthALook {
		t.Errorf("after two months of drought and no watering ever noted it is %+v", f)
	}
	long.Upsert(parsed(t, [2]string{"work/w", `{"planting":"p","day":"2015-06-05","what":"water","amount":"5 l"}`}))
	if f := found(long, "p", "dry", "2015-07-30"); f == nil || !f.WorthALook {
		t.Errorf("of one whose watering is noted it is %+v", f)
	}
	for name, records := range map[string][][2]string{
		"no weather":    base,
		"a wet June":    with(with(base, spring...), spell(garden.DayOf(2015, 6, 1), 30, 8)...),
		"watered":       with(dry, [2]string{"work/w", `{"planting":"p","day":"2015-06-30","what":"water","amount":"20 l"}`}),
		"old":           with(dry, [2]string{"planting/p", `{"kind":"shrub","bed":"b","planted":"2005"}`}),
		"irrigated":     with(dry, [2]string{"bed/b", `{"soil":"sandy loam","irrigated":true}`}),
		"stale weather": with(base, spring...),
		"under glass":   with(dry, [2]string{"planting/p", `{"kind":"shrub","bed":"b","planted":"2015-04-01","form":"pot","potL":3,"cover":"frame"}`}),
	} {
		t.Run(name, func(t *testing.T) {
			if f := found(engineWith(t, records...), "p", "dry", "2015-06-30"); f != nil {
				t.Errorf("it is %+v", f)
			}
		})
	}
}

func TestTheFootOfAWallIsDry(t *testing.T) {
	base := with(with([][2]string{{"garden/g", here}, {"bed/b", `{"soil":"sandy loam"}`}, {"kind/shrub", shrubOf(150, 100)},
		{"structure/wall", `{"form":"wall","outline":[[-9,-1],[9,-1],[9,0],[-9,0]],"heightM":2}`},
		{"planting/foot", `{"kind":"shrub","bed":"b","at":[0,0.3],"planted":"2015-04-01","form":"pot","potL":3}`},
		{"planting/away", `{"kind":"shrub","bed":"b","at":[0,3],"planted":"2015-04-01","form":"pot","potL":3}`}},
		spell(garden.DayOf(2015, 4, 1), 61, 8)...), spell(garden.DayOf(2015, 6, 1), 30, 5)...)
	e := engineWith(t, base...)
	foot, away := e.reckon(garden.DayOf(2015, 6, 30)), e.plantings["away"]
	kind, _ := e.kind("shrub")
	at := func(p garden.Planting) *float64 {
		return e.thirst(foot, p, kind, foot.plotOf[p.ID]).RainShare
	}
	if got := at(e.plantings["foot"]); got == nil || *got != wallRainShare {
		t.Errorf("at its foot the share of rain is %v", got)
	}
	if got := at(away); got != nil {
		t.Errorf("away from it the share of rain is %v", *got)
	}
}

func TestFrostOnBudsIsEvidence(t *testing.T) {
	records := [][2]string{{"garden/g", here}, {"planting/p", `{"kind":"philadelphus-coronarius","planted":"2005"}`}}
	for year := 2013; year <= 2015; year++ {
		for day := garden.DayOf(year, 5, 10); day <= garden.DayOf(year, 8, 20); day += 4 {
			seen := `"notInFlower":true`
			if since := day - garden.DayOf(year, 6, 4); year < 2015 && since >= 0 && since < 25 {
				seen = `"stage":65`
			}
			records = append(records, [2]string{"observation/" + day.String(), fmt.Sprintf(`{"planting":"p","seen":"%sT10:00:00Z",%s}`, day, seen)})
		}
	}
	frosted := with(records, cold("2015-05-08", -3.5), cold("2015-05-09", -2.5), cold("2015-02-01", -9))
	f := found(engineWith(t, frosted...), "p", "no-flower-seen", "2015-08-25")
	if f == nil || !slices.Contains(says(f), "frost-on-buds") {
		t.Fatalf("after frost in May it is %+v", f)
	}
	if last := f.Evidence[len(f.Evidence)-1]; *last.C != -3.5 || last.Day.String() != "2015-05-08" {
		t.Errorf("the evidence is %+v", last)
	}
	if f := found(engineWith(t, with(records, cold("2015-02-01", -9))...), "p", "no-flower-seen", "2015-08-25"); f == nil || slices.Contains(says(f), "frost-on-buds") {
		t.Errorf("after a mild May it is %+v", f)
	}
}

// A bulb under a tree without leaves has its sun in spring, wherever spring is.
func TestASouthernBulbHasItsSunInSpring(t *testing.T) {
	scene := func(lat float64) *Engine {
		return engineWith(t, [2]string{"garden/g", fmt.Sprintf(`{"lat":%g,"lon":147,"altitudeM":50}`, lat)},
			[2]string{"structure/tree", `{"form":"tree","outline":[[-4,-4],[4,-4],[4,4],[-4,4]],"heightM":8,"baseM":1,"leaf":"deciduous","density":0.95}`},
			[2]string{"kind/bulb", `{"name":"Bulbus","habit":"bulb","heightCm":[15,15],"spreadCm":[10,10],"sunHours":[4,16],"bloom":[{"from":"02-10","to":"03-20"}]}`},
			[2]string{"planting/p", `{"kind":"bulb","at":[0,0],"planted":"2010-10"}`})
	}
	for _, lat := range []float64{43, -43} {
		if f := found(scene(lat), "p", "shaded", "2015-12-01"); f != nil {
			t.Errorf("at %g degrees it is shaded: %+v", lat, f.Evidence[0])
		}
	}
}

// What is done or put aside later was not yet on the day that is asked about.
func TestNothingIsKnownBeforeItIsDone(t *testing.T) {
	e := engineWith(t, [2]string{"garden/g", here}, [2]string{"kind/shrub", shrubOf(150, 100)}, [2]string{"planting/p", `{"kind":"shrub","planted":"2010","grafted":true}`},
		[2]string{"observation/a", `{"planting":"p","seen":"2015-06-01T10:00:00+01:00","signs":["dieback"]}`},
		[2]string{"dismissal/p.2015--.troubled", `{"why":"known","day":"2015-06-05"}`},
		[2]string{"work/w", `{"planting":"p","day":"2015-06-08","what":"prune"}`},
		[2]string{"task/t", `{"planting":"p","care":"prune","due":{"from":"2015-06-01","to":"2015-06-20"},"done":"w"}`})
	for day, want := range map[string]struct {
		dismissed bool
		tasks     int
	}{"2015-06-04": {false, 1}, "2015-06-06": {true, 1}} {
		f := found(e, "p", "troubled", day)
		on, err := garden.ParseDay(day)
		if err != nil {
			t.Fatal(err)
		}
		if f == nil || (f.Dismissed != nil) != want.dismissed || len(e.Assess(on).Tasks) != want.tasks {
			t.Errorf("on %s it is %+v, and %d tasks are open", day, f, len(e.Assess(on).Tasks))
		}
	}
	if tasks := e.Assess(garden.DayOf(2015, 6, 9)).Tasks; len(tasks) > 0 {
		t.Errorf("once done it is open: %+v", tasks)
	}
}
