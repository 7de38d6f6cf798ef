// Package verbs is the almanac by hand: each verb reads one JSON object and
// answers one, as `haulm almanac VERB` and as the phone's worker asks it. Start
// in table.go, where the verbs stand by what they are about, each with an
// example and what its fields mean; read.go and judge.go are how an input is
// judged before a verb sees it.
package verbs

import (
	"encoding/json"
	"fmt"
	"reflect"
)

// A Verb is one question that the almanac answers.
type Verb struct {
	Name    string
	Says    string // one line for --help
	Example string // an input that works
	input   reflect.Type
	said    string // a line for each field of the input
	run     func(in []byte) (any, error)
}

// An UnknownVerbError names a verb that there is none of.
type UnknownVerbError struct{ Name string }

func (e *UnknownVerbError) Error() string {
	return fmt.Sprintf("there is no verb %q; haulm almanac --help lists them", e.Name)
}

// Run answers one verb. The error is a sentence that names the field, the value
// and the bound where the input is at fault.
func Run(name string, in []byte) ([]byte, error) {
	verb, err := Named(name)
	if err != nil {
		return nil, err
	}
	answer, err := verb.run(in)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	out, err := write(answer)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return out, nil
}

// Named gives the verb of a name; the error is an *UnknownVerbError.
func Named(name string) (Verb, error) {
	for _, verb := range All() {
		if verb.Name == name {
			return verb, nil
		}
	}
	return Verb{}, &UnknownVerbError{name}
}

// write gives the answer as JSON, one object on one line.
func write(answer any) ([]byte, error) {
	out, err := json.Marshal(answer)
	if err != nil {
		return nil, fmt.Errorf("the answer cannot be written as JSON: %w", err)
	}
	return append(out, '\n'), nil
}

// verb makes a Verb out of a function on typed input. Fields of the input that
// are pointers, or marked omitempty, may be left out; the others are required.
// said has a line for each field: its path, then what it means, its unit, and
// its bounds as "A to B", which a test holds the verb to.
func verb[In, Out any](name, says, example, said string, answer func(In) (Out, error)) Verb {
	run := func(text []byte) (any, error) {
		var in In
		if err := read(text, &in); err != nil {
			return nil, err
		}
		return answer(in)
	}
	return Verb{name, says, example, reflect.TypeFor[In](), said, run}
}
