package water

import (
	"math"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// answer turns the last state into an Output.
func (w *Weather) answer(p *plan, s state, z zone, asOf, first garden.Day) Output {
	least, most, raw := stats.Round7(s.least), stats.Round7(s.most), stats.Round7(p.p*z.capacityL)
	if least <= raw && raw < most && most-least > tellsApart*z.capacityL {
		if s.gap {
			return unknown("weather-gap")
		}
		return unknown("weather-short")
	}
	missing := stats.Round7((least + most) / 2)
	out := p.numbers(missing, (most-least)/2, z)
	days := s.dryDays
	if missing <= raw {
		days = 0 // watered since
	}
	out.AsOf, out.DryDays = &asOf, &days
	out.Quiet = p.quiet(missing, raw)
	out.EveryDay = p.warmDayL(z, asOf) > raw
	if out.Quiet == "" {
		out.Asks, out.Litres = true, canful(missing)
		out.LitresAll = stats.Round7(out.Litres * float64(plants(p.plant)))
	}
	out.Assumed = append(p.assumptions(), w.assumed...)
	out.Filled = w.filledBetween(first, asOf)
	return out
}

// numbers are those of an answer, from litres missing and their error.
func (p *plan) numbers(missing, errorL float64, z zone) Output {
	perMm := func(litres float64) *float64 {
		mm := stats.Round7(litres / z.areaM2)
		return &mm
	}
	held := rootZone{taw: z.capacityL, raw: p.p * z.capacityL}
	ks := stats.RoundProbability(held.stress(missing))
	refill := stats.Round7(missing)
	return Output{DepletionMm: perMm(missing), ErrorMm: perMm(errorL), TAWMm: perMm(held.taw), RAWMm: perMm(held.raw),
		Stress: &ks, RefillL: &refill, Assumed: []string{}, Filled: []garden.Day{}}
}

// watered is the answer for a bed that waters itself: nothing is missing.
func (p *plan) watered() Output {
	out := p.numbers(0, 0, p.zoneOn(p.plant.On, p.growingDays(p.plant.On)))
	days := 0
	out.AsOf, out.DryDays, out.Quiet = &p.plant.On, &days, "irrigated"
	out.Assumed = append([]string{AssumedIrrigated}, p.assumptions()...)
	return out
}

// quiet says why no water is asked for; "" when it is.
func (p *plan) quiet(missing, raw float64) string {
	switch {
	case !p.establishing():
		return "established"
	case p.dormant():
		return "dormant"
	case missing <= raw:
		return "moist"
	}
	return ""
}

// warmDayL is what a warm day can take from a full store, litres: by leaves and
// open ground, and by what roots meet that day of ground that is dry.
func (p *plan) warmDayL(z zone, day garden.Day) float64 {
	litres := warmDayMm * (p.kcb*z.leavesM2 + bareSoil*max(0, z.areaM2-z.leavesM2))
	if p.plant.Container {
		return potDrying * litres
	}
	next := p.zoneOn(day+1, p.growingDays(day)+1)
	return litres + next.capacityL - z.capacityL + next.exchange*next.capacityL
}

// canful rounds litres up to what people measure by a can: half litres up to 5,
// litres up to 20, then fives.
func canful(litres float64) float64 {
	step := 5.0
	switch {
	case litres <= 5:
		step = 0.5
	case litres <= 20:
		step = 1
	}
	return math.Ceil(litres/step) * step
}

// filledBetween lists the days of a stretch whose weather was filled.
func (w *Weather) filledBetween(first, last garden.Day) []garden.Day {
	from, _ := slices.BinarySearch(w.filled, first)
	to, _ := slices.BinarySearch(w.filled, last+1)
	return append([]garden.Day{}, w.filled[from:max(from, to)]...)
}
