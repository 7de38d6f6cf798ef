// Package verbstest makes inputs for tests of the verbs: Seeds are the examples
// and a few more of each verb, so that each of its ways is taken; Varied are
// many plausible ones, for comparing machines; Wild are ones that no person
// would write, for fuzzing; Largest are as large and as awkward as a megabyte
// allows, for measuring. All follow from what they are given, so the same call
// gives the same inputs.
package verbstest
