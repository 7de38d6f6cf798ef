package verbs

import (
	"haulm/almanac/bloom"
	"haulm/almanac/stats"
)

// numberVerbs answer about numbers of any kind.
func numberVerbs() []Verb {
	return []Verb{
		verb("interval-mean", "the mean of days known only to within intervals",
			`{"intervals":[[120,127],[116,119],[125,131],[null,130],[122,null]]}`, `
			intervals[]  lower and upper end in days, each -1e12 to 1e12, null where open; equal ends are an exact day`, bloom.IntervalMean),
		verb("theil-sen", "a line by the median of slopes",
			`{"x":[1,2,3,4,5],"y":[2.1,3.9,6.2,7.8,30]}`, `
			x[]  any unit, at least two that differ, at most 100000 values
			y[]  any unit, one for each x`, theilSen),
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
