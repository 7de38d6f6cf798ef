package trouble

import (
	"slices"

	"haulm/garden"
)

// A Case is one planting's looks with what the rules need to know of it.
type Case struct {
	On      garden.Day
	Looks   []Look // oldest first, none after On
	Work    []Work // oldest first, none after On
	Grafted bool
	Woody   bool  // it has wood above ground all year
	Colony  bool  // it sows itself: plants and stems come and go
	Planted *int  // how many plants went in
	Blind   []int // years that closed without flower
}

// A Look is what one observation says that bears on trouble; nil is not said.
type Look struct {
	Day    garden.Day
	Minute int // of the day by the observer's clock, from 0
	Vigour *int
	Signs  []string
	Stage  *int // BBCH
	Alive  *int // plants
	Stems  *int // in flower at once
}

// A Work is what was done on a day, which may have answered a sign.
type Work struct {
	Day  garden.Day
	What string
}

// A Trouble is one thing that is wrong. Say is its code; the other fields are its
// numbers, nil where it has none.
type Trouble struct {
	Say      string
	Grave    bool
	Day      *garden.Day // when it was seen last
	From     *garden.Day // and first
	Count    *int        // how many there are, or the grade of vigour
	Of       *int        // and were
	Measures *int        // looks that it rests on
	What     string      // the sign
	Check    []string    // codes, in order
}

// Find gives a planting's troubles, the gravest first and else in a fixed order.
func Find(c Case) []Trouble {
	var list []Trouble
	for _, rule := range []func(Case) []Trouble{failing, falling, signs, blind, fewerStems, losses} {
		list = append(list, rule(c)...)
	}
	slices.SortStableFunc(list, func(a, b Trouble) int { return weight(a) - weight(b) })
	return list
}

func weight(t Trouble) int {
	if t.Grave {
		return 0
	}
	return 1
}

// since lists the looks of the last so many days.
func (c Case) since(days garden.Day) []Look {
	at := slices.IndexFunc(c.Looks, func(l Look) bool { return l.Day >= c.On-days })
	if at < 0 {
		return nil
	}
	return c.Looks[at:]
}

// lastVigour is the look that last graded vigour within signStands days; nil when
// none did.
func (c Case) lastVigour() *Look {
	looks := c.since(signStands)
	for i := len(looks) - 1; i >= 0; i-- {
		if looks[i].Vigour != nil {
			return &looks[i]
		}
	}
	return nil
}
