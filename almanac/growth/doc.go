// Package growth reckons how high a planting ought to be: from its kind, how and
// when it was planted, what was cut and what was measured, to the band of
// heights that its age makes likely, its own rate, what is amiss, and when it
// will have its size. CurveFit fits growth curves to any series.
//
// Start with Input and Result, then Judge. plan.go sorts a planting into one of
// the ways that plants grow:
//
//   - woody (woody.go): shrubs, climbers and trees add to last year's wood, by a
//     Chapman–Richards curve in effective age;
//   - seasonal (seasonal.go): herbaceous kinds, and woody ones cut hard every
//     year, rise each season by a logistic from what was left;
//   - bulbs rise so too, but are judged by their number, not by their height.
//
// woodyplan.go and seasonalplan.go lay out such a course from what is recorded;
// fit.go finds the planting's own rate and size by maximum a posteriori, and
// chance.go what measuring and seasons do to a measure; findings.go, stalled.go
// and reach.go say what follows, and bands.go draws it.
//
// What a rate means differs. A woody plant's is its pace through the years. A kind
// that rises anew each year is judged by the last season measured, since a good
// year must not hide a bad one; its rate says how far through its rise it gets by
// the time it flowers and stops.
// Every number that is a choice of ours stands in constants.go with its reason.
package growth
