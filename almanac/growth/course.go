package growth

import "math"

// A course is the way in which a planting's height runs, before its own rate and
// size are known: woody or seasonal.
type course interface {
	// spot finds a day's place on the course; it does not depend on the planting.
	spot(day float64) spot
	// at gives the height there for one planting.
	at(s spot, o own) point
	// reach says when the planting has reachedShare of its size, with the
	// derivatives: on seasonClock for a woody course, as a day for a seasonal one;
	// false where there is no such time.
	reach(o own) (when point, ok bool)
}

// A spot is a day's place on a course.
type spot struct {
	part    int     // segment or rise
	season  int     // year of the growing season
	effort  float64 // woody: effective age since the segment began; seasonal: time from shoots, 0, to full, 1
	perDay  float64 // of effort, where the timing of the season matters
	seasons float64 // growing seasons that the part has run, at least one
	known   bool    // there is a course on that day
	judged  bool    // a height measured then tells of the rate
}

// An own is what is one planting's own: rate against the usual, eventual height
// in cm, and the height it began with against the one assumed.
type own struct{ rate, size, start float64 }

func ownOf(theta [3]float64) own {
	return own{math.Exp(theta[0]), math.Exp(theta[1]), math.Exp(theta[2])}
}

// A point is a height in cm with its derivatives by the logarithms of own and by
// the lateness of the season in days, and the error, in cm, of what the part
// began with.
type point struct {
	cm       float64
	by       [3]float64
	byDay    float64
	startErr float64
}
