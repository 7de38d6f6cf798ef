package garden

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A rule judges the JSON of one known field and gives the problem, or nil.
type rule func(field string, value json.RawMessage) *Problem

// The longest texts, in characters. A note may be a page of a diary; a name is
// what fits a label. Bounds keep one field from filling a phone.
const (
	longestName = 200
	longestNote = 20_000
	longestList = 500
)

// number allows a JSON number within [lo, hi].
func number(lo, hi float64) rule {
	return func(field string, value json.RawMessage) *Problem {
		if x, ok := asNumber(value); !ok || x < lo || x > hi {
			return invalid(field, value, fmt.Sprintf("a number from %g to %g", lo, hi))
		}
		return nil
	}
}

// whole allows a JSON number within [lo, hi] that is written without a point or
// an exponent, since Decode reads no other into a whole number.
func whole(lo, hi int) rule {
	return func(field string, value json.RawMessage) *Problem {
		if x, err := strconv.Atoi(string(value)); err != nil || x < lo || x > hi {
			return invalid(field, value, fmt.Sprintf("a whole number from %d to %d, in digits alone", lo, hi))
		}
		return nil
	}
}

// text allows a string of at most longest characters.
func text(longest int) rule {
	return func(field string, value json.RawMessage) *Problem {
		if s, ok := asString(value); !ok || utf8.RuneCountInString(s) > longest {
			return invalid(field, value, fmt.Sprintf("a text of at most %d characters", longest))
		}
		return nil
	}
}

// oneOf allows a string out of a fixed list; the empty string is "not said".
func oneOf(words ...string) rule {
	return func(field string, value json.RawMessage) *Problem {
		if s, ok := asString(value); !ok || s != "" && !slices.Contains(words, s) {
			return invalid(field, value, "one of "+strings.Join(words, ", "))
		}
		return nil
	}
}

// parsed allows a string that parse accepts; bound says what that is.
func parsed[T any](parse func(string) (T, error), bound string) rule {
	return func(field string, value json.RawMessage) *Problem {
		s, ok := asString(value)
		if ok {
			_, err := parse(s)
			ok = err == nil
		}
		if !ok {
			return invalid(field, value, bound)
		}
		return nil
	}
}

// listOf allows an array of at most longest items that each pass the rule.
func listOf(longest int, item rule) rule {
	return func(field string, value json.RawMessage) *Problem {
		var items []json.RawMessage
		if json.Unmarshal(value, &items) != nil || len(items) > longest {
			return invalid(field, value, fmt.Sprintf("a list of at most %d", longest))
		}
		for i, one := range items {
			if p := item(fmt.Sprintf("%s[%d]", field, i), one); p != nil {
				return p
			}
		}
		return nil
	}
}

// object allows an object whose known fields each pass their rule, named in
// order; required ones must be there and not null.
func object(required string, rules map[string]rule) rule {
	names := slices.Sorted(maps.Keys(rules))
	return func(field string, value json.RawMessage) *Problem {
		var fields map[string]json.RawMessage
		if json.Unmarshal(value, &fields) != nil || fields == nil {
			return invalid(field, value, "an object")
		}
		for _, name := range strings.Fields(required) {
			if one, there := fields[name]; !there || string(one) == "null" {
				return invalid(field, value, "an object with "+strings.Join(strings.Fields(required), ", "))
			}
		}
		for _, name := range names {
			if one, there := fields[name]; there && string(one) != "null" {
				if p := rules[name](field+"."+name, one); p != nil {
					return p
				}
			}
		}
		return misspelt(field, fields, names)
	}
}

// misspelt refuses a name that differs from a known one by case alone: it would
// be read as that one, unchecked.
func misspelt(field string, fields Fields, names []string) *Problem {
	for _, given := range slices.Sorted(maps.Keys(fields)) {
		for _, name := range names {
			if given != name && strings.EqualFold(given, name) {
				return invalid(field+"."+given, fields[given], "named "+name)
			}
		}
	}
	return nil
}

// orderedPair allows [lo, hi] within bounds and lo ≤ hi.
func orderedPair(lo, hi float64) rule {
	return func(field string, value json.RawMessage) *Problem {
		pair, ok := twoNumbers(value)
		if !ok || pair[0] > pair[1] || pair[0] < lo || pair[1] > hi {
			return invalid(field, value, fmt.Sprintf("two numbers, the lesser first, from %g to %g", lo, hi))
		}
		return nil
	}
}

