// Package garden holds the words of Haulm as Go types: what a garden, a bed, a
// kind, a planting, an observation and their fellows are, how each is validated,
// and the catalogue of kinds that ships with the program.
//
// A record is a reference (garden.Ref, "planting/0192…") and a bag of fields.
// Fields travel as raw JSON so that a program keeps what it does not know;
// Check judges the ones it knows, and the typed structs (Planting, Observation,
// …) are decoded from the bag by Decode. Start in ref.go and record.go, then
// read the file of the kind you care about.
//
// The package does no I/O and has no clock.
package garden
