package materials

import "fmt"

// A bounded is a value that may be missing, with what it may be.
type bounded struct {
	field  string
	value  *float64
	lo, hi float64
}

// check fails on the first value that is outside its bounds or no number.
func check(list ...bounded) error {
	for _, b := range list {
		if b.value != nil && !(*b.value >= b.lo && *b.value <= b.hi) {
			return fmt.Errorf("%s %v is outside %v to %v", b.field, *b.value, b.lo, b.hi)
		}
	}
	return nil
}
