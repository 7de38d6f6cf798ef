// Package bloom tells "the season is late" from "this plant is late".
//
// A flush is one flowering of one planting in one year. The day F on which it
// opens is taken to be
//
//	F = m + g + s + p + a + e
//
// with m the catalogue's window moved to this garden (move.go, and by its normals
// thermal.go), g what this garden differs by for good, s the season as a smooth
// function of the expected day (season.go), its mean by what the weather was
// (here.go), p the planting's own habit, a the first season after planting
// and e chance. People do not see F; they see looks. Looks are shared out between
// a planting's flushes (calendar.go, looks.go) and bound them (bounds.go,
// missed.go); work and harm take a flush out of judging (standing.go, harm.go).
// Before the fit, the garden's years tell how long a kind's flush lasts
// (lengths.go) and how likely a planting is to flower at all (flowering.go); a
// flush that should be over and showed no flower closes and leaves the fit.
//
// One model is fitted to all flushes of all plantings and years by maximum a
// posteriori with Laplace's approximation for the spread: layout.go says what is
// fitted, likelihood.go what looks say about it, and fit.go climbs by the steps
// of newton.go, habits and windows profiled out (kindcurve.go) so that only the
// season's knots meet in one matrix. Chance is logistic there, and what it does not
// explain, a plant that is truly late or a stage misread, is set aside (aside.go):
// letting each look be misread with some chance was tried, and gave summits between
// which a single look could tip the whole kind. After three seasons the garden's
// own spreads are learnt (spreads.go).
//
// A planting is judged this season with all its own flushes of this season taken
// out (cavity.go, refit.go, heldout.go), so that it is never its own excuse; what
// the rest of its bed does this year comes in (corner.go). How little luck may
// explain before it is called late depends on how often it is looked at (luck.go).
// verdict.go and evidence.go turn the fit into words, seasonpart.go tells the
// season. The chosen numbers are in constants.go, each with its reason.
//
// Three things hold of all judgements. No look is no information: a flush that
// nobody looked at moves no other. A day on which nothing was seen moves only
// what the calendar moves: what is due, what needs a look, what closes; until
// something closes every flush seen to open is judged as the day before. And the
// model is monotone: what another planting shows this season moves this one's
// expected day, if at all, the way it points. Later than all the rest say, or still
// shut then, never makes this one expected earlier; sooner never makes it expected
// later; and the later the other opens, the later this one is expected, until the
// other is so late that it is set aside and says nothing more. That is so but for a
// little that is sound (a plant later than in years in which both kept pace says
// that those years were early, and this one with them), for three quarters of a day
// that one summit of a parabola and spreads learnt anew are worth, and where what
// the other shows makes the garden set a third aside. To know more narrows a band,
// so that a chance may fall while the expected day stays.
//
// Two ways in: Reckon for a garden's records, with Model's methods for verdicts,
// strips and the season; FirstFlower and IntervalMean for the verbs of those
// names. Everything is pure: no I/O, no clock, and the same answer for the same
// input in whatever order it comes. Numbers are rounded where they leave, so that
// native code and WebAssembly agree to the byte.
package bloom
