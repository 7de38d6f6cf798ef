package water

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// ParseAmount reads the litres out of a work record's amount: "10 l", "2,5 L",
// "2 x 10 litres". It says no where there is no number with a unit of litres:
// cans and gallons differ by who speaks of them.
func ParseAmount(text string) (litres float64, known bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	times := 1.0
	if at := strings.IndexAny(text, "x×*"); at >= 0 {
		if times, known = plainNumber(text[:at]); !known {
			return 0, false
		}
		text = strings.TrimLeft(text[at:], "x×*")
	}
	at := strings.IndexFunc(text, unicode.IsLetter)
	if at < 0 || !slices.Contains([]string{"l", "ltr", "litre", "litres", "liter", "liters"}, strings.Trim(text[at:], " .")) {
		return 0, false
	}
	litres, known = plainNumber(text[:at])
	litres *= times
	if !known || litres > mostGivenL {
		return 0, false
	}
	return litres, true
}

// plainNumber reads digits with at most one decimal point or comma.
func plainNumber(text string) (float64, bool) {
	x, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	return x, err == nil && x >= 0 && x <= mostGivenL
}
