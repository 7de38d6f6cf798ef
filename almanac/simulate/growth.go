package simulate

import (
	"math"
	"time"

	"haulm/garden"
)

// A stature is how one planting grows: h(e) = H(1 − e^(−ke))^m in effective age e
// (Chapman & Richards), which runs in the growing season alone, slower in the
// first two years, and at the plant's own pace.
type stature struct {
	eventualCm float64
	rate       float64 // k, a year of effective age
	begun      float64 // effective age when planted
	pace       float64 // 1 is usual
	planted    int
	struggling bool
}

func newStature(p *plant, chance stream) stature {
	s := stature{planted: p.planted, struggling: p.struggling, eventualCm: p.kind.heightCm * (1 + chance.between(-heightRange, heightRange)),
		rate: -math.Log(1-math.Pow(grownAtYears, 1/shape)) / p.kind.yearsToSize}
	s.begun = -math.Log(1-math.Pow(plantedCm/s.eventualCm, 1/shape)) / s.rate
	s.pace = math.Exp(chance.normal(sdPace))
	if p.struggling {
		s.pace *= strugglingPace
	}
	return s
}

// cm is its height on a day.
func (s stature) cm(day garden.Day) float64 {
	age := s.begun
	for year := s.planted; year <= day.Year(); year++ {
		pace := s.pace
		if n := year - s.planted; n < len(settling) {
			pace *= settling[n]
		}
		age += pace * grownBy(day, year)
	}
	return s.eventualCm * math.Pow(1-math.Exp(-s.rate*age), shape)
}

// settling is the pace of the first years, roots coming first (common practice).
var settling = [...]float64{0.35, 0.7}

// grownBy is how much of a year's growth is done by a day: from growthFrom to
// growthTo, slow at both ends.
func grownBy(day garden.Day, year int) float64 {
	ofYear := float64(day - garden.DayOf(year, 1, 1))
	part := math.Max(0, math.Min(1, (ofYear-growthFrom)/(growthTo-growthFrom)))
	return (1 - math.Cos(math.Pi*part)) / 2
}

// vigour is its grade, 1 to 5: of a struggling plant it falls through the last two
// years.
func (s stature) vigour(day garden.Day, mood float64) int {
	grade := usualVigour
	if since := float64(day - garden.DayOf(LastYear-1, 1, 1)); s.struggling && since > 0 {
		grade -= vigourFall * math.Min(1, since/(2*yearDays))
	}
	switch {
	case mood < oddMood/2:
		grade--
	case mood > 1-oddMood/2:
		grade++
	}
	return int(math.Max(1, math.Min(5, math.Round(grade))))
}

// A measure is one height and grade as noted.
type measure struct {
	cm     float64
	vigour int
}

// measures gives, for each of one planting's looks that brought one, what was
// measured: the first look after each of some days of the growing season.
func (p *plant) measures(in Input, days []garden.Day, chance stream) map[garden.Day]measure {
	s := newStature(p, chance)
	taken := map[garden.Day]measure{}
	for year := in.firstYear(); year <= LastYear; year++ {
		for n := range measuresAYear {
			target := garden.DayOf(year, time.April, 15) + garden.Day((float64(n)+chance.share())*measuredDays/measuresAYear)
			tape, mood := chance.normal(1), chance.share()
			for _, day := range days {
				if day >= target && day < target+measureWithin {
					cm := s.cm(day)
					cm = math.Max(1, math.Round(cm+tape*math.Hypot(tapeCm, tapeShare*cm)))
					taken[day] = measure{cm, s.vigour(day, mood)}
					break
				}
			}
		}
	}
	return taken
}
