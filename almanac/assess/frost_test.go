package assess

import (
	"fmt"
	"slices"
	"testing"

	"haulm/garden"
)

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
