package simulate

import (
	"math"

	"haulm/almanac/heat"
	"haulm/garden"
)

// A sky is the daily temperatures of a simulated garden, and how its heat runs
// against a usual year's.
type sky struct {
	normals heat.Normals
	days    []heat.Day
	seasons map[int]heat.Season // by year
}

// normals are those of a lowland garden at the catalogue's reference site, to half
// a degree, from memory; 50 mm of rain in any month.
func normals() []garden.Normal {
	list := make([]garden.Normal, 12)
	for i, t := range [12][2]float64{{2.5, 8}, {2.5, 8.5}, {4, 11.5}, {5.5, 14.5}, {8.5, 18}, {11.5, 21},
		{13.5, 23.5}, {13.5, 23}, {11, 20}, {8.5, 15.5}, {5, 11.5}, {3, 8.5}} {
		list[i] = garden.Normal{MinC: t[0], MaxC: t[1], RainMm: 50}
	}
	return list
}

// newSky draws the days from one to another, both included. The normals are sound,
// and so are the temperatures: an error would be one of this package.
func newSky(in Input, from, to garden.Day) (*sky, error) {
	usual, err := heat.NewNormals(normals())
	if err != nil {
		return nil, err
	}
	s := &sky{normals: usual, seasons: map[int]heat.Season{}}
	chance := newStream(in.Seed, weatherStream)
	slow := make([]float64, int(to-from)/knotDays+1+2*int(bumpReach*spellWidth/knotDays))
	for i := range slow {
		slow[i] = chance.normal(1)
	}
	stray := chance.normal(sdDayC)
	for day := from; day <= to; day++ {
		stray = dayToDay*stray + chance.normal(sdDayC*math.Sqrt(1-dayToDay*dayToDay))
		at := float64(day-from)/knotDays + bumpReach*spellWidth/knotDays
		s.add(day, stray+sdSpellC*bumps(slow, at, spellWidth/knotDays))
	}
	return s, s.reckon(in)
}

// add puts a day that strays from its usual temperatures, to 0.1 °C.
func (s *sky) add(day garden.Day, stray float64) {
	minC, maxC := s.normals.On(day)
	minC, maxC = math.Round(10*(minC+stray))/10, math.Round(10*(maxC+stray))/10
	s.days = append(s.days, heat.Day{Day: day, MinC: &minC, MaxC: &maxC})
}

// reckon counts each year's heat.
func (s *sky) reckon(in Input) error {
	series, err := heat.NewSeries(s.days)
	if err != nil {
		return err
	}
	for year := in.firstYear() - 1; year <= LastYear+1; year++ {
		s.seasons[year] = heat.NewSeason(heat.Scale{Method: heat.SingleSine, BaseC: heatBaseC}, s.normals, series, garden.DayOf(year, 1, 1))
	}
	return nil
}

// late is by how many days heat delays what would open on a day: heatResponse of
// what the heat that is usual by then is behind, and no more than winter's few warm
// hours can.
func (s *sky) late(day float64) float64 {
	on := garden.Day(math.Floor(day))
	season, known := s.seasons[on.Year()]
	if !known {
		return 0
	}
	return thousandth(math.Max(-mostByHeat, math.Min(mostByHeat, heatResponse*season.At(on).Days)))
}
