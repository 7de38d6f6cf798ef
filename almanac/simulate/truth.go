package simulate

import (
	"haulm/almanac/stats"
	"haulm/garden"
)

// truthOf tells what no record does, for the years that were looked at.
func truthOf(in Input, list []*plant, season *seasons) Truth {
	truth := Truth{Flushes: []Flush{}, Seasons: []Season{}, Luck: in.luck()}
	for _, p := range list {
		for _, f := range p.years {
			if f.year >= in.firstYear() && f.year <= LastYear {
				truth.Flushes = append(truth.Flushes, p.flush(f))
			}
		}
	}
	for year := in.firstYear(); year <= LastYear; year++ {
		truth.Seasons = append(truth.Seasons, season.year(year))
	}
	return truth
}

func (p *plant) flush(f flowering) Flush {
	zero := float64(garden.DayOf(f.year, 1, 1)) - 1
	ofYear := func(day float64) float64 { return thousandth(day - zero) }
	stated := ofYear(float64(p.kind.from.In(f.year)))
	told := Flush{Planting: p.id, Kind: p.kind.id, Year: f.year, StatedDay: stated, StatedEnd: stated + p.kind.length,
		UsualDay: ofYear(f.usual), SeasonDays: f.season, ExpectedDay: ofYear(f.expected), LateDays: f.late, LastsDays: thousandth(f.ends - f.opens), Struggling: p.struggling}
	if !f.blind {
		opens, ends := ofYear(f.opens), ofYear(f.ends)
		told.OpensDay, told.EndsDay = &opens, &ends
	}
	return told
}

// year is the season day by day.
func (w *seasons) year(year int) Season {
	s := Season{Year: year}
	for day := garden.DayOf(year, 1, 1); day.Year() == year; day++ {
		s.Days = append(s.Days, stats.RoundDays(w.at(float64(day))))
	}
	return s
}
