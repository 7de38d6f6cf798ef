// Package materials reckons what to order and how much: mulch over an area
// (mulch.go), plants at a spacing (spacing.go), what goes back into a planting
// hole (backfill.go); what a length in feet is (length.go); and how high a plant is
// in a photograph with a cane of known length beside it (photo.go).
//
// Areas of outlines on the plan are in area.go, bulk densities with their sources
// in density.go. Lengths are centimetres, areas square metres, volumes litres (a
// cubic metre is 1000). Answers carry caution codes that the interface words.
package materials
