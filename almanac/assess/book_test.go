package assess

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"haulm/garden"
)

// engineWith gives an engine that holds records, each "kind/id" with its fields
// as JSON; none may be skipped.
func engineWith(t *testing.T, records ...[2]string) *Engine {
	t.Helper()
	e, err := New()
	if err != nil {
		t.Fatal(err)
	}
	e.Upsert(parsed(t, records...))
	if skipped := e.Skipped(); len(skipped) > 0 {
		t.Fatalf("skipped: %+v", skipped)
	}
	return e
}

func parsed(t *testing.T, records ...[2]string) []garden.Record {
	t.Helper()
	var list []garden.Record
	for _, one := range records {
		ref, err := garden.ParseRef(one[0])
		if err != nil {
			t.Fatal(err)
		}
		record := garden.Record{Ref: ref}
		if err := json.Unmarshal([]byte(one[1]), &record.Fields); err != nil {
			t.Fatal(err)
		}
		list = append(list, record)
	}
	return list
}

func verdictsOf(e *Engine, planting, on string) (list []string) {
	day, err := garden.ParseDay(on)
	if err != nil {
		panic(err)
	}
	for _, f := range e.Assess(day).Findings {
		if f.Planting == planting {
			list = append(list, f.Verdict)
		}
	}
	return list
}

func TestOneGardenSpeaksTheFirstById(t *testing.T) {
	e := engineWith(t, [2]string{"garden/b", `{"name":"B"}`})
	for _, step := range []struct {
		change func()
		want   string
	}{
		{func() {}, "B"},
		{func() { e.Upsert(parsed(t, [2]string{"garden/a", `{"name":"A"}`})) }, "A"},
		{func() { e.Upsert(parsed(t, [2]string{"garden/a", `{"name":"A again"}`})) }, "A again"},
		{func() { e.Forget([]garden.Ref{{Kind: garden.GardenRecord, ID: "a"}}) }, "B"},
		{func() { e.Forget([]garden.Ref{{Kind: garden.GardenRecord, ID: "b"}}) }, ""},
	} {
		step.change()
		if got := e.garden().Name; got != step.want {
			t.Errorf("%q speaks, want %q", got, step.want)
		}
	}
}

func TestAGardensOwnWordsReplaceTheCataloguesWhole(t *testing.T) {
	const id = "nepeta-racemosa"
	e := engineWith(t)
	catalogue, _ := e.kind(id)
	if len(catalogue.Bloom) < 2 || catalogue.Bloom[1].Needs == "" || len(catalogue.Care) == 0 {
		t.Fatalf("the catalogue's %s no longer has a second flush that needs work and care: choose another kind", id)
	}
	e.Upsert(parsed(t, [2]string{"kind/" + id, `{"bloom":[{"from":"05-01","to":"06-01"},{"from":"08-01","to":"09-01"}],
		"care":[{"what":"feed","when":{"from":"03-01","to":"04-01"}}],"heightCm":null}`}))
	own, _ := e.kind(id)
	if len(own.Bloom) != 2 || own.Bloom[1].Needs != "" {
		t.Errorf("its flushes are %+v: what an own list leaves out must not come from the catalogue's", own.Bloom)
	}
	if len(own.Care) != 1 || own.Care[0].Why != "" || own.Care[0].When.After != "" || own.Care[0].EveryYears != 0 {
		t.Errorf("its care is %+v", own.Care)
	}
	if own.HeightCm != catalogue.HeightCm || own.Name != catalogue.Name || own.ID != id {
		t.Errorf("a cleared or unsaid field is %v, %q, %q; want the catalogue's", own.HeightCm, own.Name, own.ID)
	}
	e.Forget([]garden.Ref{{Kind: garden.KindRecord, ID: id}})
	if again, _ := e.kind(id); again.Bloom[1].Needs != catalogue.Bloom[1].Needs {
		t.Error("the catalogue's own kind was written into")
	}
}

func TestBareWoodIsNotInLeaf(t *testing.T) {
	for name, seenInWinter := range map[string]string{"measured bare": `"heightCm":150`, "in flower before its leaves": `"stage":65`} {
		t.Run(name, func(t *testing.T) {
			records := [][2]string{{"garden/g", `{"lat":51.5,"altitudeM":50}`}, {"planting/p", `{"kind":"acer-palmatum","planted":"2005"}`}}
			for year := 2012; year <= 2014; year++ {
				records = append(records,
					[2]string{fmt.Sprintf("observation/bare-%d", year), fmt.Sprintf(`{"planting":"p","seen":"%d-04-08T09:00:00Z","up":"not-up"}`, year)},
					[2]string{fmt.Sprintf("observation/leaf-%d", year), fmt.Sprintf(`{"planting":"p","seen":"%d-04-20T09:00:00Z","up":"in-leaf"}`, year)})
			}
			records = append(records,
				[2]string{"observation/winter", `{"planting":"p","seen":"2015-02-10T09:00:00Z",` + seenInWinter + `}`},
				[2]string{"observation/june", `{"planting":"p","seen":"2015-06-20T09:00:00Z","up":"not-up"}`},
				[2]string{"observation/july", `{"planting":"p","seen":"2015-06-28T09:00:00Z","heightCm":150}`})
			if got := verdictsOf(engineWith(t, records...), "p", "2015-07-01"); !slices.Contains(got, "not-up") {
				t.Errorf("not in leaf by late June and then measured bare, it is %v", got)
			}
			records = append(records, [2]string{"observation/leaf", `{"planting":"p","seen":"2015-06-29T09:00:00Z","up":"in-leaf"}`})
			if got := verdictsOf(engineWith(t, records...), "p", "2015-07-01"); slices.Contains(got, "not-up") {
				t.Errorf("in leaf, it is %v", got)
			}
		})
	}
}

