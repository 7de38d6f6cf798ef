// Package simulate makes gardens whose truth is known: when each plant would
// flower but for luck, when it did, which were late and which grew poorly, and
// what somebody who came by now and then wrote down of it. It is what the
// reckoning's skill is measured on (package skill). Nothing here is anybody's
// data.
//
// A kind's true window is the stated one and an error of the catalogue. A plant's
// own expected day is that window's start, its habit and the season, a Gaussian
// process over time (season.go). The day on which it opens is its own expected
// day, this year's chance and, where it is late, its lateness. Visits are days on
// which somebody came, looks the plants that were looked at (visits.go). The
// breaks (break.go) spoil one assumption each.
//
// Garden is the way in. The same input gives the same garden to the byte, also in
// WebAssembly: what is drawn is rounded to a thousandth before anything is
// compared, and each concern draws from a stream of its own, so that a break
// changes nothing but what it breaks.
package simulate
