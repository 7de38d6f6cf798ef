package assess

import (
	"fmt"
	"slices"
	"testing"

	"haulm/garden"
)

// The scenes here and in size, frost and weather are gardens made by hand, each so
// that one thing is wrong in one and right in the other.

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
