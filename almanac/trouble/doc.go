// Package trouble tells from what was seen at one planting whether it is in
// trouble: vigour that falls (vigour.go), signs that stand (signs.go), half of
// last year's flower stems (stems.go), plants lost (losses.go) and years without
// flower (blind.go).
//
// A Case holds the looks at a planting; Find gives its Troubles, the gravest
// first, each with its evidence and with codes of what to check, in the order in
// which a gardener would. Nothing is told from silence: a look that says nothing
// of a sign does not say that the sign is gone, nor that it is there. A trouble is
// grave when it is worth a walk; others are told beside it. Everything is pure;
// the chosen numbers are in constants.go.
package trouble
