// Package reference reads the results of others that the almanac is held
// against: the tables (CSV) and JSON files of testdata/reference, whose README.md
// names the source of each. Start at Table and JSON. Whatever is wrong with a
// file, or with what is asked of it, ends the test and names file, line and
// column.
//
// It is for tests alone: no other package imports it (server/layers_test.go).
package reference
