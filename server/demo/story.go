package demo

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"

	"haulm/garden"
)

//go:embed garden.json
var gardenText []byte

// A story is garden.json: what was invented by hand.
type story struct {
	About      string         `json:"about"`
	Garden     map[string]any `json:"garden"` // fields of its record
	SpringDays float64        `json:"springDays"`
	People     []person       `json:"people"`
	Away       []garden.Span  `json:"away"` // holidays: nobody looks
	Rounds     []told         `json:"rounds"`
	Beds       []place        `json:"beds"`
	Structures []place        `json:"structures"`
	Plantings  []sown         `json:"plantings"`
	Works      []deed         `json:"works"`
	PutAside   []putAside     `json:"putAside"`
}

// A person goes round with a share of the rounds.
type person struct {
	Name  string  `json:"name"`
	Share float64 `json:"share"`
}

// A told is a round that certainly took place, past every plant.
type told struct {
	Day garden.Day `json:"day"`
	By  string     `json:"by"`
}

// A place is a bed or a structure.
type place struct {
	ID     string         `json:"id"`
	Fields map[string]any `json:"fields"`
}

// A sown is a planting: its record's fields, what is so, and what was written.
type sown struct {
	ID      string         `json:"id"`
	Fields  map[string]any `json:"fields"`
	Truth   truth          `json:"truth"`
	Written []written      `json:"written"`
}

// A truth is what sets a planting apart from a healthy one of its kind.
type truth struct {
	As          *garden.BloomWindow `json:"as"`          // when it really flowers: it is another kind than the record says
	Evergreen   bool                `json:"evergreen"`   // as that other kind is
	Late        map[int]float64     `json:"late"`        // days, by year
	Up          map[int]float64     `json:"up"`          // days late coming up, by year
	Blind       []int               `json:"blind"`       // years without flower
	NotUp       []int               `json:"notUp"`       // years in which it does not come up
	Pace        float64             `json:"pace"`        // of growth, the usual being 1; 0 is not said
	Size        *float64            `json:"size"`        // where in its kind's range of heights it ends, 0 to 1
	StandsFrom  *garden.Day         `json:"standsFrom"`  // it grows no more
	Cuts        []cut               `json:"cuts"`        // that set its height back
	UnseenAfter *garden.Day         `json:"unseenAfter"` // nobody passes it on a round
}

// A cut is what was left of a planting's height on a day.
type cut struct {
	Day    garden.Day `json:"day"`
	LeftCm float64    `json:"leftCm"`
}

// A written is what one person put down by hand at one planting.
type written struct {
	Day      garden.Day `json:"day"`
	By       string     `json:"by"`
	Note     string     `json:"note"`
	Measured bool       `json:"measured"` // the height too
	Signs    []string   `json:"signs"`
	Vigour   int        `json:"vigour"`
}

// A deed is work that belongs to a story, on a planting or a bed.
type deed struct {
	Planting     string     `json:"planting"`
	Bed          string     `json:"bed"`
	Day          garden.Day `json:"day"`
	What         string     `json:"what"`
	By           string     `json:"by"`
	Amount       string     `json:"amount"`
	Minutes      float64    `json:"minutes"`
	HeightLeftCm float64    `json:"heightLeftCm"`
	Note         string     `json:"note"`
}

// A putAside is a finding that somebody dismissed.
type putAside struct {
	Planting string     `json:"planting"`
	Flush    string     `json:"flush"`
	Finding  string     `json:"finding"`
	Why      string     `json:"why"`
	Day      garden.Day `json:"day"`
}

func readStory() (s story, err error) {
	if err := strictly(gardenText, &s); err != nil {
		return s, fmt.Errorf("garden.json: %w", err)
	}
	return s, nil
}

// strictly decodes JSON and refuses misspelt fields.
func strictly(text []byte, into any) error {
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	return decoder.Decode(into)
}
