package verbs

import (
	"haulm/almanac/bloom"
	"haulm/almanac/growth"
	"haulm/almanac/heat"
	"haulm/almanac/stats"
	"haulm/almanac/tie"
)

// All lists every verb, by name.
func All() []Verb {
	return []Verb{
		verb("assess", "everything at once: how the season runs, and what is worth a look",
			`{"on":"2015-07-10","records":[{"record":"garden/g","fields":{"lat":51.5,"lon":-0.1,"altitudeM":50}}]}`, assessGarden),
		verb("curve-fit", "a growth curve through a series, with standard errors",
			`{"model":"logistic","x":[118,484,664,1004,1231,1372,1582],"y":[30,58,87,115,120,142,145]}`, growth.CurveFit),
		verb("degree-days", "heat above a base temperature, day by day",
			`{"method":"single-sine","baseC":5,"days":[{"day":"2015-04-01","minC":3,"maxC":14}]}`, heat.DegreeDays),
		verb("first-flower", "when each flush should open, and how likely it is this late by luck",
			`{"kinds":{"k":{"expectedDay":150,"sdDays":10}},"seasons":{"2015":{"meanDays":0}},"flushes":[{"planting":"a","kind":"k","year":2015,"after":150,"by":157,"yearsSincePlanting":3}]}`, bloom.FirstFlower),
		verb("growth", "a planting's height against what is likely at its age",
			`{"kind":{"name":"Cornus kousa","habit":"shrub","foliage":"deciduous","heightCm":[400,600],"spreadCm":[300,500],"yearsToSize":15,"pace":"ordinary"},"planted":"2012-03-20","form":"pot","heightCm":60,"measures":[{"day":"2015-06-01","heightCm":90}],"work":[],"on":"2015-07-10"}`, growth.Grow),
		verb("interval-mean", "the mean of days known only to within intervals",
			`{"intervals":[[120,127],[116,119],[125,131],[null,130],[122,null]]}`, bloom.IntervalMean),
		verb("picture", "one planting's years in flower and its height, as a page draws them",
			`{"on":"2015-07-10","planting":"p","records":[{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04"}}]}`, pictureOf),
		verb("theil-sen", "a line by the median of slopes",
			`{"x":[1,2,3,4,5],"y":[2.1,3.9,6.2,7.8,30]}`, theilSen),
		verb("tie", "which planting a photograph is of",
			`{"photo":{"lat":47.60001,"lon":-122.3,"accuracyM":4,"seen":"2015-07-10T09:15:00-07:00"},"garden":{"planOrigin":{"lat":47.6,"lon":-122.3}},"plantings":[{"id":"a","at":[0.5,1]},{"id":"b","at":[9,4]}]}`, tie.Tie),
	}
}

type points struct {
	X []float64 `json:"x"`
	Y []float64 `json:"y"`
}

func theilSen(p points) (stats.Line, error) {
	line, err := stats.TheilSen(p.X, p.Y)
	return stats.Line{Slope: stats.Round7(line.Slope), Intercept: stats.Round7(line.Intercept)}, err
}
