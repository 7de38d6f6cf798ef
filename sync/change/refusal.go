package change

import (
	"errors"
	"fmt"

	"haulm/garden"
)

// A Refusal is why a change was not applied: a code for programs and a sentence
// for the person who wrote it. It is an error.
type Refusal struct {
	Code string `json:"code"`
	Why  string `json:"why"`
}

// Error is the sentence.
func (r *Refusal) Error() string { return r.Why }

func refuse(code, format string, values ...any) *Refusal {
	return &Refusal{Code: code, Why: fmt.Sprintf(format, values...)}
}

// RefusalOf gives the refusal that an error stands for: a *Refusal as it is, a
// *garden.Problem by its code, and any other error as not allowed.
func RefusalOf(err error) *Refusal {
	var refusal *Refusal
	if errors.As(err, &refusal) {
		return refusal
	}
	var problem *garden.Problem
	if errors.As(err, &problem) {
		return &Refusal{Code: problem.Code, Why: problem.Error()}
	}
	return &Refusal{Code: "not_allowed", Why: err.Error()}
}
