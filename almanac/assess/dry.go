package assess

import (
	"math"
	"slices"

	"haulm/almanac/place"
	"haulm/almanac/stats"
	"haulm/almanac/water"
	"haulm/garden"
)

// askedYears is how long after planting water is reckoned at all: the almanac asks
// for it in the first two seasons, and a season may lie beyond a New Year.
const askedYears = 3

// unnotedDays of reckoned drought would have shown on a plant: where no watering was
// ever noted by then, somebody waters and does not note it, and is not nagged.
const unnotedDays = 21

// dryFindings tells that a planting has used up the water that its roots can
// easily take, where water says so; nothing where the weather is too thin to tell.
func (e *Engine) dryFindings(r *reckoned, planting garden.Planting, kind garden.Kind, p *plot) []Finding {
	young := planting.Planted != nil && r.on-planting.Planted.Last < askedYears*measuredLasts
	bed := e.beds[planting.Bed]
	if !young && !bed.Container || sheltered(planting.Cover) {
		return nil
	}
	weather := e.waterWeather(r)
	if weather == nil {
		return nil
	}
	plant := e.thirst(r, planting, kind, p)
	out, err := weather.Reckon(plant)
	if err != nil || !out.Asks {
		return nil // an error is of a value that no record can hold
	}
	watered := len(plant.Given) > 0
	return []Finding{{Planting: planting.ID, Year: r.on.Year(), Verdict: "dry", WorthALook: watered || *out.DryDays < unnotedDays,
		Evidence: dryEvidence(out, planting, watered), Check: []string{"finger-deep", "soak", "mulched"}}}
}

func dryEvidence(out water.Output, planting garden.Planting, watered bool) []Evidence {
	share := stats.RoundProbability(math.Min(1, *out.DepletionMm / *out.TAWMm))
	evidence := []Evidence{{Say: "root-water", Day: out.AsOf, Share: &share, Count: out.DryDays}}
	give := Evidence{Say: "give-water", Litres: &out.Litres}
	if planting.Count != nil && *planting.Count > 1 {
		give.All, give.Plants = &out.LitresAll, planting.Count
	}
	evidence = append(evidence, give)
	if !watered {
		evidence = append(evidence, Evidence{Say: "no-watering-noted"})
	}
	if out.EveryDay {
		evidence = append(evidence, Evidence{Say: "small-store"})
	}
	for _, code := range out.Assumed {
		switch code {
		case water.AssumedSoil, water.AssumedAmount, water.AssumedPotSize:
			evidence = append(evidence, Evidence{Say: "water-assumes", What: code})
		}
	}
	return evidence
}

// thirst is what the water model needs to know of a planting.
func (e *Engine) thirst(r *reckoned, planting garden.Planting, kind garden.Kind, p *plot) water.Plant {
	bed := e.beds[planting.Bed]
	plant := water.Plant{Kind: kind, Planted: planting.Planted, Form: planting.Form, PotL: planting.PotL, DepthCm: planting.DepthCm,
		Count: planting.Count, Soil: bed.Soil, Irrigated: bed.Irrigated, Container: bed.Container, LatenessDays: r.lateness, On: r.on}
	if p != nil && e.underWall(r, p) {
		share := wallRainShare
		plant.RainShare = &share
	}
	if p != nil && len(planting.Area) >= 3 && p.full.AreaM2() > 0 {
		area := stats.Round7(p.full.AreaM2())
		plant.AreaM2 = &area
	}
	for _, work := range r.works[planting.ID] {
		switch work.What {
		case "water":
			plant.Given = append(plant.Given, water.Given{Day: *work.Day, Litres: litresOf(work)})
		case "mulch":
			plant.Mulch = append(plant.Mulch, water.Mulch{Day: *work.Day})
		}
	}
	return plant
}

// At the foot of a wall.
const (
	// wallFootM from a wall or a house the ground lies in its rain shadow, and
	// wallRainShare of the rain falls there (common practice: climbers go in a foot
	// or more away, and are watered all the same).
	wallFootM, wallRainShare = 0.5, 0.5
	// mostWalls, by id, are looked at: more are no garden.
	mostWalls = 100
)

// underWall tells whether a plot lies at the foot of a wall, a fence or a house; of
// the mostSunned first of the round.
func (e *Engine) underWall(r *reckoned, p *plot) bool {
	if r.walls == nil {
		r.walls = e.walls()
	}
	return p.nth < mostSunned && slices.ContainsFunc(r.walls, func(wall place.Room) bool { return wall.Within(wallFootM, p.middle) })
}

// walls lists the ground under what keeps rain off; not nil.
func (e *Engine) walls() []place.Room {
	walls := []place.Room{}
	for _, id := range sortedKeys(e.structures) {
		s := e.structures[id]
		solid := s.Form == "wall" || s.Form == "building" || s.Form == "fence"
		if solid && len(s.Outline) >= 3 && len(walls) < mostWalls {
			walls = append(walls, place.Ground(s.Outline))
		}
	}
	return walls
}

// litresOf is how much was given to one planting; nil where nobody wrote how much,
// or wrote it for a whole bed.
func litresOf(work garden.Work) *float64 {
	litres, known := water.ParseAmount(work.Amount)
	if !known || work.Planting == "" {
		return nil
	}
	return &litres
}

// waterWeather is the weather of the years for which water is reckoned, made ready
// once a day; nil where the garden's latitude or its weather is not known.
func (e *Engine) waterWeather(r *reckoned) *water.Weather {
	here := e.garden()
	if r.air != nil || here.Lat == nil {
		return r.air
	}
	known := e.sky.between(r.on-(askedYears+1)*measuredLasts, r.on)
	days := make([]water.Day, 0, len(known))
	for _, d := range known {
		days = append(days, water.Day{Day: d.day, MinC: d.minC, MaxC: d.maxC, RainMm: d.rainMm, SunHours: d.sunHours, WindMs: d.windMs})
	}
	if len(days) == 0 {
		return nil
	}
	air, err := water.NewWeather(*here.Lat, here.AltitudeM, days)
	if err != nil {
		return nil // of a value that no record can hold
	}
	r.air = air
	return air
}
