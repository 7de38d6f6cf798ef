// Package skill measures how well the reckoning tells which plants are late, on
// gardens whose truth is known (package simulate).
//
// Three judges walk through a garden's last season (walk.go), on every day on
// which somebody looked at anything, and weekly, each knowing what had been
// written down by then: Haulm (haulm.go), the rule that a notebook would use
// (notebook.go), and an oracle that knows everything but this year's chance
// (oracle.go), which is the limit that no method passes. A judge names a plant on
// the first day on which it calls it late. score.go counts what came of it over
// many gardens. The benchmark in bench_test.go writes the table.
package skill
