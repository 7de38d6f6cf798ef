package water

import "haulm/garden"

// Reckon answers the verb "water": a planting's water at the end of the last day
// whose weather is known, and what to give. It fails, naming the field or the day,
// on what NewWeather and Weather.Reckon refuse.
func Reckon(in Input) (Output, error) {
	weather, err := NewWeather(in.Lat, in.AltitudeM, in.Days)
	if err != nil {
		return Output{}, err
	}
	return weather.Reckon(in.Plant)
}

// Reckon reckons one planting in a garden's weather. It fails, naming the field,
// on an unknown soil and a value out of its bounds.
func (w *Weather) Reckon(plant Plant) (Output, error) {
	if err := plant.check(); err != nil {
		return Output{}, err
	}
	p, err := newPlan(&plant, w.southern)
	if err != nil {
		return Output{}, err
	}
	switch asOf, any := w.lastKnown(plant.On); {
	case p.known && plant.Planted.First > plant.On:
		return unknown("not-planted"), nil
	case plant.Irrigated:
		return p.watered(), nil
	case !any:
		return unknown("weather-missing"), nil
	case plant.On-asOf > longestGap:
		return unknown("weather-stale"), nil
	default:
		return w.balance(p, asOf), nil
	}
}

func unknown(why string) Output {
	return Output{Unknown: why, Assumed: []string{}, Filled: []garden.Day{}}
}

// balance walks the days from planting, or from as far back as matters, to the
// last known one.
func (w *Weather) balance(p *plan, asOf garden.Day) Output {
	first := max(asOf-backDays, w.first)
	ground := 1000 * p.soil.available() * groundRootM
	s := state{groundMost: ground}
	if p.known && p.planted >= first {
		for ; first < p.planted && first <= asOf; first++ {
			s.passGround(p.onGround(w.on(first)), ground)
		}
		first, p.wateredIn = p.planted, true
	} else {
		s.most = p.zoneOn(first, p.growingDays(first)).capacityL
	}
	z := w.walk(p, &s, first, asOf, ground)
	return w.answer(p, s, z, asOf, first)
}

// walk takes a state from the first day through the last, and gives the zone then.
func (w *Weather) walk(p *plan, s *state, first, asOf garden.Day, ground float64) zone {
	growing, given := p.growingDays(first), p.given
	for len(given) > 0 && given[0].Day < first {
		given = given[1:]
	}
	before := p.zoneOn(first, growing)
	for day := first; day <= asOf; day++ {
		z, ofYear := before, p.seasons.ofYear(day)
		if p.known { // else it has long had its size
			z = p.zoneOn(day, growing)
			s.reach(z.capacityL-before.capacityL, ground)
		}
		litres := 0.0
		litres, given = p.takeGiven(given, day, z)
		s.pass(p.flows(day, ofYear, z, w.on(day)), z, p.p, ground)
		s.passGround(p.onGround(w.on(day)), ground)
		s.give(litres, z)
		s.count(p.p * z.capacityL)
		if !p.seasons.winter(ofYear) {
			growing++
		}
		before = z
	}
	for len(given) > 0 { // given since, on days whose weather is not known yet
		litres := 0.0
		litres, given = p.takeGiven(given, given[0].Day, before)
		s.give(litres, before)
	}
	return before
}

// takeGiven is what each plant got on a day, litres, and what was given later. A
// watering without litres fills the zone.
func (p *plan) takeGiven(given []Given, day garden.Day, z zone) (litres float64, later []Given) {
	for len(given) > 0 && given[0].Day <= day {
		if given[0].Litres == nil {
			litres += z.capacityL
		} else {
			litres += *given[0].Litres / float64(plants(p.plant))
		}
		given = given[1:]
	}
	return litres, given
}
