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
//   - bulbs are judged by their number, not by their height.
//
// fit.go finds the planting's own rate and size by maximum a posteriori.
// Every number that is a choice of ours stands in constants.go with its reason.
package growth
