package bloom

import "haulm/garden"

// A Plant is a planting with all that was seen at it and done to it.
type Plant struct {
	garden.Planting
	Looks []Look        // in any order
	Work  []garden.Work // work on the planting or its bed, in any order
	// AtLeastDays is how long what is reckoned as flower lasts for certain, such
	// as being up; 0 for flower itself, which may be over before anybody comes.
	AtLeastDays float64
	Before      *Before // nil for a plant of its own
}

// A Before is what a planting was before it was moved, lifted or divided off another.
type Before struct {
	Planted  *garden.PartialDate // the first of its forebears; nil is not known: long ago
	Flowered bool                // any of them was seen to
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