func TestDormantShootsAreNotUp(t *testing.T) {
	records := [][2]string{{"garden/g", `{"lat":51.5,"altitudeM":50}`}, {"planting/p", `{"kind":"hosta-sieboldiana","planted":"2005"}`},
		{"observation/a", `{"planting":"p","seen":"2015-02-10T09:00:00Z","stage":0}`},
		{"observation/b", `{"planting":"p","seen":"2015-06-20T09:00:00Z","up":"not-up"}`}}
	e := engineWith(t, records...)
	if _, known := e.kind("hosta-sieboldiana"); !known {
		t.Fatal("the kind is no longer in the catalogue: choose another that dies down")
	}
	if got := verdictsOf(e, "p", "2015-06-22"); !slices.Contains(got, "not-up") {
		t.Errorf("asleep in February and not up in June, it is %v", got)
	}
}

func TestWhatComesUpBeforeNewYearIsMissedAfterIt(t *testing.T) {
	records := [][2]string{{"garden/g", `{"lat":51.5,"altitudeM":50}`},
		{"kind/early", `{"name":"Early","habit":"bulb","lifeCycle":"long-lived","foliage":"winter-green","emerges":{"from":"11-25","to":"12-15"},
			"heightCm":[10,15],"bloom":[{"from":"01-20","to":"02-20"}]}`},
		{"planting/p", `{"kind":"early","planted":"2008"}`},
		{"observation/a", `{"planting":"p","seen":"2014-12-28T09:00:00Z","up":"not-up"}`},
		{"observation/b", `{"planting":"p","seen":"2015-02-01T09:00:00Z","up":"not-up"}`}}
	e := engineWith(t, records...)
	for _, f := range e.Assess(garden.DayOf(2015, 2, 3)).Findings {
		if f.Verdict == "not-up" {
			if f.Year != 2014 || !f.WorthALook {
				t.Errorf("it is of %d, worth a look %v", f.Year, f.WorthALook)
			}
			return
		}
	}
	t.Errorf("due in December and not up in February, it is %v", verdictsOf(e, "p", "2015-02-03"))
}

func TestABedsWorkIsAPlantingsWhileItStands(t *testing.T) {
	e := engineWith(t,
		[2]string{"planting/old", `{"kind":"iris-sibirica","bed":"b"}`},
		[2]string{"planting/young", `{"kind":"iris-sibirica","bed":"b","planted":"2014-03"}`},
		[2]string{"planting/gone", `{"kind":"iris-sibirica","bed":"b","ended":"2013-06-01"}`},
		[2]string{"planting/elsewhere", `{"kind":"iris-sibirica","bed":"c"}`},
		[2]string{"work/own", `{"planting":"young","day":"2014-05-05","what":"feed"}`},
		[2]string{"work/late", `{"bed":"b","day":"2015-02-01","what":"cut-back"}`},
		[2]string{"work/early", `{"bed":"b","day":"2012-02-01","what":"cut-back"}`},
		[2]string{"work/tomorrow", `{"bed":"b","day":"2015-07-02","what":"cut-back"}`},
		[2]string{"work/some-day", `{"bed":"b","what":"cut-back"}`})
	works := e.worksByPlanting(garden.DayOf(2015, 7, 1))
	for planting, want := range map[string][]string{"old": {"early", "late"}, "young": {"own", "late"}, "gone": {"early"}, "elsewhere": nil} {
		var got []string
		for _, work := range works[planting] {
			got = append(got, work.ID)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s has the work %v; want %v", planting, got, want)
		}
	}
}

func TestWhatIsInAStoreIsNotLookedFor(t *testing.T) {
	records := [][2]string{{"garden/g", `{"lat":51.5,"altitudeM":50}`}, {"planting/p", `{"kind":"iris-sibirica","planted":"2005"}`},
		{"observation/a", `{"planting":"p","seen":"2015-07-08T09:00:00Z","notInFlower":true}`}}
	if got := verdictsOf(engineWith(t, records...), "p", "2015-07-10"); len(got) == 0 {
		t.Fatal("nothing is said of it while it stands: the test shows nothing")
	}
	records = append(records, [2]string{"planting/p", `{"kind":"iris-sibirica","planted":"2005","stored":true}`})
	if got := verdictsOf(engineWith(t, records...), "p", "2015-07-10"); len(got) > 0 {
		t.Errorf("lifted and stored, it is %v", got)
	}
}

