// Package bloom tells "the season is late" from "this plant is late".
//
// A flush is one flowering of one planting in one year. The day F on which it
// opens is taken to be
//
//	F = m + g + s + p + a + e
//
// with m the catalogue's window moved to this garden (move.go), g what this
// garden differs by for good, s the season as a smooth function of the expected
// day, p the planting's own habit, a the first season after planting and e
// chance. People do not see F; they see looks, and looks bound it (flush.go).
// One model is fitted to all flushes of all plantings and years by maximum a
// posteriori with Laplace's approximation for the spread (fit.go, newton.go),
// and a planting is judged this season with all its own flushes of this season
// taken out (leaveout.go), so that it is never its own excuse. verdict.go turns
// the two into words. The chosen numbers are in constants.go.
//
// Two ways in: Reckon for a garden's records, with Model's methods for verdicts,
// strips and the season; FirstFlower and IntervalMean for the verbs of those
// names. Everything is pure: no I/O, no clock, and the same answer for the same
// input in whatever order it comes.
package bloom
