package water

import (
	"encoding/json"
	"strings"
	"testing"

	"haulm/internal/promise"
)

func FuzzEvapotranspiration(f *testing.F) {
	promise.Fuzz(f, Evapotranspiration,
		`{"method":"penman-monteith","lat":50.8,"altitudeM":100,"days":[{"day":"2015-07-06","minC":12.3,"maxC":21.5,"windMs":2.1,"sunHours":9.25,"humidityMinPct":63,"humidityMaxPct":84}]}`,
		`{"method":"hargreaves","lat":47.45,"days":[{"day":"0001-01-01"},{"day":"2015-07-01","minC":17.2,"maxC":33.3}]}`,
		`{"method":"penman-monteith","lat":-90,"altitudeM":6000,"days":[{"day":"2015-07-01","minC":-90,"maxC":60,"vapourKPa":25}]}`)
}

func FuzzSoilWater(f *testing.F) {
	promise.Fuzz(f, SoilWater,
		`{"soil":"sandy loam","rootM":0.5,"kc":0.8,"depletionFraction":1,"startDepletionMm":20,"days":[{"day":"2015-07-01","et0Mm":6.2,"rainMm":0,"irrigationMm":0}]}`,
		`{"soil":"sand","rootM":1e-300,"kc":0.8,"depletionFraction":0.5,"startDepletionMm":0,"days":[]}`)
}

func FuzzReckon(f *testing.F) {
	promise.Fuzz(f, Reckon,
		`{"kind":{"habit":"shrub","foliage":"deciduous","moisture":"moist","spreadCm":[120,180],"yearsToSize":6},"planted":"2015-04","form":"pot","potL":3,"soil":"loam","given":[{"day":"2015-05-02","litres":5}],"mulch":[{"day":"2015-04-20","depthCm":5}],"on":"2015-05-04","lat":47.45,"days":[{"day":"2015-05-01","minC":8,"maxC":19,"rainMm":0},{"day":"2015-05-03","minC":9,"maxC":22,"rainMm":0.4,"sunHours":11,"windMs":3}]}`,
		`{"kind":{},"on":"2015-05-04","lat":91,"days":[]}`,
		`{"kind":{"spreadCm":[1e300,1e300]},"on":"2015-05-04","lat":47.45,"days":[]}`)
}

func TestErrorsNameFieldValueDayAndBound(t *testing.T) {
	air := func(text string) error { return errorOf(t, text, Evapotranspiration) }
	soil := func(text string) error { return errorOf(t, text, SoilWater) }
	plant := func(text string) error { return errorOf(t, text, Reckon) }
	day := `"day":"2015-07-01"`
	for want, err := range map[string]error{
		`method "thornthwaite" is not known`:                    air(`{"method":"thornthwaite","lat":50}`),
		"lat 91 is outside -90 to 90":                           air(`{"method":"hargreaves","lat":91}`),
		"altitudeM is missing":                                  air(`{"method":"penman-monteith","lat":50}`),
		"windMs is missing on 2015-07-01":                       air(`{"method":"penman-monteith","lat":50,"altitudeM":9,"days":[{` + day + `}]}`),
		"minC 20 is above maxC 10 on 2015-07-01":                air(`{"method":"hargreaves","lat":50,"days":[{` + day + `,"minC":20,"maxC":10}]}`),
		"maxC 61 is outside -90 to 60 on 2015-07-01":            air(`{"method":"hargreaves","lat":50,"days":[{` + day + `,"maxC":61}]}`),
		"days holds 2015-07-01 twice":                           air(`{"method":"hargreaves","lat":50,"days":[{` + day + `},{` + day + `}]}`),
		"humidityMinPct 90 is above humidityMaxPct 50":          air(`{"method":"penman-monteith","lat":50,"altitudeM":9,"days":[{` + day + `,"windMs":2,"humidityMinPct":90,"humidityMaxPct":50}]}`),
		"longer than two centuries":                             air(`{"method":"hargreaves","lat":50,"days":[{` + day + `},{"day":"1015-07-01"}]}`),
		`soil "mud" is not a texture class`:                     soil(`{"soil":"mud"}`),
		"rootM 0 is outside 0.01 to 10":                         soil(`{"soil":"sand"}`),
		"startDepletionMm 80 is outside 0 to 75":                soil(`{"soil":"sand","rootM":1,"kc":1,"startDepletionMm":80}`),
		"depletionFraction 2 is outside 0 to 1":                 soil(`{"soil":"sand","rootM":1,"kc":1,"depletionFraction":2}`),
		"days has 2015-07-03 where 2015-07-02 is wanted":        soil(`{"soil":"sand","rootM":1,"kc":1,"days":[{` + day + `},{"day":"2015-07-03"}]}`),
		"rainMm -1 is outside 0 to 2000 on 2015-07-01":          soil(`{"soil":"sand","rootM":1,"kc":1,"days":[{` + day + `,"rainMm":-1}]}`),
		"potL -1 is outside 0 to 2000":                          plant(`{"potL":-1}`),
		"given.litres -1 is outside 0 to 1e+06 on 2015-07-01":   plant(`{"given":[{` + day + `,"litres":-1}]}`),
		"mulch.depthCm 200 is outside 0 to 100 on 2015-07-01":   plant(`{"mulch":[{` + day + `,"depthCm":200}]}`),
		"count -1 is outside 0 to 100000":                       plant(`{"count":-1}`),
		"windMs 200 is outside 0 to 115 on 2015-07-01":          plant(`{"days":[{` + day + `,"windMs":200}]}`),
		`soil "mud" is not a texture class: give sand, loamy s`: plant(`{"soil":"mud"}`),
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not say %q", err, want)
		}
	}
}

func errorOf[In, Out any](t *testing.T, text string, answer func(In) (Out, error)) error {
	t.Helper()
	var in In
	if err := json.Unmarshal([]byte(text), &in); err != nil {
		t.Fatal(err)
	}
	_, err := answer(in)
	return err
}
