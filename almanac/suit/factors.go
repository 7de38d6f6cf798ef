package suit

import (
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// judge gives every factor of a kind at a spot but the weeks, and those that rule
// it out.
func (s Spot) judge(c candidate) (factors, out []Factor) {
	for _, judge := range []func(candidate) (Factor, bool){
		s.cold, s.sun, s.moisture, s.acidity, s.height, s.room, s.support, s.pot, s.colour,
	} {
		factor, excludes := judge(c)
		factors = append(factors, factor)
		if excludes {
			out = append(out, factor)
		}
	}
	return factors, out
}

// unknown are the factors of which the input says nothing.
func (in Input) unknown() []string {
	s := in.Spot
	names := []string{}
	for _, one := range []struct {
		factor string
		absent bool
	}{
		{Cold, s.MinWinterC == nil}, {Sun, s.SunHours == nil}, {Moisture, !s.moistureKnown()}, {PH, s.PH == nil && !s.Container},
		{Height, s.HeightCm == nil}, {Room, s.RoomCm == nil}, {Support, s.Support == nil}, {Colour, len(s.Colours) == 0}, {Weeks, in.Have == nil},
	} {
		if one.absent {
			names = append(names, one.factor)
		}
	}
	return names
}

// fitOf is the product of the scores, each to the power of its weight; what is
// not known counts as 1.
func fitOf(factors []Factor) float64 {
	fit := 1.0
	for _, f := range factors {
		fit *= weight(f, weightOf(f.Factor))
	}
	return fit
}

func weight(f Factor, power float64) float64 {
	if f.Score == nil {
		return 1
	}
	return math.Pow(*f.Score, power)
}

func weightOf(factor string) float64 {
	switch factor {
	case Cold, Sun, Moisture, Support, Pot:
		return weightDecides
	case PH, Height, Room:
		return weightHelped
	default:
		return weightTaste
	}
}

// unknownHere is a factor of which the spot, or the question, says nothing.
func unknownHere(factor string) Factor { return Factor{Factor: factor, Say: Unknown} }

// unknownOf is one of which the kind says nothing.
func unknownOf(factor string) Factor { return Factor{Factor: factor, Say: KindUnknown} }

// scored is a factor with its numbers, rounded so that every machine goes on with
// the same.
func scored(factor, say string, score, here float64, wants *garden.Range) Factor {
	score, here = stats.RoundProbability(score), stats.Round7(here)
	return Factor{factor, say, &score, &here, wants}
}

// plain is a factor without numbers.
func plain(factor, say string, score float64) Factor {
	score = stats.RoundProbability(score)
	return Factor{Factor: factor, Say: say, Score: &score}
}

// fading is 1 at nothing off and one half at half, going to 0.
func fading(off, half float64) float64 {
	if off <= 0 {
		return 1
	}
	return 1 / (1 + off/half*off/half)
}
