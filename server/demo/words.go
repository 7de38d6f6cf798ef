package demo

import (
	_ "embed"
	"fmt"
	"slices"
	"time"

	"haulm/garden"
)

//go:embed words.json
var wordsText []byte

// words is words.json: what people note in passing, by what there is to see, and
// the troubles that come and go.
type words struct {
	Notes    map[string][]string `json:"notes"`
	Troubles []affliction        `json:"troubles"`
}

// An affliction is a sign seen on some kinds in some months.
type affliction struct {
	Kinds []string   `json:"kinds"`
	Sign  string     `json:"sign"`
	From  time.Month `json:"from"`
	To    time.Month `json:"to"`
	Share float64    `json:"share"`
}

func readWords() (w words, err error) {
	if err := strictly(wordsText, &w); err != nil {
		return w, fmt.Errorf("words.json: %w", err)
	}
	return w, nil
}

// How dry it must have been for people to write of it: days with no rain to
// speak of, in summer. And how cold, and how hot.
const (
	dryDays, noRainMm, coldC, hotC = 18, 1.5, -4, 32
	weatherNoteShare               = 0.02
)

// sayNote writes a line in passing, now and then.
func (g *grower) sayNote(fields map[string]any, p plant, r round, s sight) {
	if p.ails(r.day.Year()) {
		return // what is the matter was written by hand
	}
	about := situation(p, s)
	drawn := share("notes", p.ID, r.day)
	if weather := g.weatherWorthANote(r.day); weather != "" && drawn < weatherNoteShare {
		about = weather
	}
	if lines := g.words.Notes[about]; len(lines) > 0 && drawn < noteShare {
		fields["note"] = pick(lines, "line", p.ID, r.day)
	}
}

// situation names what there is to see, as words.json does.
func situation(p plant, s sight) string {
	switch {
	case s.stage > 0:
		return map[int]string{55: "bud", 61: "first", 65: "full", 67: "going", 69: "over"}[s.stage]
	case s.up == "not-up" && p.woody():
		return "bare"
	case s.up != "":
		return s.up
	}
	return "standing"
}

// weatherWorthANote is "dry", "cold", "hot" or "".
func (g *grower) weatherWorthANote(day garden.Day) string {
	at := int(day - g.sky[0].day)
	today, rain := g.sky[at], 0.0
	for _, s := range g.sky[max(0, at-dryDays):at] {
		rain += s.rainMm
	}
	switch {
	case today.maxC >= hotC:
		return "hot"
	case today.minC <= coldC:
		return "cold"
	case rain < noRainMm && monthOf(day) > time.April && monthOf(day) < time.October:
		return "dry"
	}
	return ""
}

// trouble draws a sign that the kind is prone to at that time of year.
func (g *grower) trouble(p plant, day garden.Day) string {
	month := monthOf(day)
	for _, a := range g.words.Troubles {
		prone := slices.Contains(a.Kinds, p.Kind) && month >= a.From && month <= a.To
		if prone && share("trouble", p.ID, a.Sign, day) < a.Share {
			return a.Sign
		}
	}
	return ""
}
