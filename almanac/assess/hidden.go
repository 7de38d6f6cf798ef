package assess

import (
	"math"

	"haulm/almanac/place"
	"haulm/almanac/stats"
	"haulm/garden"
)

// What a taller planting in front hides of a bed as it is looked at.
const (
	// hiddenShare of a planting's show hidden is more than one stem before it.
	hiddenShare = 0.5
	// usualRise days, as in the growth model, is what a kind that dies down takes
	// from its shoots to its height where its flower does not say it.
	usualRise = 75
	// foliageShare of its height is what a herbaceous kind stands at before its
	// flower stems rise (common practice: leaves to half the height in flower).
	foliageShare = 0.5
	// stemsRise days before its flower the stems start.
	stemsRise = 35
)

// hiddenFindings tells of each plot in a bed that is seen from somewhere how much
// of its show taller ones in front hide while it is in flower; by planting.
func (e *Engine) hiddenFindings(r *reckoned) map[string]Finding {
	byBed := map[string][]*plot{}
	for i := range r.plots {
		p := &r.plots[i]
		byBed[p.planting.Bed] = append(byBed[p.planting.Bed], p)
	}
	found := map[string]Finding{}
	for _, bed := range sortedKeys(byBed) {
		if eye := e.beds[bed].ViewedFrom; eye != nil {
			e.hiddenIn(r, *eye, byBed[bed], found)
		}
	}
	return found
}

func (e *Engine) hiddenIn(r *reckoned, eye garden.Point, plots []*plot, found map[string]Finding) {
	rooms := make([]place.Room, len(plots))
	shows := make([]show, len(plots))
	for i := range plots {
		rooms[i], shows[i] = plots[i].now, e.showIn(r, plots[i], r.on.Year())
	}
	hidden := place.Hidden(eye, rooms,
		func(of int) float64 { return shows[of].cm },
		func(by, of int) float64 { return hides(plots[by], shows[by], shows[of].day) })
	for i, taken := range hidden {
		if total := place.Total(taken); total >= hiddenShare {
			found[plots[i].planting.ID] = e.hiddenFinding(r, plots, shows, i, taken)
		}
	}
}

// A show is when a plot is in flower in a year and how tall it is then; cm is 0
// where it has no flower to show.
type show struct {
	from, to, day garden.Day // the first flush, and its middle
	shoots        garden.Day // from when its stems rise, for what dies down
	cm            float64
}

// showIn reckons a plot's first flush of a year by the garden's usual dates.
func (e *Engine) showIn(r *reckoned, p *plot, year int) show {
	if len(p.kind.Bloom) == 0 || p.over {
		return show{}
	}
	from := e.usually(r, p.kind.Bloom[0].From, year)
	to := e.usually(r, p.kind.Bloom[0].To, year)
	if to < from {
		to += garden.Day(math.Round(daysInYear))
	}
	s := show{from: from, to: to, day: from + (to-from)/2, shoots: from - usualRise, cm: p.standsCM()}
	if p.kind.Emerges != nil {
		s.shoots = min(s.shoots, e.usually(r, p.kind.Emerges.From, year))
	}
	if measured := e.flowerHeight(p.planting.ID, r.on); measured != nil {
		s.cm = *measured
	}
	return s
}

// usually is the day in a year on which a date of the catalogue's falls in this
// garden's usual year.
func (e *Engine) usually(r *reckoned, date garden.MonthDay, year int) garden.Day {
	day := date.In(year) + garden.Day(math.Round(r.lateness))
	if lat := e.garden().Lat; lat != nil && *lat < 0 {
		day += halfYear
		if day.Year() > year {
			day = date.In(year-1) + garden.Day(math.Round(r.lateness)) + halfYear
		}
	}
	return day
}

// halfYear is what the southern hemisphere's seasons are off the catalogue's.
const halfYear = 183

// flowerHeight is the last flower height measured within a year and a half.
func (e *Engine) flowerHeight(planting string, on garden.Day) *float64 {
	looks := e.looks.until(planting, on)
	for i := len(looks) - 1; i >= 0 && looks[i].day >= on-measuredLasts-halfYear; i-- {
		if looks[i].FlowerHeightCm != nil {
			return looks[i].FlowerHeightCm
		}
	}
	return nil
}

// hides is how tall a plot stands, in cm, on the day on which another is in
// flower: wood as it is now, what dies down by how far its stems have risen. Climbers
// go up what carries them and are no screen, bulbs have sunk or not yet risen, and
// what sowed itself stands wherever it came up.
func hides(p *plot, own show, on garden.Day) float64 {
	tall := p.standsCM()
	switch {
	case p.apart, p.over:
		return 0
	case p.kind.Foliage != "dies-down" || own.cm == 0:
		return tall
	case on < own.shoots:
		return 0
	case on >= own.from:
		return tall
	}
	leaves := rising(on, own.shoots, own.from-stemsRise) * foliageShare
	return tall * (leaves + (1-foliageShare)*rising(on, own.from-stemsRise, own.from))
}

// rising goes from 0 on one day to 1 on another.
func rising(on, from, to garden.Day) float64 {
	if to <= from {
		return 1
	}
	return math.Max(0, math.Min(1, float64(on-from)/float64(to-from)))
}

// hiddenFinding names what hides a planting when it flowers next. It is no matter for a walk: plants are
// moved when they are out of flower, and who looks this one up is told.
func (e *Engine) hiddenFinding(r *reckoned, plots []*plot, shows []show, i int, taken []place.Taken) Finding {
	total, own := place.Total(taken), shows[i]
	next := own
	if own.to < r.on {
		next = e.showIn(r, plots[i], r.on.Year()+1)
	}
	evidence := []Evidence{{Say: "hidden-share", Share: &total, From: &next.from, To: &next.to}}
	for _, one := range taken[:min(mostNamed, len(taken))] {
		by := plots[one.By]
		tall, cm, share := stats.RoundCM(hides(by, shows[one.By], own.day)), stats.RoundCM(own.cm), one.Share
		evidence = append(evidence, Evidence{Say: "hidden-by", Other: by.planting.ID, What: by.kind.Name, Share: &share, CM: &tall, LikelyCM: &cm})
	}
	return Finding{Planting: plots[i].planting.ID, Year: r.on.Year(), Verdict: "taller-in-front", Evidence: evidence, Check: []string{"view", "make-room"}}
}
