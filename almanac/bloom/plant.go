package bloom

import "haulm/garden"

// A Plant is a planting with all that was seen at it and done to it.
type Plant struct {
	garden.Planting
	Looks []Look        // in any order
	Work  []garden.Work // work on the planting or its bed, in any order
}

// A Look is what one observation says about flower and life. One that says
// neither is allowed and changes nothing.
type Look struct {
	Day         garden.Day
	Stage       *int   // BBCH 0 to 99; nil is not said
	NotInFlower bool   // said outright
	Up          string // not-up, up, in-leaf, dying-back or "" for not said
	Flush       *int   // the flush it is about, from 0, where the observer said so
	Signs       []string
}

// LookOf reads an observation. The error is a *garden.Problem when its time
// cannot be read.
func LookOf(o garden.Observation) (Look, error) {
	day, err := o.Day()
	if err != nil {
		return Look{}, err
	}
	return Look{Day: day, Stage: o.Stage, NotInFlower: o.NotInFlower, Up: o.Up, Flush: o.Flush, Signs: o.Signs}, nil
}
