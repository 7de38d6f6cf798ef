package suit

import "haulm/almanac/stats"

// sun compares the hours of direct sun with the range that a kind wants. Too much
// is reckoned by the heat of the hours where morning and afternoon are known.
func (s Spot) sun(c candidate) (Factor, bool) {
	wants := c.kind.SunHours
	switch {
	case s.SunHours == nil:
		return unknownHere(Sun), false
	case wants[1] <= 0:
		return unknownOf(Sun), false
	}
	hours := *s.SunHours
	say, score := Fits, 1.0
	switch hot := stats.Round7(s.hotHours()); {
	case hours < wants[0]:
		say, score = TooShady, fading(wants[0]-hours, halfShadeH)
	case hot > wants[1]:
		say, score = TooSunny, fading(hot-wants[1], halfSunH)
	}
	return scored(Sun, say, score, hours, &wants), hours < leastSun*wants[0]
}

// hotHours weighs the hours of a day by their heat.
func (s Spot) hotHours() float64 {
	if s.SunMorning == nil {
		return *s.SunHours
	}
	return morningHeat**s.SunMorning + eveningHeat*(*s.SunHours-*s.SunMorning)
}