func TestARecordThatIsNoneSilencesNoOther(t *testing.T) {
	records, skipped, err := ParseRecords([]byte(`[{"record":"bed/b","fields":{"name":"A"}},5,{"record":"bed/c","fields":"x"},{"record":"ghost/1"},{"record":"bed/d","fields":{}}]`))
	if err != nil || len(records) != 2 || records[1].Ref.ID != "d" || string(records[0].Fields["name"]) != `"A"` {
		t.Errorf("read %+v (%v)", records, err)
	}
	if len(skipped) != 3 || skipped[0].Record != "number 2" || skipped[1].Record != "number 3" || skipped[2].Record != "ghost/1" {
		t.Errorf("skipped %+v", skipped)
	}
	if _, _, err := ParseRecords([]byte(`{"record":"bed/b"}`)); err == nil {
		t.Error("an object was read as a list of records")
	}
}

// In the south the summer runs over New Year: what flowered in December still
// tells how the season runs in January.
func TestASouthernSummerIsStillTheSeasonInJanuary(t *testing.T) {
	records := [][2]string{{"garden/g", `{"lat":-43.5,"altitudeM":50}`}}
	for n := range 6 {
		records = append(records, [2]string{fmt.Sprintf("planting/p%d", n), `{"kind":"iris-sibirica","planted":"2005"}`})
		for year := 2012; year <= 2014; year++ {
			opens := garden.DayOf(year, 11, 25)
			if year == 2014 {
				opens += 12
			}
			records = append(records,
				[2]string{fmt.Sprintf("observation/a%d-%d", n, year), fmt.Sprintf(`{"planting":"p%d","seen":"%sT09:00:00+13:00","stage":55}`, n, opens-2)},
				[2]string{fmt.Sprintf("observation/b%d-%d", n, year), fmt.Sprintf(`{"planting":"p%d","seen":"%sT09:00:00+13:00","stage":61}`, n, opens+1)})
		}
	}
	e := engineWith(t, records...)
	for _, on := range []garden.Day{garden.DayOf(2014, 12, 20), garden.DayOf(2015, 1, 10)} {
		if season := e.Assess(on).Season; season == nil || season.Days < 2 || season.From != 6 {
			t.Errorf("on %s the season is %+v", on, season)
		}
	}
	if season := e.Assess(garden.DayOf(2015, 4, 10)).Season; season != nil {
		t.Errorf("in April the season is still %+v", season)
	}
}

// What is kept from one answer to the next must not show: an engine that was asked
// after every record answers as a fresh one.
func TestAnswersDoNotDependOnWhatWasAskedBefore(t *testing.T) {
	records := [][2]string{{"garden/g", `{"lat":51.5,"lon":-2.6,"altitudeM":50}`},
		{"planting/hosta", `{"kind":"hosta-sieboldiana","planted":"2005","at":[0,0]}`},
		{"observation/a", `{"planting":"hosta","seen":"2015-03-02T09:00:00Z","up":"not-up"}`},
		{"observation/b", `{"planting":"hosta","seen":"2015-05-30T09:00:00Z","note":"?"}`},
		{"observation/c", `{"planting":"hosta","seen":"2015-06-20T09:00:00Z","up":"not-up"}`},
		{"structure/house", `{"form":"building","outline":[[-9,-9],[9,-9],[9,-0.5],[-9,-0.5]],"heightM":8}`},
		{"weather/2015-01-01.a", `{"day":"2015-01-01","minC":-40,"maxC":1}`},
		{"planting/choisya", `{"kind":"choisya-ternata","planted":"2000","at":[0.2,0]}`},
		{"observation/c", `{"planting":"hosta","seen":"2015-06-20T09:00:00Z","up":"up"}`},
		{"kind/hosta-sieboldiana", `{"sunHours":[9,16]}`}}
	asked := engineWith(t)
	on := garden.DayOf(2015, 6, 22)
	for n := range records {
		asked.Upsert(parsed(t, records[n]))
		fresh := engineWith(t, records[:n+1]...)
		for _, day := range []garden.Day{on, garden.DayOf(2015, 3, 20)} {
			got, errGot := json.Marshal(asked.Assess(day))
			want, errWant := json.Marshal(fresh.Assess(day))
			if errGot != nil || errWant != nil || string(got) != string(want) {
				t.Errorf("after %s, on %s, it is\n%s\nand of a fresh engine\n%s", records[n][0], day, got, want)
			}
		}
	}
	asked.Forget([]garden.Ref{{Kind: garden.StructureRecord, ID: "house"}, {Kind: garden.ObservationRecord, ID: "c"}})
	for _, f := range asked.Assess(on).Findings {
		if f.Verdict == "shaded" && f.Planting == "choisya" {
			t.Errorf("the house is gone and %+v", f)
		}
	}
}
