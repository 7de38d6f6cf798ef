package assess

import (
	"fmt"
	"slices"
	"testing"

	"haulm/garden"
)

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
