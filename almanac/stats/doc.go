// Package stats holds the small numerics that the reckoning shares: the normal
// distribution made safe far out in its tails (normal.go, interval.go), robust
// summaries (median.go, quantile.go, theilsen.go), least squares on curves
// (leastsquares.go), how unsure a chance leaves one (unsure.go) and the rounding of results where they leave the almanac
// (round.go).
//
// Everything is a pure function of its arguments, and no result depends on the
// last bit of an exponential: amd64 and WebAssembly differ there.
package stats
