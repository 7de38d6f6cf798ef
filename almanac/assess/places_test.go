package assess_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"haulm/almanac/assess"
	"haulm/garden"
)

// placesOn is the day at which the garden of the places stands.
var placesOn = garden.DayOf(2015, 7, 1)

// places is a garden in which every place does something to what stands there. Its
// answer is kept as a vector, so that the phone's words are tried on it.
func places() string {
	records := []string{
		`{"record":"garden/g","fields":{"name":"Places","lat":51.5,"lon":-2.6,"altitudeM":50}}`,
		`{"record":"bed/b","fields":{"name":"Border","soil":"sandy loam","viewedFrom":[3,-3]}}`,
		`{"record":"bed/pot","fields":{"name":"Trough","container":true,"order":1}}`,
		`{"record":"structure/house","fields":{"form":"building","outline":[[20,-9],[60,-9],[60,-0.5],[20,-0.5]],"heightM":8}}`,
		// Short of room and hidden: a day lily beside an old choisya in front of it.
		`{"record":"planting/choisya","fields":{"kind":"choisya-ternata","bed":"b","at":[3,0],"planted":"2000"}}`,
		`{"record":"planting/day-lily","fields":{"kind":"hemerocallis-lilioasphodelus","bed":"b","at":[3,1.2],"planted":"2005"}}`,
		`{"record":"planting/under","fields":{"kind":"salvia-nemorosa-ostfriesland","bed":"b","at":[3.3,0.1],"planted":"2005"}}`,
		// Shaded and in trouble: lavender north of a house, poor and poorer.
		`{"record":"planting/lavender","fields":{"kind":"lavandula-angustifolia","bed":"b","at":[40,-0.3],"planted":"2012"}}`,
		`{"record":"observation/l1","fields":{"planting":"lavender","seen":"2014-05-01T10:00:00+01:00","vigour":5}}`,
		`{"record":"observation/l2","fields":{"planting":"lavender","seen":"2014-08-01T10:00:00+01:00","vigour":4}}`,
		`{"record":"observation/l3","fields":{"planting":"lavender","seen":"2015-05-01T10:00:00+01:00","vigour":3}}`,
		`{"record":"observation/l4","fields":{"planting":"lavender","seen":"2015-06-28T08:00:00+01:00","vigour":2,"signs":["dieback","wilting"]}}`,
		// Scorched: a hosta in the open.
		`{"record":"planting/hosta","fields":{"kind":"hosta-sieboldiana","bed":"b","at":[10,9],"planted":"2010"}}`,
		// Dry: a rose of this spring.
		`{"record":"planting/rose","fields":{"kind":"rosa-ballerina","bed":"b","at":[14,9],"planted":"2015-03-20","form":"pot","potL":4,"count":3}}`,
		// Frosted: agapanthus in a trough.
		`{"record":"planting/agapanthus","fields":{"kind":"agapanthus-campanulatus","bed":"pot","planted":"2012"}}`,
		// Asleep, done, and a colony.
		`{"record":"planting/snowdrops","fields":{"kind":"galanthus-nivalis","bed":"b","planted":"2005"}}`,
		`{"record":"planting/foxglove","fields":{"kind":"digitalis-purpurea","bed":"b","planted":"2013-06","form":"seed"}}`,
		`{"record":"observation/f1","fields":{"planting":"foxglove","seen":"2014-06-20T10:00:00+01:00","stage":65}}`,
		`{"record":"observation/f2","fields":{"planting":"foxglove","seen":"2014-08-20T10:00:00+01:00","stage":85}}`,
		`{"record":"planting/verbena","fields":{"kind":"verbena-bonariensis","bed":"b","planted":"2012-05","count":12}}`,
		`{"record":"observation/v1","fields":{"planting":"verbena","seen":"2014-08-20T10:00:00+01:00","countAlive":20}}`,
		`{"record":"observation/v2","fields":{"planting":"verbena","seen":"2015-06-20T10:00:00+01:00","countAlive":7}}`,
		`{"record":"weather/2015-01-20.a","fields":{"day":"2015-01-20","minC":-12,"maxC":-3,"rainMm":0}}`,
		`{"record":"weather/2015-01-21.a","fields":{"day":"2015-01-21","minC":-11,"maxC":-1,"rainMm":0}}`,
	}
	for day := garden.DayOf(2015, 3, 15); day <= placesOn; day++ {
		rain := 6
		if day >= garden.DayOf(2015, 6, 10) {
			rain = 0
		}
		records = append(records, fmt.Sprintf(`{"record":"weather/%s.a","fields":{"day":%q,"minC":10,"maxC":24,"rainMm":%d}}`, day, day, rain))
	}
	return "[" + strings.Join(records, ",") + "]"
}

func TestPlacesDoWhatTheyDo(t *testing.T) {
	records, skipped, err := assess.ParseRecords([]byte(places()))
	if err != nil || len(skipped) > 0 {
		t.Fatal(skipped, err)
	}
	engine, err := assess.New()
	if err != nil {
		t.Fatal(err)
	}
	engine.Upsert(records)
	a := engine.Assess(placesOn)
	if len(a.Skipped) > 0 {
		t.Fatalf("skipped: %+v", a.Skipped)
	}
	for planting, want := range map[string]string{"under": "crowded", "day-lily": "taller-in-front", "lavender": "troubled shaded", "hosta": "scorched",
		"rose": "dry", "agapanthus": "frost-below-minimum", "snowdrops": "dormant", "foxglove": "done", "verbena": "colony", "choisya": ""} {
		for _, verdict := range strings.Fields(want) {
			if find(a, planting, verdict) == nil {
				t.Errorf("%s is %v, want %s", planting, verdicts(a, planting), verdict)
			}
		}
	}
	for _, verdict := range []string{"crowded", "taller-in-front", "shaded", "scorched", "dry", "frost-below-minimum"} {
		if slices.Contains(verdicts(a, "choisya"), verdict) {
			t.Errorf("the choisya is %s", verdict)
		}
	}
	writeVectors(t, "places", a)
}
