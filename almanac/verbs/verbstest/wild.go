package verbstest

import (
	"encoding/json"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
)

// Wild gives an input that no person would write: a seed, which may be any
// JSON, changed in a few places. It is the seed itself where that is none, and
// is at most as many bytes as most, or the seed.
func Wild(seed []byte, chance uint64, most int) []byte {
	var whole any
	if json.Unmarshal(seed, &whole) != nil {
		return seed
	}
	w := wildness{rand.New(rand.NewPCG(chance, chance>>32)), most}
	for range 1 + w.draw.IntN(4) {
		whole = w.change(whole)
	}
	in, err := json.Marshal(whole)
	if err != nil || len(in) > max(most, len(seed)) {
		return seed
	}
	return in
}

type wildness struct {
	draw *rand.Rand
	most int
}

// change makes one change somewhere at or below a value.
func (w wildness) change(value any) any {
	if w.draw.IntN(6) > 0 {
		switch was := value.(type) {
		case []any:
			if len(was) > 0 {
				i := w.draw.IntN(len(was))
				was[i] = w.change(was[i])
				return was
			}
		case map[string]any:
			if names := slices.Sorted(maps.Keys(was)); len(names) > 0 {
				name := names[w.draw.IntN(len(names))]
				was[name] = w.change(was[name])
				return was
			}
		}
	}
	return w.replace(value)
}

func (w wildness) replace(value any) any {
	switch was := value.(type) {
	case []any:
		return w.list(was)
	case map[string]any:
		return w.object(was)
	}
	return w.leaf(value)
}

// list drops, doubles or repeats items, in all up to a share of the most bytes.
func (w wildness) list(was []any) any {
	switch w.draw.IntN(5) {
	case 0:
		return []any{}
	case 1:
		return append(was, w.leaf(nil))
	case 2:
		return nil
	}
	text, err := json.Marshal(was)
	if err != nil || len(was) == 0 {
		return was
	}
	times := 1 + w.draw.IntN(1+w.most/(1+len(text)))
	now := make([]any, 0, times*len(was))
	v := varying{w.draw, w.draw.Float64(), false, 1}
	for n := range times {
		for _, one := range was {
			now = append(now, v.value(one, "", n))
		}
	}
	return now
}

func (w wildness) object(was map[string]any) any {
	names := slices.Sorted(maps.Keys(was))
	if len(names) == 0 {
		return map[string]any{"unknown": 1}
	}
	name := names[w.draw.IntN(len(names))]
	switch w.draw.IntN(4) {
	case 0:
		delete(was, name)
	case 1:
		was[strings.ToUpper(name)] = was[name]
	case 2:
		was[name] = nil
	default:
		return []any{was}
	}
	return was
}

// leaf gives one of the values that most often break things.
func (w wildness) leaf(was any) any {
	odd := []any{0.0, -1.0, 1.0, 0.5, 1e308, -1e308, 5e-324, 1e-300, 1e12, -1e12, 1e6, 9007199254740993.0, 2147483648.0, 90.0, -90.0, 180.0, 366.0, 3650.0,
		nil, true, "", "NaN", "Infinity", "1500-01-01", "2200-12-31", "0000-00-00", "9999-12-31", "02-29", "2015-02-29",
		"0001-01-01T00:00:00Z", "9999-12-31T23:59:59+14:00", "Etc/GMT+12", "../../etc/localtime", "planting/p", strings.Repeat("a", 300), "\x00\u202e🌱", []any{}, map[string]any{}}
	if number, ok := was.(float64); ok && w.draw.IntN(2) == 0 {
		return number * []float64{-1, 0.001, 0.1, 10, 1000, 1.0000001}[w.draw.IntN(6)]
	}
	return odd[w.draw.IntN(len(odd))]
}
