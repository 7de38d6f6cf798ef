// Package promise holds the verbs of the almanac to what all of them promise:
// Answers, that every machine gives the same answers to the byte; Fuzz, that
// whatever is asked gets an answer that JSON can hold, or an error.
//
// It is for tests alone: no other package imports it (server/layers_test.go).
package promise
