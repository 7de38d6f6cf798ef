package assess

import (
	"fmt"
	"slices"
	"testing"

	"haulm/garden"
)

// lateBloomer flowers in June from its fifth season.
const lateBloomer = `{"name":"Frutex tardus","habit":"shrub","lifeCycle":"long-lived","foliage":"deciduous","heightCm":[180,220],"spreadCm":[150,200],
	"spreadHabit":"clump","yearsToSize":6,"yearsToFlower":5,"sunHours":[6,16],"minWinterC":-15,"bloom":[{"from":"06-01","to":"07-01"}]}`

// descended is a shrub planted in 2005, and one planted in November 2013 that came of
// it in some way.
func descended(t *testing.T, how string) *Engine {
	from := fmt.Sprintf(`,"from":{"planting":"old","how":%q}`, how)
	if how == "" {
		from = ""
	}
	return engineWith(t, [2]string{"garden/g", here}, [2]string{"kind/late", lateBloomer},
		[2]string{"planting/old", `{"kind":"late","at":[0,0],"planted":"2005-03","heightCm":40,"ended":"2013-11-10"}`},
		[2]string{"observation/tall", `{"planting":"old","seen":"2013-10-01T09:00:00Z","heightCm":150}`},
		[2]string{"planting/new", `{"kind":"late","at":[5,5],"planted":"2013-11-10"` + from + `}`})
}

// TestWhatCameOfAGrownPlantFlowersAsOne: moved, lifted or divided it is old enough;
// a cutting, a seedling and a new plant are not.
func TestWhatCameOfAGrownPlantFlowersAsOne(t *testing.T) {
	for how, young := range map[string]bool{"moved": false, "lifted": false, "divided": false, "cutting": true, "seed": true, "": true} {
		f := found(descended(t, how), "new", "establishing", "2015-06-20")
		if (f != nil) != young {
			t.Errorf("%q: %+v", how, f)
		}
	}
}

// TestItSulksInItsFirstSeasonAllTheSame.
func TestItSulksInItsFirstSeasonAllTheSame(t *testing.T) {
	for _, how := range []string{"moved", "lifted", "divided"} {
		if f := found(descended(t, how), "new", "suspended", "2014-06-20"); f == nil || f.Evidence[0].What != how {
			t.Errorf("%s: %+v", how, f)
		}
	}
}

// TestMovedWholeItIsAsTall and its picture shows what was measured before; a piece of
// it begins small.
func TestMovedWholeItIsAsTall(t *testing.T) {
	likely := func(how string) (mid float64, measured int) {
		picture, err := descended(t, how).Picture("new", garden.DayOf(2014, 8, 1))
		if err != nil {
			t.Fatal(err)
		}
		at := slices.IndexFunc(picture.Height.Band, func(l Likely) bool { return l.Day >= garden.DayOf(2014, 2, 1) })
		return picture.Height.Band[at].Mid, len(picture.Height.Measured)
	}
	for _, how := range []string{"moved", "lifted"} {
		if mid, measured := likely(how); mid < 140 || measured != 1 {
			t.Errorf("%s, it is likely to be %v cm, with %d measures", how, mid, measured)
		}
	}
	for _, how := range []string{"divided", "cutting", ""} {
		if mid, measured := likely(how); mid > 60 || measured != 0 {
			t.Errorf("%q, it is likely to be %v cm, with %d measures", how, mid, measured)
		}
	}
}

// TestWhatStayedGoesItsOwnWay: of a group of which some were moved, what is measured and
// cut afterwards where the rest stands is not of those.
func TestWhatStayedGoesItsOwnWay(t *testing.T) {
	e := descended(t, "moved")
	e.Upsert(parsed(t, [2]string{"planting/old", `{"kind":"late","at":[0,0],"planted":"2005-03","heightCm":40,"count":2}`},
		[2]string{"observation/later", `{"planting":"old","seen":"2014-07-01T09:00:00Z","heightCm":170}`},
		[2]string{"work/cut", `{"planting":"old","day":"2014-03-01","what":"prune","heightLeftCm":30}`}))
	on := garden.DayOf(2014, 8, 1)
	input, _ := e.growthInput(e.reckon(on), e.plantings["new"], nil)
	if len(input.Measures) != 1 || *input.Measures[0].HeightCm != 150 || len(input.Work) != 0 || len(input.Moves) != 1 {
		t.Errorf("%+v", input)
	}
}

// TestMovedWholeItTakesAsMuchRoom on the plan.
func TestMovedWholeItTakesAsMuchRoom(t *testing.T) {
	on := garden.DayOf(2014, 8, 1)
	share := func(how string) float64 {
		e := descended(t, how)
		return e.reckon(on).plotOf["new"].grown
	}
	if moved, divided := share("moved"), share("divided"); moved < 0.9 || divided > 0.5 {
		t.Errorf("moved it has %v of its size, divided %v", moved, divided)
	}
}

// TestDescentEndsWhereRecordsDo: a circle, a planting that is not there, one of another
// kind; and a height noted at the move is one more measure.
func TestDescentEndsWhereRecordsDo(t *testing.T) {
	e := engineWith(t, [2]string{"garden/g", here}, [2]string{"kind/late", lateBloomer}, [2]string{"kind/shrub", shrubOf(200, 200)},
		[2]string{"planting/a", `{"kind":"late","planted":"2012-03","heightCm":60,"from":{"planting":"b","how":"moved"}}`},
		[2]string{"planting/b", `{"kind":"late","planted":"2010-03","from":{"planting":"a","how":"moved"}}`},
		[2]string{"planting/c", `{"kind":"late","planted":"2012-03","from":{"planting":"nowhere","how":"moved"}}`},
		[2]string{"planting/d", `{"kind":"shrub","planted":"2012-03","from":{"planting":"a","how":"moved"}}`})
	on := garden.DayOf(2014, 8, 1)
	if w := e.Worth(on); len(w.Plantings) != 4 {
		t.Errorf("%+v", w)
	}
	for id, want := range map[string]int{"a": mostForebears, "c": 0, "d": 0} {
		if got := e.forebears(e.plantings[id], false); len(got) != want {
			t.Errorf("%s has %d forebears, not %d", id, len(got), want)
		}
	}
	input, _ := e.growthInput(e.reckon(on), e.plantings["a"], nil)
	if len(input.Measures) == 0 || *input.Measures[0].HeightCm != 60 {
		t.Errorf("the height at the move is lost: %+v", input.Measures)
	}
	if _, err := e.Picture("a", on); err != nil {
		t.Error(err)
	}
}
