package growth

import "math"

// A course is the way in which a planting's height runs, before its own rate and
// size are known: woody or seasonal.
type course interface {
	// spot finds a day's place on the course; it does not depend on the planting.
	spot(day float64) spot
	// at gives the height there for one planting.
	at(s spot, o own) point
}

// A spot is a day's place on a course.
type spot struct {
	part    int     // segment or rise
	season  int     // year of the growing season
	effort  float64 // woody: effective age since the segment began; seasonal: time from shoots, 0, to full, 1
	perDay  float64 // of effort; 0 where the timing of the season does not matter
	seasons float64 // growing seasons that the part has run, at least one
	known   bool    // there is a course on that day
	judged  bool    // a height measured then tells of the rate
}

// What is a planting's own, by logarithms and days, before and after measuring:
// a theta is rate against the usual, eventual height in cm, the height it began
// with against the one assumed, and the days that its season is late.
const (
	ofRate = iota
	ofSize
	ofStart
	ofLate
	ownCount
)

type theta [ownCount]float64

// own is a theta as a course needs it.
type own struct {
	rate, size        float64
	logSize, logStart float64
	late              float64
}

func (t theta) own() own {
	return own{math.Exp(t[ofRate]), math.Exp(t[ofSize]), t[ofSize], t[ofStart], t[ofLate]}
}

// usual is a planting of usual rate, beginning and timing.
func usual(logSize float64) own { return theta{ofSize: logSize}.own() }

// A point is a height in cm with its derivatives by theta, and the error, in cm, of
// what its part began with.
type point struct {
	cm       float64
	by       theta
	startErr float64
}
