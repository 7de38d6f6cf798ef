package bloom

import "haulm/garden"

// A Model is a garden's flushes with the model fitted to them. It is made for
// one day: what happened later is not in it.
type Model struct {
	flushes []Flush
	on      garden.Day
}
