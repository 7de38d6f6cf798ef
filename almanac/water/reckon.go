package water

import (
	"math"

	"haulm/garden"
)

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

// A state is the water missing from a zone, litres, and from the ground around
// it, mm: the least and the most that it can be.
type state struct {
	least, most             float64
	groundLeast, groundMost float64
	dryDays                 int
	gap                     bool // a day was not known
}

// balance walks the days from planting, or from as far back as matters, to the
// last known one.
func (w *Weather) balance(p *plan, asOf garden.Day) Output {
	first := max(asOf-backDays, w.first)
	groundTAW := 1000 * p.soil.available() * groundRootM
	s := state{groundMost: groundTAW}
	if p.known && p.planted >= first {
		first, p.wateredIn = p.planted, true
	} else {
		s.most = p.zoneOn(p.growingDays(first)).capacityL
	}
	growing, before := p.growingDays(first), p.zoneOn(p.growingDays(first))
	given, z := p.given, before
	for len(given) > 0 && given[0].Day < first {
		given = given[1:]
	}
	for day := first; day <= asOf; day++ {
		z = p.zoneOn(growing)
		s.reach(z.capacityL-before.capacityL, groundTAW)
		litres := 0.0
		litres, given = p.takeGiven(given, day, z)
		s.pass(p.flows(day, z, w.on(day)), z.capacityL, p.p, litres, groundTAW)
		if !p.seasons.winter(day) {
			growing++
		}
		before = z
	}
	for len(given) > 0 { // given since, on days whose weather is not known yet
		litres := 0.0
		litres, given = p.takeGiven(given, given[0].Day, z)
		s.least, s.most = math.Max(0, s.least-litres), math.Max(0, s.most-litres)
	}
	return w.answer(p, s, z, asOf, first)
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

// A flow is what a day brings and asks.
type flow struct {
	known               bool
	rainL, demandL      float64 // of the zone
	groundRain, groundE float64 // mm, of the ground around it
	exchange            float64 // share of the difference that evens out
}

// flows is a day's rain on the zone and demand of its leaves and open ground.
// Rain of less than a fifth of ET₀ dries off where it falls.
func (p *plan) flows(day garden.Day, z zone, a air) flow {
	if !a.known {
		return flow{}
	}
	rain := p.rain * math.Max(0, a.rainMm-ignoredRain*a.et0Mm)
	leaves := p.canopyM2(p.years(day)) * leafShare(&p.plant.Kind, p.seasons, day)
	open := math.Max(0, z.areaM2-leaves) * bareSoil * (1 - mulchHalves*p.mulchCover(day))
	f := flow{known: true, rainL: rain * z.areaM2, demandL: a.et0Mm * (p.kcb*leaves + open),
		groundRain: rain, groundE: groundKc * a.et0Mm, exchange: exchangeShare}
	if p.plant.Container {
		f.demandL, f.exchange = potDrying*f.demandL, 0
	}
	return f
}

// reach adds new ground to the zone, as dry as the ground is.
func (s *state) reach(addedL, groundTAW float64) {
	s.least += addedL * s.groundLeast / groundTAW
	s.most += addedL * s.groundMost / groundTAW
}

// pass takes a state through one day. Where the weather is not known anything
// between full and empty is possible, but for what was given.
func (s *state) pass(f flow, capacityL, p, litres, groundTAW float64) {
	if !f.known {
		s.gap = true
		s.least, s.most = 0, math.Max(0, capacityL-litres)
		s.groundLeast, s.groundMost = 0, groundTAW
	} else {
		s.least = dayOf(s.least, s.groundLeast/groundTAW, f, capacityL, p, litres)
		s.most = dayOf(s.most, s.groundMost/groundTAW, f, capacityL, p, litres)
		s.groundLeast = math.Max(0, dry(s.groundLeast-f.groundRain, f.groundE, groundTAW, groundTAW/2))
		s.groundMost = math.Max(0, dry(s.groundMost-f.groundRain, f.groundE, groundTAW, groundTAW/2))
	}
	if (s.least+s.most)/2 > p*capacityL {
		s.dryDays++
	} else {
		s.dryDays = 0
	}
}

// dayOf is what a zone misses at the end of a day.
func dayOf(missing, groundShare float64, f flow, capacityL, p, litres float64) float64 {
	missing += f.exchange * (groundShare*capacityL - missing)
	return math.Max(0, dry(missing-f.rainL-litres, f.demandL, capacityL, p*capacityL))
}

// dry takes a day's demand from a store: all of it while what is readily available
// lasts, then by Eq. 84 as the store is at each moment. The paper takes Ks from
// the start of the day, which is as good for a field and would empty a root ball
// twice over; in the limit of short steps the two are the same.
func dry(missing, demand, taw, raw float64) float64 {
	free := math.Max(0, raw-missing)
	if demand <= free {
		return missing + demand
	}
	left := math.Min(taw-raw, taw-missing) // at the moment when stress begins, or now
	return taw - left*math.Exp(-(demand-free)/(taw-raw))
}
