package verbstest

import (
	"encoding/json"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"haulm/almanac/verbs"
)

// mostTries bounds the search for inputs that a verb answers, for each wanted.
const mostTries = 60

// Varied gives inputs that the verb answers, n of them unless fewer are found:
// its seeds with numbers, dates and lists changed, and fields left out.
func Varied(verb verbs.Verb, n int) [][]byte {
	draw := rand.New(rand.NewPCG(uint64(n), uint64(len(verb.Name))))
	seeds := Seeds(verb)
	var found [][]byte
	for try := 0; len(found) < n && try < n*mostTries; try++ {
		var whole any
		if json.Unmarshal(seeds[try%len(seeds)], &whole) != nil {
			continue
		}
		v := varying{draw, 0.02 + 0.3*draw.Float64()*draw.Float64(), draw.IntN(4) == 0, 1 + draw.IntN(8)}
		in, err := json.Marshal(v.value(whole, "", 0))
		if err != nil {
			continue
		}
		if _, err := verbs.Run(verb.Name, in); err == nil {
			found = append(found, in)
		}
	}
	return found
}

// A varying changes one input.
type varying struct {
	draw     *rand.Rand
	much     float64 // how far numbers move, as a share of themselves
	leaveOut bool
	longest  int // how many times a list is as long as it was, at most
}

// value changes a value. nth is which copy it is of an item of a list, from 0.
func (v varying) value(value any, name string, nth int) any {
	switch was := value.(type) {
	case float64:
		return v.number(was)
	case string:
		return v.text(was, name, nth)
	case []any:
		return v.list(was, nth)
	case map[string]any:
		return v.object(was, nth)
	}
	return value
}

// number keeps whole numbers whole, since some fields want those.
func (v varying) number(was float64) float64 {
	if v.draw.IntN(3) == 0 {
		return was
	}
	now := was + v.much*v.draw.NormFloat64()*max(1, math.Abs(was))
	if was == math.Trunc(was) && v.draw.IntN(20) > 0 {
		return math.Round(now)
	}
	return now
}

// text moves dates, those of further copies by a step each, and gives each copy
// a name of its own.
func (v varying) text(was, name string, nth int) string {
	for _, layout := range []string{time.DateOnly, time.RFC3339, "2006-01"} {
		if t, err := time.Parse(layout, was); err == nil {
			return t.AddDate(0, 0, nth+int(100*v.much*v.draw.NormFloat64())*min(1, v.draw.IntN(3))).Format(layout)
		}
	}
	if t, err := time.Parse("2006-01-02", "2004-"+was); err == nil {
		return t.AddDate(0, 0, int(100*v.much*v.draw.NormFloat64())).Format("01-02")
	}
	if nth > 0 && (name == "id" || name == "planting") {
		return was + string(rune('a'+nth%26)) + string(rune('a'+nth/26%26))
	}
	return was
}

// list makes lists of objects longer; the lengths of others are often tied to
// each other.
func (v varying) list(was []any, nth int) []any {
	times := 1
	if len(was) > 0 {
		if _, objects := was[0].(map[string]any); objects {
			times = 1 + v.draw.IntN(v.longest)
		}
	}
	now := make([]any, 0, times*len(was))
	for copies := range times {
		for _, one := range was {
			now = append(now, v.value(one, "", nth+copies*len(was)))
		}
	}
	return now
}

func (v varying) object(was map[string]any, nth int) map[string]any {
	now := map[string]any{}
	for _, name := range slices.Sorted(maps.Keys(was)) {
		if v.leaveOut && v.draw.IntN(8) == 0 {
			continue
		}
		now[name] = v.value(was[name], name, nth)
	}
	return now
}
