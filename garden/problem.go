package garden

import "fmt"

// A Problem is a value that the garden's words do not allow. It says which
// field, what was given and what would be right, in one sentence for a person.
type Problem struct {
	Code  string // for programs, such as "invalid_stage"
	Field string // as in the record's JSON, such as "heightCm"
	Value string // what was given, shortened
	Bound string // what would be right, such as "0 to 99"
}

// Error is the sentence, such as "stage 140 is not allowed: it must be a whole
// number from 0 to 99".
func (p *Problem) Error() string {
	return fmt.Sprintf("%s %s is not allowed: it must be %s", p.Field, p.Value, p.Bound)
}

const longestShownValue = 60 // characters; a refused note is not echoed back whole

func problem(code, field, value, bound string) *Problem {
	if shown := []rune(value); len(shown) > longestShownValue {
		value = string(shown[:longestShownValue]) + "…"
	}
	return &Problem{Code: code, Field: field, Value: value, Bound: bound}
}
