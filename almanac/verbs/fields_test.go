package verbs

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Every field of every verb has its line of help, and no line is of a field
// that is gone.
func TestEveryFieldIsExplained(t *testing.T) {
	for _, verb := range All() {
		for _, field := range verb.Fields() {
			if field.Says == "" {
				t.Errorf("%s says nothing of its field %s", verb.Name, field.Path)
			}
		}
		for path := range saidOf(verb.said) {
			if !hasField(verb, path) {
				t.Errorf("%s explains %s, which it does not take", verb.Name, path)
			}
		}
	}
}

func hasField(verb Verb, path string) bool {
	for _, field := range verb.Fields() {
		if field.Path == path {
			return true
		}
	}
	return false
}

// Every bound that the help states is one that the verb holds: a value beyond
// it is refused in a sentence that names the field, the value and the bound.
func TestStatedBoundsHold(t *testing.T) {
	pushed := 0
	for _, verb := range All() {
		for _, field := range verb.Fields() {
			low, high, bounded := boundsOf(field.Says)
			if !bounded {
				continue
			}
			for _, beyond := range []float64{low - 1, high + 1, -1e308, 1e308} {
				pushed++
				t.Run(fmt.Sprintf("%s %s %v", verb.Name, field.Path, beyond), func(t *testing.T) {
					in, there := withValue(t, verb.Example, field.Path, beyond)
					if !there {
						t.Fatalf("the example has no place for it")
					}
					out, err := Run(verb.Name, in)
					if err == nil {
						t.Fatalf("%s is answered: %.200s", in, out)
					}
					if strings.HasPrefix(field.Wanted, "a whole number") && math.Abs(beyond) == 1e308 {
						return // refused for what it is
					}
					name := field.Path[strings.LastIndexAny("."+field.Path, "."):]
					bound := low
					if beyond > high {
						bound = high
					}
					if piece := strings.TrimSuffix(name, "[]"); !strings.Contains(err.Error(), piece) {
						t.Errorf("the error %q does not name the field %s", err, piece)
					}
					for _, number := range []float64{beyond, bound} {
						if !names(err, number) {
							t.Errorf("the error %q does not name %g", err, number)
						}
					}
				})
			}
		}
	}
	if pushed < 4*20 {
		t.Errorf("only %d values were tried", pushed)
	}
}

var bounds = regexp.MustCompile(`(-?[\d.]+(?:e\d+)?) to (-?[\d.]+(?:e\d+)?)`)

func boundsOf(says string) (low, high float64, bounded bool) {
	found := bounds.FindStringSubmatch(says)
	if found == nil {
		return 0, 0, false
	}
	low, errLow := strconv.ParseFloat(found[1], 64)
	high, errHigh := strconv.ParseFloat(found[2], 64)
	return low, high, errLow == nil && errHigh == nil
}

// names tells whether an error says a number, with an exponent or without.
func names(err error, number float64) bool {
	return strings.Contains(err.Error(), strconv.FormatFloat(number, 'g', -1, 64)) ||
		strings.Contains(err.Error(), strconv.FormatFloat(number, 'f', -1, 64))
}

// withValue puts a value at a path of an example: into the first item of a
// list, under the first name of an object.
func withValue(t *testing.T, example, path string, value any) (in []byte, there bool) {
	t.Helper()
	var whole any
	if err := json.Unmarshal([]byte(example), &whole); err != nil {
		t.Fatal(err)
	}
	steps := strings.Split(strings.ReplaceAll(path, "[]", ".[]"), ".")
	changed, there := put(whole, steps, value)
	in, err := json.Marshal(changed)
	if err != nil {
		t.Fatal(err)
	}
	return in, there
}

const weeksOfAYear = 52

func put(at any, steps []string, value any) (changed any, there bool) {
	if len(steps) == 0 {
		if list, isList := at.([]any); isList && len(list) > 0 && reflect.TypeOf(value).Kind() == reflect.Float64 {
			list[0] = value
			return list, true
		}
		return value, true
	}
	switch v := at.(type) {
	case nil:
		if steps[0] == "[]" { // as long as the one list of a set length
			return slices.Repeat([]any{value}, weeksOfAYear), true
		}
	case []any:
		if steps[0] != "[]" || len(v) == 0 {
			return at, false
		}
		v[0], there = put(v[0], steps[1:], value)
		return v, there
	case map[string]any:
		name := steps[0]
		if name == "*" {
			for only := range v {
				name = only
				break
			}
		}
		v[name], there = put(v[name], steps[1:], value)
		return v, there
	}
	return at, false
}