func point(field string, value json.RawMessage) *Problem {
	xy, ok := twoNumbers(value)
	if !ok || math.Abs(xy[0]) > FarthestM || math.Abs(xy[1]) > FarthestM {
		return invalid(field, value, fmt.Sprintf("a point [x, y] within %g m of the plan's origin", FarthestM))
	}
	return nil
}

// FarthestM is how far from the plan's origin a point may lie: a large estate,
// and far below where a flat plan stops fitting the round earth.
const FarthestM = 20_000.0

// twoNumbers reads an array of two numbers, neither of them null.
func twoNumbers(value json.RawMessage) (pair [2]float64, ok bool) {
	var list []*float64
	if json.Unmarshal(value, &list) != nil || len(list) != 2 || list[0] == nil || list[1] == nil {
		return pair, false
	}
	return [2]float64{*list[0], *list[1]}, true
}

func flag(field string, value json.RawMessage) *Problem {
	if s := string(value); s != "true" && s != "false" {
		return invalid(field, value, "true or false")
	}
	return nil
}

// asNumber reads a JSON number. Raw JSON that came through a decoder is sound,
// so that its first byte tells its type.
func asNumber(value json.RawMessage) (float64, bool) {
	if len(value) == 0 || value[0] != '-' && (value[0] < '0' || value[0] > '9') {
		return 0, false
	}
	x, err := strconv.ParseFloat(string(value), 64)
	return x, err == nil
}

// asString reads a JSON string; one without escapes, as nearly all are, is what
// stands between its quotes.
func asString(value json.RawMessage) (string, bool) {
	last := len(value) - 1
	if last < 1 || value[0] != '"' || value[last] != '"' {
		return "", false
	}
	if inner := value[1:last]; bytes.IndexByte(inner, '\\') < 0 && bytes.IndexByte(inner, '"') < 0 && utf8.Valid(inner) {
		return string(inner), true
	}
	var s string
	return s, json.Unmarshal(value, &s) == nil
}

// invalid names a problem after its field: "invalid_height_cm".
func invalid(field string, value json.RawMessage, bound string) *Problem {
	base, _, _ := strings.Cut(field, "[")
	base, _, _ = strings.Cut(base, ".")
	var code strings.Builder
	code.WriteString("invalid_")
	for _, r := range base {
		if r >= 'A' && r <= 'Z' {
			code.WriteByte('_')
			r += 'a' - 'A'
		}
		code.WriteRune(r)
	}
	return problem(code.String(), field, string(value), bound)
}

func parseZone(name string) (string, error) {
	valid := name == "UTC" || strings.Count(name, "/") >= 1
	for _, r := range name {
		valid = valid && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("/_+-", r))
	}
	if !valid {
		return "", problem("invalid_time_zone", "timeZone", name, "an IANA zone, such as Europe/London")
	}
	return name, nil
}

// The first and the last year of a date in a record. A year outside them is
// mistyped ("0201"): gardens hold trees of a few centuries, and plan for decades.
const (
	FirstYear = 1500
	LastYear  = 2200
)

// InYears says whether a day is in the years of a garden, FirstYear to LastYear.
func InYears(day Day) bool { return day >= DayOf(FirstYear, 1, 1) && day <= DayOf(LastYear, 12, 31) }

// dated allows a string that parse gives a day of, in the years of a garden.
func dated(parse func(string) (Day, error), bound string) rule {
	return parsed(func(s string) (Day, error) {
		day, err := parse(s)
		if err == nil && !InYears(day) {
			err = problem("invalid_year", "date", s, bound)
		}
		return day, err
	}, fmt.Sprintf("%s, in %d to %d", bound, FirstYear, LastYear))
}

func firstOfPartialDate(s string) (Day, error) {
	date, err := ParsePartialDate(s)
	return date.First, err
}

func parseHash(s string) (string, error) {
	if len(s) != 64 || strings.Trim(s, "0123456789abcdef") != "" {
		return "", problem("invalid_hash", "photos", s, "a SHA-256 in 64 hexadecimal digits")
	}
	return s, nil
}

func parseColour(s string) (string, error) {
	if len(s) != 7 || s[0] != '#' || strings.Trim(s[1:], "0123456789abcdefABCDEF") != "" {
		return "", problem("invalid_colour", "colours", s, "#rrggbb")
	}
	return s, nil
}

func parseAnID(s string) (string, error) {
	if s != "" && !validID(s) {
		return "", problem("invalid_id", "id", s, idBound)
	}
	return s, nil
}
