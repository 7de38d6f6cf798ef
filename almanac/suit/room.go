package suit

import (
	"math"

	"haulm/almanac/stats"
)

// height compares a kind's eventual height with what is wanted.
func (s Spot) height(c candidate) (Factor, bool) {
	grows := c.kind.HeightCm
	switch {
	case s.HeightCm == nil:
		return unknownHere(Height), false
	case grows[1] <= 0:
		return unknownOf(Height), false
	}
	lo, hi := s.HeightCm[0], s.HeightCm[1]
	say, score := Fits, 1.0
	switch middle := (grows[0] + grows[1]) / 2; {
	case middle > hi:
		say, score = TooTall, fading(middle/math.Max(hi, 1)-1, halfHeight-1)
	case middle < lo:
		say, score = TooLow, fading(lo/math.Max(middle, 1)-1, halfHeight-1)
	}
	return scored(Height, say, score, (lo+hi)/2, &grows), grows[0] > stats.Round7(tallestTimes*hi)
}

// room compares a kind's eventual spread with what is free.
func (s Spot) room(c candidate) (Factor, bool) {
	grows := c.kind.SpreadCm
	switch {
	case s.RoomCm == nil:
		return unknownHere(Room), false
	case grows[1] <= 0:
		return unknownOf(Room), false
	}
	free := *s.RoomCm
	say, score := Fits, 1.0
	if middle := (grows[0] + grows[1]) / 2; middle > free {
		say, score = TooWide, fading(middle/math.Max(free, 1)-1, halfRoom-1)
	}
	return scored(Room, say, score, free, &grows), grows[0] > stats.Round7(widestTimes*free)
}

// support asks whether a climber has something to climb.
func (s Spot) support(c candidate) (Factor, bool) {
	climbs := c.kind.Habit == "climber" || c.kind.SpreadHabit == "climbing"
	switch {
	case c.kind.Habit == "":
		return unknownOf(Support), false
	case !climbs:
		return plain(Support, Fits, 1), false
	case s.Support == nil:
		return unknownHere(Support), false
	case !*s.Support:
		return plain(Support, NothingToClimb, 0), true
	default:
		return plain(Support, Fits, 1), false
	}
}

// pot asks whether a kind is of a size for a pot, in one.
func (s Spot) pot(c candidate) (Factor, bool) {
	grows := c.kind.HeightCm
	switch {
	case !s.Container:
		return plain(Pot, Fits, 1), false
	case grows[1] <= 0:
		return unknownOf(Pot), false
	}
	score := fading((grows[0]+grows[1])/2-potCm, halfPotCm)
	if c.kind.Habit == "tree" {
		score *= treeInAPot
	}
	say := Fits
	if stats.RoundProbability(score) < 1 {
		say = TooBigForAPot
	}
	return scored(Pot, say, score, potCm, &grows), false
}
