// Package place answers what geometry alone tells of plantings on a plan: how
// much of the room that one wants its neighbours take (crowding.go), and which
// stands before which as a bed is looked at (sight.go). A Room (room.go) is the
// ground that a planting covers, round or of any outline.
//
// Who counts as a neighbour and how tall a plant stands on a day is the caller's
// to say: this package knows no kinds. Lengths on the plan are metres, heights
// centimetres. Shares are counted on points strewn evenly over the ground, or on
// rays spread evenly over the view, and rounded to 0.001. The chosen numbers are
// in constants.go.
package place
